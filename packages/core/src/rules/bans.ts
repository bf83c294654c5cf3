import type { Rule, Sign, Span } from '@dwellward/policy';
import { findingRow } from '@dwellward/profiles';
import { digest } from '../model/digest.js';
import { holds as ruleHolds } from './applies.js';
import { damageBy } from '../timeline/damage.js';
import { judgesItsFinding } from '../facts/external-length.js';
import type { Hold, Target } from '../model/care.js';
import type { Moment } from '../facts/moment.js';
import { targetsOf } from '../timeline/targets.js';
import { eventsOn, findingsOn, firstShown, shows, type Timeline } from '../timeline/timeline.js';
import type { Ref } from '../model/record.js';

/** A hold with its place in time. */
export interface TimedHold {
  readonly hold: Hold;
  readonly fromMs: number;
  /** Infinity where an event ends it. */
  readonly untilMs: number;
}

/**
 * Every hold that the record has given rise to, over or not: what must not be done, on what, until when.
 *
 * Damage and repair concern the lumen that they name, where the line has several: a hold of the line that one of them
 * begins is on that lumen alone.
 */
export function holdsOf(timeline: Timeline, rules: readonly Rule[], staleAfter: Span): TimedHold[] {
  return rules
    .filter((rule) => rule.schedule.kind === 'hold')
    .flatMap((rule) =>
      targetsOf(timeline.line, rule.scope).flatMap((target) =>
        holdsByRule(rule, target, timeline, staleAfter),
      ),
    )
    .sort((a, b) => a.fromMs - b.fromMs || (a.hold.id < b.hold.id ? -1 : 1));
}

/** A hold by one rule on one target, from when and until when, because of what. */
type Make = (fromMs: number, untilMs: number, because?: Ref, on?: Target) => TimedHold;

function holdsByRule(rule: Rule, target: Target, timeline: Timeline, staleAfter: Span): TimedHold[] {
  const { schedule } = rule;
  if (schedule.kind !== 'hold') return [];
  const at: Moment = { timeline, target, ms: timeline.asOfMs, staleAfter };
  if (!judgesItsFinding(rule) && !ruleHolds(rule, at).holds) return [];
  const { calendar, line } = timeline;
  const make: Make = (fromMs, untilMs, because, on = target) => ({
    fromMs,
    untilMs,
    hold: {
      id: digest('hold', rule.id, line.ref, on.scope, on.ref, because ?? 'start'),
      rule,
      activity: rule.activity,
      target: on,
      from: calendar.text(fromMs),
      ...(Number.isFinite(untilMs) ? { until: calendar.text(untilMs) } : {}),
      ...(because ? { because } : {}),
    },
  });
  if (schedule.from) return fromFindings(rule, schedule, schedule.from, at, make);
  if (schedule.offset) return forATime(schedule, schedule.offset, at, make);
  return [untilDone(schedule, at, make)];
}

type HoldSchedule = Extract<Rule['schedule'], { kind: 'hold' }>;

/** From the first finding that the act has not answered: what is found again meanwhile makes no second hold. */
function fromFindings(
  rule: Rule,
  { after, until }: HoldSchedule,
  from: Sign,
  at: Moment,
  make: Make,
): TimedHold[] {
  const { timeline, target } = at;
  const itself = judgesItsFinding(rule);
  const events = after === undefined ? [] : eventsOn(timeline, after, target);
  const held: TimedHold[] = [];
  for (const found of findingsOn(timeline, from.finding, target)) {
    if (!shows(found.fact, from.values)) continue;
    // The hold begins with the measurement that differs, and a later one does not end it.
    if (itself && !ruleHolds(rule, { ...at, ms: found.ms }).holds) continue;
    const { answeredBy } = findingRow(from.finding);
    const repaired = answeredBy && after === answeredBy ? damageBy(timeline, found) : undefined;
    const on = repaired ? named(target, repaired.lumen, timeline) : target;
    const doneMs = repaired?.endMs ?? events.find(({ ms }) => ms >= found.latestMs)?.ms ?? Infinity;
    // What is charted at the same time as the trouble does not end it.
    const ended = endedMs(timeline, until, target, Math.max(found.ms + 1, found.latestMs));
    const untilMs = Math.min(doneMs, ended);
    const i = held.findLastIndex(({ hold }) => hold.target.ref === on.ref);
    const last = held[i];
    if (!last || found.latestMs >= last.untilMs) held.push(make(found.ms, untilMs, found.fact.ref, on));
    else if (untilMs > last.untilMs) held[i] = make(last.fromMs, untilMs, last.hold.because, on);
  }
  return held;
}

