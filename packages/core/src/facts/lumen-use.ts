import { activitiesWhere, activityRow } from '@dwellward/profiles';
import { intermittentMs } from '../timeline/implied-sets.js';
import { lastNeedle, nothing, type Event, type Known, type Moment } from './moment.js';
import type { Target } from '../model/care.js';
import { countUpTo, kept, lastUpTo, Lasting } from '../timeline/in-time.js';
import { compareText, isOn, type Timeline } from '../timeline/timeline.js';
import type { Ref } from '../model/record.js';

type TimedInfusion = Timeline['infusions'][number];

interface Begun {
  readonly ms: number;
  readonly fact: { readonly ref: Ref };
}

/** What is on record of a target’s use, for looking up by the moment. */
interface Uses {
  readonly infusions: Lasting<TimedInfusion>;
  /** Those that ended, by their ends. */
  readonly ended: readonly { readonly ms: number; readonly ref: Ref }[];
  /** The acts that use the lumen, as they follow each other; and of each the place of the last that did not leave it as it was. */
  readonly acts: readonly Event[];
  readonly turns: readonly number[];
  /** The first infusions on record of the line, by either way, and when the first is that may be of this target. */
  readonly elsewhere: {
    readonly infusion: Begun | undefined;
    readonly start: Begun | undefined;
    readonly ownMs: number;
  };
  /** For the pattern: every end, every act after which nothing runs, and every beginning. */
  readonly ends: readonly { readonly ms: number }[];
  readonly offs: readonly Event[];
  readonly starts: readonly Begun[];
}

function usesOn(timeline: Timeline, target: Target): Uses {
  return kept(timeline, `uses ${target.scope} ${target.ref}`, () => readUses(timeline, target));
}

function readUses(timeline: Timeline, target: Target): Uses {
  const infusions = timeline.infusions.filter(({ fact }) => isOn(timeline, fact, target));
  const events = timeline.events.filter(({ fact }) => isOn(timeline, fact, target));
  const acts = events
    .filter(({ fact }) => usesLumen.has(fact.activity))
    .sort((a, b) => a.ms - b.ms || order.indexOf(a.fact.activity) - order.indexOf(b.fact.activity));
  const turns: number[] = [];
  for (const [at, { fact }] of acts.entries())
    turns.push(passesThrough.has(fact.activity) ? (turns[at - 1] ?? -1) : at);
  const all = [
    ...timeline.infusions,
    ...timeline.events.filter(({ fact }) => fact.activity === 'infusion-start'),
  ];
  const own = all.filter(({ fact }) => fact.lumen === undefined || isOn(timeline, fact, target));
  const begun = [...infusions, ...events.filter(({ fact }) => fact.activity === 'infusion-start')];
  const stops = events.filter(({ fact }) => fact.activity === 'infusion-stop');
  return {
    infusions: new Lasting(infusions, (one) => (one.fact.running ? Infinity : (one.untilMs ?? Infinity))),
    ended: infusions
      .flatMap(({ fact: { ref }, untilMs }) => (untilMs === undefined ? [] : [{ ms: untilMs, ref }]))
      .sort((a, b) => a.ms - b.ms || compareText(a.ref, b.ref)),
    acts,
    turns,
    elsewhere: {
      infusion: timeline.infusions[0],
      start: all[timeline.infusions.length],
      ownMs: own.reduce((least, { ms }) => Math.min(least, ms), Infinity),
    },
    ends: [
      ...infusions.flatMap(({ untilMs }) => (untilMs === undefined ? [] : [{ ms: untilMs }])),
      ...stops,
    ].sort((a, b) => a.ms - b.ms),
    offs: events.filter(({ fact }) => disconnects.has(fact.activity)),
    starts: begun.sort((a, b) => (a.ms === b.ms ? 0 : a.ms - b.ms)),
  };
}

/** What runs through the target at the moment. */
export function runningInfusions(at: Moment): Timeline['infusions'] {
  return lastingInfusions(at).filter(
    ({ fact, untilMs }) => fact.running || (untilMs !== undefined && at.ms < untilMs),
  );
}

/** What had begun and had not surely ended. */
function lastingInfusions({ timeline, target, ms }: Moment): readonly TimedInfusion[] {
  return usesOn(timeline, target).infusions.from(ms, ms);
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
  const uses = usesOn(timeline, target);
  const count = countUpTo(uses.acts, ms);
  const last = uses.acts[count - 1];
  const ended = lastUpTo(uses.ended, ms);
  // What a flush or a draw leaves as it was: connected, or not.
  const turnAt = uses.turns[count - 1] ?? -1;
  const turn = uses.acts[turnAt];
  if (ended && (!turn || turn.ms < ended.ms)) return { value: 'open', refs: [ended.ref], sinceMs: ended.ms };
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
    const next = turnAt + 1 < count ? uses.acts[turnAt + 1] : undefined;
    const first = turn.fact.activity === 'lock' ? next : turn;
    return { value: 'open', refs: [last.fact.ref], sinceMs: (first ?? last).ms };
  }
  return { ...since, remark: { code: 'no-lock-since', activity: last.fact.activity } };
}

/** The first infusion that is on record of another lumen by then, where every one on record says of which lumen it is. */
function otherInfusion({ timeline, target, ms }: Moment): Ref | undefined {
  const { infusion, start, ownMs } = usesOn(timeline, target).elsewhere;
  if (ownMs <= ms) return undefined;
  return [infusion, start].find((one) => one !== undefined && one.ms <= ms)?.fact.ref;
}

/** The removal of a port’s needle that no new one followed. */
function needleOut(at: Moment): Event | undefined {
  if (at.timeline.line.type !== 'implanted-port') return undefined;
  const last = lastNeedle(at);
  return last?.fact.activity === 'access-needle-removal' ? last : undefined;
}

/** Infusions that neither run nor have an end: they may still be connected. */
export function unsureInfusions(at: Moment): Timeline['infusions'] {
  return lastingInfusions(at).filter(({ fact, untilMs }) => !fact.running && untilMs === undefined);
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
  const uses = usesOn(timeline, target);
  const ended = uses.ends[countUpTo(uses.ends, ms - intermittentMs, 'before')]?.ms ?? Infinity;
  const off = uses.offs[countUpTo(uses.offs, ended, 'before')];
  const again = off && uses.starts[countUpTo(uses.starts, off.ms, 'before')];
  // What came first of each: where that lies ahead, none has come.
  if (ended <= ms && off && off.ms <= ms && again && again.ms <= ms)
    return { value: 'intermittent', refs: [off.fact.ref, again.fact.ref], sinceMs: again.ms };
  const use = lumenUse(at);
  return use.value === 'infusing' ? { ...use, value: 'continuous' } : nothing;
}
