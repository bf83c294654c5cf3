import type { Rule, Schedule } from '@dwellward/policy';
import { activityRow, findingRow } from '@dwellward/profiles';
import { heldSince, holds } from './applies.js';
import { nominalMs } from '../timeline/calendar.js';
import { damageBy } from '../timeline/damage.js';
import { confirmedSince, judgesItsFinding } from '../facts/external-length.js';
import type { CountedFrom } from '../model/care.js';
import type { Moment } from '../facts/moment.js';
import { plannedAct } from '../timeline/planned-acts.js';
import { countedFrom, leadStart, startOf } from './starts.js';
import { eventsOn, findingsOn, firstShown, removedMs, shows } from '../timeline/timeline.js';
import type { Ref } from '../model/record.js';
import { recordedTime } from '../record/times.js';

/** The time that a schedule gives, and what it counts from. */
export interface Found {
  readonly dueByMs: number;
  /** Nominal length of its interval, for choosing between equal times and for the lead. */
  readonly intervalMs: number;
  readonly countedFrom: CountedFrom;
  /** The findings or the event behind it. */
  readonly because: readonly Ref[];
  /** When it opens, where the schedule says so itself. */
  readonly opensMs?: number;
  /** When the plan that it counts from came to be known. */
  readonly sinceMs?: number;
}

/** When a schedule alone would have its activity done on a target; undefined where it asks for nothing now. */
export function bySchedule(rule: Rule, schedule: Schedule, at: Moment): Found | undefined {
  switch (schedule.kind) {
    case 'interval':
      return byInterval(rule, schedule, at);
    case 'fixed-times':
      return byFixedTimes(rule, schedule, at);
    case 'at-once':
      return atOnce(rule, schedule, at);
    case 'chain':
      return byChain(rule, schedule, at);
    case 'before':
      return beforePlan(rule, schedule, at);
    case 'once':
      return once(rule, schedule, at);
    case 'hold':
    case 'anchor':
      return undefined;
  }
}

function byInterval(
  rule: Rule,
  schedule: Extract<Schedule, { kind: 'interval' }>,
  { timeline, target }: Moment,
): Found | undefined {
  const start = startOf(timeline, rule, target);
  const inserted = timeline.insertion?.ms ?? timeline.earliest?.ms;
  const done = eventsOn(timeline, rule.activity, target).length;
  if (schedule.atMost !== undefined && done >= schedule.atMost) return undefined;
  const every = start.last === undefined ? (schedule.firstAfterInsertion ?? schedule.every) : schedule.every;
  // Nothing at all is on record: it is due now.
  const dueByMs = start.ms === undefined ? timeline.asOfMs : timeline.calendar.add(start.ms, every);
  if (schedule.untilAfterInsertion && inserted !== undefined) {
    if (dueByMs > timeline.calendar.add(inserted, schedule.untilAfterInsertion)) return undefined;
  }
  return { dueByMs, intervalMs: nominalMs(every), countedFrom: start.countedFrom, because: [] };
}

function byFixedTimes(
  rule: Rule,
  schedule: Extract<Schedule, { kind: 'fixed-times' }>,
  { timeline, target }: Moment,
): Found | undefined {
  const start = startOf(timeline, rule, target);
  const fromMs = start.ms ?? timeline.asOfMs;
  const dueByMs = timeline.calendar.nextSlot(fromMs, schedule.daysOfWeek, schedule.timesOfDay);
  return dueByMs === undefined
    ? undefined
    : { dueByMs, intervalMs: dueByMs - fromMs, countedFrom: start.countedFrom, because: [] };
}

/**
 * At once after the first finding that no event has met. A finding known only by its day is met by an event of the
 * next day at the earliest: it may have been seen after that day's. Damage asks for nothing once it was repaired, and
 * a repair meets it only where it was of that damage: `damage.ts` says which.
 */
function atOnce(rule: Rule, schedule: Extract<Schedule, { kind: 'at-once' }>, at: Moment): Found | undefined {
  const { timeline, target } = at;
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  // Of a line that is out only what was found since then still asks for something.
  const outMs = removedMs(timeline) ?? -Infinity;
  const { answeredBy } = findingRow(schedule.finding);
  const itself = judgesItsFinding(rule);
  const unmet = findingsOn(timeline, schedule.finding, target).filter((found) => {
    const { fact, ms, latestMs } = found;
    if (!shows(fact, schedule.values) || latestMs < outMs) return false;
    if (itself && (confirmedSince(timeline, found) || !holds(rule, { ...at, ms }).holds)) return false;
    // What is charted at the same time as the trouble does not end it.
    const endsMs = Math.max(ms + 1, latestMs);
    if (schedule.until?.some((sign) => firstShown(timeline, sign, target, endsMs))) return false;
    if (answeredBy && damageBy(timeline, found)?.endMs !== Infinity) return false;
    return rule.activity === answeredBy || last === undefined || latestMs > last.ms;
  });
  const [first] = unmet;
  if (!first) return undefined;
  return {
    dueByMs: first.ms,
    intervalMs: 0,
    countedFrom: countedFrom(timeline, 'finding', first.fact.ref, first),
    because: unmet.map(({ fact }) => fact.ref),
  };
}