/** So long after each act. A date-only act may have been done as late as the end of its day: the hold lasts from there. */
function forATime(
  { after, until }: HoldSchedule,
  offset: Span,
  { timeline, target }: Moment,
  make: Make,
): TimedHold[] {
  if (after === undefined) return [];
  return eventsOn(timeline, after, target).map((event) => {
    const ended = endedMs(timeline, until, target, event.latestMs);
    const untilMs = Math.min(timeline.calendar.add(event.latestMs, offset), ended);
    const on = after === 'repair' ? named(target, event.fact.lumen, timeline) : target;
    return make(event.ms, untilMs, event.fact.ref, on);
  });
}

/** From the insertion until the act was done. */
function untilDone({ after, until }: HoldSchedule, { timeline, target }: Moment, make: Make): TimedHold {
  const startMs = (timeline.insertion ?? timeline.earliest)?.ms ?? timeline.asOfMs;
  const events = after === undefined ? [] : eventsOn(timeline, after, target);
  const doneMs = events.find(({ ms }) => ms >= startMs)?.ms ?? Infinity;
  const untilMs = Math.min(doneMs, endedMs(timeline, until, target, startMs));
  return make(startMs, untilMs, timeline.insertion?.fact.ref);
}

/** The lumen that is named, where the target is a line of several; else the target. */
function named(target: Target, lumen: Ref | undefined, { line }: Timeline): Target {
  if (target.scope !== 'line' || line.lumens.length < 2) return target;
  return targetsOf(line, 'lumen').find(({ ref }) => ref === lumen) ?? target;
}

/** When the first of the findings that end it was surely seen; Infinity where none was. */
function endedMs(
  timeline: Timeline,
  until: readonly Sign[] | undefined,
  target: Target,
  fromMs: number,
): number {
  return Math.min(
    ...(until ?? []).map((sign) => firstShown(timeline, sign, target, fromMs)?.latestMs ?? Infinity),
    Infinity,
  );
}

/** Whether a hold stands in the way of an activity on a target: one on a line holds its lumens and sites too. */
export function isHeld({ hold }: TimedHold, rule: Pick<Rule, 'activity'>, target: Target): boolean {
  if (hold.activity !== rule.activity) return false;
  if (hold.target.scope === 'line') return true;
  return hold.target.scope === target.scope && hold.target.ref === target.ref;
}

/** A window after the holds: moved where it falls into one, and the hold that moved it. */
export interface HeldWindow {
  readonly opensMs: number;
  readonly dueByMs: number;
  readonly by?: TimedHold;
}

/**
 * An item whose window falls into a hold is due when the hold ends; a hold never brings anything forward. What was
 * overdue before the hold began is held too while the hold is in force, because it can't be done then.
 */
export function afterHolds(
  window: { opensMs: number; dueByMs: number },
  holds: readonly TimedHold[],
  asOfMs: number,
): HeldWindow {
  let { opensMs, dueByMs } = window;
  let by: TimedHold | undefined;
  for (const hold of [...holds].sort((a, b) => a.untilMs - b.untilMs)) {
    const inForce = hold.fromMs <= asOfMs && asOfMs < hold.untilMs;
    const overlaps = hold.fromMs <= dueByMs && opensMs < hold.untilMs;
    const overdueBefore = inForce && dueByMs < hold.fromMs;
    if (!overlaps && !overdueBefore) continue;
    const moves = dueByMs < hold.untilMs;
    if (inForce || moves) by = hold;
    // A hold that an event ends has no time to move to.
    if (!Number.isFinite(hold.untilMs)) continue;
    opensMs = Math.max(opensMs, hold.untilMs);
    dueByMs = Math.max(dueByMs, hold.untilMs);
  }
  return { opensMs, dueByMs, ...(by ? { by } : {}) };
}
