import { activitiesWhere, activityRow } from '@dwellward/profiles';
import { intermittentMs } from '../timeline/implied-sets.js';
import { lastNeedle, nothing, type Event, type Known, type Moment } from './moment.js';
import { compareText, isOn, type Timeline } from '../timeline/timeline.js';
import type { Ref } from '../model/record.js';

/** What runs through the target at the moment. */
export function runningInfusions({ timeline, target, ms }: Moment): Timeline['infusions'] {
  return timeline.infusions.filter(
    ({ fact, ms: from, untilMs }) =>
      isOn(timeline, fact, target) && from <= ms && (fact.running || (untilMs !== undefined && ms < untilMs)),
  );
}

/**
 * Whether a lumen is infusing, locked, or open: neither, since what ran ended, or since a locked lumen was drawn from or
 * flushed and not locked again. Not known where nothing on record tells of it, or where something may still run.
 */
export function lumenUse(at: Moment): Known<'infusing' | 'locked' | 'open'> {
  const { timeline, target, ms } = at;
  const running = runningInfusions(at);
  if (running.length > 0) {
    const sinceMs = Math.min(...running.map((one) => one.ms));
    return {
      value: 'infusing',
      refs: running.map(({ fact }) => fact.ref),
      ...(Number.isFinite(sinceMs) ? { sinceMs } : {}),
    };
  }
  const unsure = unsureInfusions(at);
  if (unsure.length > 0)
    return {
      refs: unsure.map(({ fact }) => fact.ref),
      remark: { code: 'infusion-without-end' },
    };
  const uses = timeline.events
    .filter(
      ({ fact, ms: when }) => when <= ms && isOn(timeline, fact, target) && usesLumen.has(fact.activity),
    )
    .sort((a, b) => a.ms - b.ms || order.indexOf(a.fact.activity) - order.indexOf(b.fact.activity));
  const last = uses.at(-1);
  const ended = timeline.infusions
    .filter(({ fact, untilMs }) => isOn(timeline, fact, target) && untilMs !== undefined && untilMs <= ms)
    .sort((a, b) => (a.untilMs ?? 0) - (b.untilMs ?? 0) || compareText(a.fact.ref, b.fact.ref))
    .at(-1);
  // What a flush or a draw leaves as it was: connected, or not.
  const turn = uses.filter(({ fact }) => !passesThrough.has(fact.activity)).at(-1);
  if (ended && (!turn || turn.ms < (ended.untilMs ?? 0))) {
    return {
      value: 'open',
      refs: [ended.fact.ref],
      ...(ended.untilMs === undefined ? {} : { sinceMs: ended.untilMs }),
    };
  }
  // Nothing runs through a port without its needle.
  const out = needleOut(at);
  if (out && !(turn && turn.ms > out.ms)) {
    return {
      value: turn?.fact.activity === 'lock' ? 'locked' : 'open',
      refs: [out.fact.ref],
      sinceMs: out.ms,
    };
  }
  if (!turn) {
    // Infusions are charted on this line, and none on this lumen: none runs through it.
    const elsewhere = otherInfusion(at);
    if (elsewhere) return { value: 'open', refs: [elsewhere] };
  }
  if (!last) return nothing;
  const since = { refs: [last.fact.ref], sinceMs: last.ms };
  if (last.fact.activity === 'lock') return { ...since, value: 'locked' };
  if (last.fact.activity === 'infusion-start') return { ...since, value: 'infusing' };
  if (turn && turn.fact.activity !== 'infusion-start') {
    const first = turn.fact.activity === 'lock' ? uses[uses.indexOf(turn) + 1] : turn;
    return { value: 'open', refs: [last.fact.ref], sinceMs: (first ?? last).ms };
  }
  return { ...since, remark: { code: 'no-lock-since', activity: last.fact.activity } };
}

/** The first infusion that is on record of another lumen by then, where every one on record says of which lumen it is. */
function otherInfusion({ timeline, target, ms }: Moment): Ref | undefined {
  const known = [
    ...timeline.infusions,
    ...timeline.events.filter(({ fact }) => fact.activity === 'infusion-start'),
  ].filter(({ ms: from }) => from <= ms);
  if (known.some(({ fact }) => fact.lumen === undefined || isOn(timeline, fact, target))) return undefined;
  return known[0]?.fact.ref;
}

/** The removal of a port’s needle that no new one followed. */
function needleOut(at: Moment): Event | undefined {
  if (at.timeline.line.type !== 'implanted-port') return undefined;
  const last = lastNeedle(at);
  return last?.fact.activity === 'access-needle-removal' ? last : undefined;
}

/** Infusions that neither run nor have an end: they may still be connected. */
export function unsureInfusions({ timeline, target, ms }: Moment): Timeline['infusions'] {
  return timeline.infusions.filter(
    ({ fact, ms: from, untilMs }) =>
      isOn(timeline, fact, target) && from <= ms && !fact.running && untilMs === undefined,
  );
}

/** In the order in which they follow each other where all are charted at one time. */
const order = [...activitiesWhere(({ turn }) => turn)].sort(
  (a, b) => (activityRow(a).turn ?? 0) - (activityRow(b).turn ?? 0),
);
const usesLumen = new Set(order);
const passesThrough = new Set(activitiesWhere(({ leavesLumen }) => leavesLumen === 'as-it-was'));
/** After it nothing runs. */
const disconnects = new Set(
  activitiesWhere(({ leavesLumen }) => leavesLumen === 'locked' || leavesLumen === 'open'),
);

/**
 * Intermittent where, within 24 hours, an infusion ended, the lumen was then locked or disconnected, and another
 * began: the set was taken off between them. A bag that follows another without that is continuous.
 */
export function infusionPattern(at: Moment): Known<'continuous' | 'intermittent'> {
  const { timeline, target, ms } = at;
  const done = timeline.events.filter((event) => event.ms <= ms && isOn(timeline, event.fact, target));
  const through = timeline.infusions.filter(({ fact }) => isOn(timeline, fact, target));
  const stops = done.filter(({ fact }) => fact.activity === 'infusion-stop');
  const ended = Math.min(
    ...([...through.map(({ untilMs }) => untilMs), ...stops.map((stop) => stop.ms)].filter(
      (end) => end !== undefined && end <= ms && end >= ms - intermittentMs,
    ) as number[]),
  );
  const off = done.find((event) => event.ms >= ended && disconnects.has(event.fact.activity));
  const again =
    off &&
    [
      ...through.filter((infusion) => infusion.ms >= off.ms && infusion.ms <= ms),
      ...done.filter(({ fact, ms: when }) => fact.activity === 'infusion-start' && when >= off.ms),
    ].sort((a, b) => a.ms - b.ms)[0];
  if (off && again) return { value: 'intermittent', refs: [off.fact.ref, again.fact.ref], sinceMs: again.ms };
  const use = lumenUse(at);
  return use.value === 'infusing' ? { ...use, value: 'continuous' } : nothing;
}