function byChain(
  rule: Rule,
  schedule: Extract<Schedule, { kind: 'chain' }>,
  { timeline, target }: Moment,
): Found | undefined {
  const before = eventsOn(timeline, schedule.after, target).at(-1);
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  if (!before) return undefined;
  const dueByMs = timeline.calendar.add(before.ms, schedule.offset);
  const { until } = schedule;
  // A chain that a finding ends is looked at again at its own time: what was done before that does not meet it. A look
  // tells of the moment at which it is done, so one before its window opened is no look after so long.
  const intervalMs = nominalMs(schedule.offset);
  const meets = until
    ? dueByMs
    : activityRow(rule.activity).look
      ? leadStart(rule, dueByMs, intervalMs, timeline)
      : -Infinity;
  if (last && last.ms >= Math.max(before.latestMs, meets)) return undefined;
  if (until?.some((sign) => firstShown(timeline, sign, target, before.latestMs))) return undefined;
  return {
    dueByMs,
    intervalMs,
    countedFrom: countedFrom(timeline, 'chain-event', before.fact.ref, before),
    because: [before.fact.ref],
  };
}

/**
 * Counted back from the time for which another act is planned. What was done before the window opened, or before the
 * plan was known, does not meet it: a wash of last week is none before tomorrow’s insertion.
 */
function beforePlan(
  rule: Rule,
  schedule: Extract<Schedule, { kind: 'before' }>,
  at: Moment,
): Found | undefined {
  const { timeline, target } = at;
  const plan = plannedAct(timeline, schedule.of);
  if (!plan) return undefined;
  const { calendar, asOfMs } = timeline;
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  if (plan.ms === undefined) {
    // What takes less than a day waits until the time is known.
    if (nominalMs(schedule.offset) < nominalMs({ value: 1, unit: 'd' })) return undefined;
    if (last && last.ms >= plan.sinceMs) return undefined;
    return { dueByMs: asOfMs, intervalMs: 0, countedFrom: { basis: 'nothing' }, because: [plan.ref] };
  }
  const latestMs = calendar.add(plan.ms, schedule.offset, -1);
  // Of a day without an hour the evening before is that of the day before.
  const dueByMs = schedule.timesOfDay
    ? calendar.lastSlot(plan.imprecise ? plan.ms : latestMs, schedule.timesOfDay)
    : latestMs;
  const intervalMs = nominalMs(schedule.offset);
  const done = last !== undefined && last.ms >= leadStart(rule, dueByMs, intervalMs, timeline);
  // What came to hold only since then has not been looked at.
  if (done && last.ms >= (heldSince(rule, at) ?? -Infinity)) return undefined;
  const counted = countedFrom(timeline, 'plan', plan.ref, { ...plan, ms: plan.ms });
  return { dueByMs, intervalMs, countedFrom: counted, because: [plan.ref], sinceMs: plan.sinceMs };
}

// Common practice, no source: what is ordered for a time may be begun an hour before it.
const onceLeadMs = 3_600_000;

/** Once, for the time that an order gives; what is done on that day, or later, meets it. */
function once(
  rule: Rule,
  { from: start, by }: Extract<Schedule, { kind: 'once' }>,
  { timeline, target }: Moment,
): Found | undefined {
  const { calendar } = timeline;
  const time = recordedTime(by);
  if (!time) return undefined;
  const first = recordedTime(start) ?? time;
  const dueByMs = calendar.latest(time);
  const startMs = calendar.earliest(first);
  const opens = startMs < dueByMs ? startMs : dueByMs - onceLeadMs;
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  if (last && last.latestMs >= calendar.startOfDay(opens)) return undefined;
  const { order = '' } = rule.origin;
  const counted = countedFrom(timeline, 'plan', order, {
    ms: dueByMs,
    ...(time.precision === 'instant' ? {} : { imprecise: time }),
  });
  return { dueByMs, intervalMs: 0, countedFrom: counted, because: [], opensMs: opens };
}
