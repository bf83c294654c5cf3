import type { Rule, Span } from '@dwellward/policy';
import { applies, appliesSince } from './applies.js';
import { begunOn, targetsOfRule } from './occurrences.js';
import { digest } from '../model/digest.js';
import type { Hold, Target } from '../model/care.js';
import type { Ref } from '../model/record.js';
import type { Moment } from '../facts/facts.js';
import type { Timeline } from '../timeline/timeline.js';

/** A hold with its place in time. */
export interface TimedHold {
  readonly hold: Hold;
  readonly fromMs: number;
  /** Infinity where an event ends it. */
  readonly untilMs: number;
}

/**
 * Every hold that the record has given rise to, over or not: what must not be done, on what, until when. A hold is what
 * a rule that forbids makes of a line.
 */
export function holdsOf(timeline: Timeline, rules: readonly Rule[], staleAfter: Span): TimedHold[] {
  return rules
    .filter(({ effect }) => effect === 'forbid')
    .flatMap((rule) =>
      targetsOfRule(rule, timeline).flatMap((target) =>
        holdsByRule(rule, { timeline, target, ms: timeline.asOfMs, staleAfter }),
      ),
    )
    .sort((a, b) => a.fromMs - b.fromMs || (a.hold.id < b.hold.id ? -1 : 1));
}

function holdsByRule(rule: Rule, at: Moment): TimedHold[] {
  if (!applies(rule, at).applies) return [];
  const { timeline } = at;
  if (rule.begins.kind === 'while') {
    const startMs = (timeline.insertion ?? timeline.earliest)?.ms ?? timeline.asOfMs;
    return [holdOf(rule, at, appliesSince(rule, at) ?? startMs, Infinity, timeline.insertion?.fact.ref)];
  }
  const held: TimedHold[] = [];
  for (const { occurrence, stopMs } of begunOn(rule, at)) {
    const { ms, latestMs, fact } = occurrence;
    // An act known by its day may have been done as late as its end: what lasts so long after it lasts from there.
    const lastsMs = rule.lasts ? timeline.calendar.add(latestMs, rule.lasts) : Infinity;
    const untilMs = Math.min(stopMs, lastsMs);
    const last = held.at(-1);
    // What begins anew while it is in force makes no second hold, but may make it last longer.
    if (!last || latestMs >= last.untilMs || rule.lasts) held.push(holdOf(rule, at, ms, untilMs, fact.ref));
    else if (untilMs > last.untilMs)
      held[held.length - 1] = holdOf(rule, at, last.fromMs, untilMs, last.hold.because);
  }
  return held;
}

function holdOf(
  rule: Rule,
  at: Moment,
  fromMs: number,
  untilMs: number,
  because: Ref | undefined,
): TimedHold {
  const { calendar, line } = at.timeline;
  return {
    fromMs,
    untilMs,
    hold: {
      id: digest('hold', rule.id, line.ref, at.target.scope, at.target.ref, because ?? 'start'),
      rule,
      activity: rule.activity,
      target: at.target,
      from: calendar.text(fromMs),
      ...(Number.isFinite(untilMs) ? { until: calendar.text(untilMs) } : {}),
      ...(because ? { because } : {}),
    },
  };
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
