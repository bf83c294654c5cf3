import { activityRow } from '@dwellward/profiles';
import type { Begins, FactName, Rule, Span } from '@dwellward/policy';
import { appliesSince } from './applies.js';
import { nominalMs } from '../timeline/calendar.js';
import { begunOn, type Begun } from './occurrences.js';
import type { CountedFrom } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import { plannedAct } from '../timeline/planned-acts.js';
import { countedFrom, leadStart, startOf } from './starts.js';
import { eventsOn, removedMs } from '../timeline/timeline.js';
import type { Ref } from '../model/record.js';
import { recordedTime } from '../record/times.js';

/** The time that a rule gives by how it begins, and what it counts from. */
export interface Found {
  readonly dueByMs: number;
  /** Nominal length of its interval, for choosing between equal times and for the lead. */
  readonly intervalMs: number;
  readonly countedFrom: CountedFrom;
  /** The findings or the event behind it. */
  readonly because: readonly Ref[];
  /** Of a look in a series: when the next of the series stands for it, or that the next of another rule does. */
  readonly lapses?: number | 'with-the-next';
  /** When it opens, where the rule says so itself. */
  readonly opensMs?: number;
  /** When the planned act that it counts from came to be known. */
  readonly sinceMs?: number;
  /** The facts by whose protective reading its trigger set it going. */
  readonly byUnknown?: readonly FactName[];
}

/** When a rule would have its activity done on a target by how it begins; undefined where it asks for nothing now. */
export function byBegins(rule: Rule, at: Moment): Found | undefined {
  const { begins } = rule;
  switch (begins.kind) {
    case 'interval':
      return byInterval(rule, begins, at);
    case 'fixed-times':
      return byFixedTimes(rule, begins, at);
    case 'triggered':
      return byTrigger(rule, begins, at);
    case 'before':
      return beforePlanned(rule, begins, at);
    case 'while':
      return whileItApplies(rule, at);
    case 'once':
      return once(rule, begins, at);
    case 'planned':
      return undefined;
  }
}

function byInterval(
  rule: Rule,
  { every, atMost, untilAfterInsertion }: Extract<Begins, { kind: 'interval' }>,
  { timeline, target }: Moment,
): Found | undefined {
  const start = startOf(timeline, rule, target);
  const inserted = timeline.insertion?.ms ?? timeline.earliest?.ms;
  if (atMost !== undefined && eventsOn(timeline, rule.activity, target).length >= atMost) return undefined;
  // Nothing at all is on record: it is due now.
  const dueByMs = start.ms === undefined ? timeline.asOfMs : timeline.calendar.add(start.ms, every);
  const intervalMs = nominalMs(every);
  const found = { intervalMs, countedFrom: start.countedFrom, because: [] };
  if (!untilAfterInsertion || inserted === undefined) return { ...found, dueByMs };
  const endMs = timeline.calendar.add(inserted, untilAfterInsertion);
  if (dueByMs > endMs) return undefined;
  if (!activityRow(rule.activity).look) return { ...found, dueByMs };
  // A look tells of its own moment: one that was missed is not made up for, the latest of the series stands for all.
  let lookMs = dueByMs;
  let nextMs = timeline.calendar.add(lookMs, every);
  while (nextMs <= Math.min(timeline.asOfMs, endMs) && nextMs > lookMs) {
    lookMs = nextMs;
    nextMs = timeline.calendar.add(lookMs, every);
  }
  return { ...found, dueByMs: lookMs, lapses: nextMs <= endMs ? nextMs : 'with-the-next' };
}

function byFixedTimes(
  rule: Rule,
  begins: Extract<Begins, { kind: 'fixed-times' }>,
  { timeline, target }: Moment,
): Found | undefined {
  const start = startOf(timeline, rule, target);
  const fromMs = start.ms ?? timeline.asOfMs;
  const dueByMs = timeline.calendar.nextSlot(fromMs, begins.daysOfWeek, begins.timesOfDay);
  return dueByMs === undefined
    ? undefined
    : { dueByMs, intervalMs: dueByMs - fromMs, countedFrom: start.countedFrom, because: [] };
}

/** With the earliest of what its triggers ask for: the first finding that is not met, the last event. */
function byTrigger(
  rule: Rule,
  { after = atOnce }: Extract<Begins, { kind: 'triggered' }>,
  at: Moment,
): Found | undefined {
  const begun = begunOn(rule, at);
  const byFinding = afterFindings(
    rule,
    begun.filter(({ occurrence }) => occurrence.of === 'finding'),
    after,
    at,
  );
  const byEvent = afterEvent(
    rule,
    begun.filter(({ occurrence }) => occurrence.of === 'event').at(-1),
    after,
    at,
  );
  if (!byFinding || !byEvent) return byFinding ?? byEvent;
  return byFinding.dueByMs <= byEvent.dueByMs ? byFinding : byEvent;
}

const atOnce: Span = { value: 0, unit: 'min' };

/**
 * After the first finding that nothing has met or stopped. A finding known only by its day is met by an event of the
 * next day at the earliest: it may have been seen after that day's. What the activity itself puts right is met where it
 * was answered, and by nothing else.
 */
function afterFindings(rule: Rule, begun: readonly Begun[], after: Span, at: Moment): Found | undefined {
  const { timeline, target } = at;
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  // Of a line that is out only what was found since then still asks for something.
  const outMs = removedMs(timeline) ?? -Infinity;
  const unmet = begun.filter(({ occurrence: { latestMs, answeredBy }, stopMs }) => {
    if (latestMs < outMs || stopMs !== Infinity) return false;
    return answeredBy === rule.activity || last === undefined || latestMs > last.ms;
  });
  const [first] = unmet;
  if (!first) return undefined;
  const { occurrence, byUnknown } = first;
  return {
    dueByMs: timeline.calendar.add(occurrence.ms, after),
    intervalMs: nominalMs(after),
    countedFrom: countedFrom(timeline, 'finding', occurrence.fact.ref, occurrence),
    because: unmet.map(({ occurrence: { fact } }) => fact.ref),
    byUnknown,
  };
}

/** So long after the last time that the act was done, unless something stopped it. */
function afterEvent(
  rule: Rule,
  begun: Begun | undefined,
  after: Span,
  { timeline, target }: Moment,
): Found | undefined {
  if (!begun || begun.stopMs !== Infinity) return undefined;
  const { occurrence, byUnknown } = begun;
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  const dueByMs = timeline.calendar.add(occurrence.ms, after);
  const intervalMs = nominalMs(after);
  // A look tells of the moment at which it is done, so one before its window opened is no look after so long.
  const meetsMs = activityRow(rule.activity).look
    ? leadStart(rule, dueByMs, intervalMs, timeline)
    : -Infinity;
  if (last && last.ms >= Math.max(occurrence.latestMs, meetsMs)) return undefined;
  return {
    dueByMs,
    intervalMs,
    countedFrom: countedFrom(timeline, 'chain-event', occurrence.fact.ref, occurrence),
    because: [occurrence.fact.ref],
    byUnknown,
  };
}

/** At once since its condition became true; what is done from then on meets it. */
function whileItApplies(rule: Rule, at: Moment): Found | undefined {
  const { timeline, target } = at;
  const { insertion, earliest, calendar, asOfMs } = timeline;
  const sinceMs = appliesSince(rule, at) ?? insertion?.ms ?? earliest?.ms;
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  if (last && (sinceMs === undefined || last.ms >= sinceMs)) return undefined;
  const dueByMs = sinceMs ?? asOfMs;
  return {
    dueByMs,
    intervalMs: 0,
    countedFrom: { basis: 'condition', at: calendar.text(dueByMs) },
    because: [],
  };
}

/**
 * Counted back from the time for which another act is planned. What was done before the window opened, or before the
 * plan was known, does not meet it: a wash of last week is none before tomorrow’s insertion.
 */
function beforePlanned(
  rule: Rule,
  begins: Extract<Begins, { kind: 'before' }>,
  at: Moment,
): Found | undefined {
  const { timeline, target } = at;
  const planned = plannedAct(timeline, begins.of);
  if (!planned) return undefined;
  const { calendar, asOfMs } = timeline;
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  if (planned.ms === undefined) {
    // What takes less than a day waits until the time is known.
    if (nominalMs(begins.offset) < nominalMs({ value: 1, unit: 'd' })) return undefined;
    if (last && last.ms >= planned.sinceMs) return undefined;
    return { dueByMs: asOfMs, intervalMs: 0, countedFrom: { basis: 'nothing' }, because: [planned.ref] };
  }
  const latestMs = calendar.add(planned.ms, begins.offset, -1);
  // Of a day without an hour the evening before is that of the day before.
  const dueByMs = begins.timesOfDay
    ? calendar.lastSlot(planned.imprecise ? planned.ms : latestMs, begins.timesOfDay)
    : latestMs;
  const intervalMs = nominalMs(begins.offset);
  const done = last !== undefined && last.ms >= leadStart(rule, dueByMs, intervalMs, timeline);
  // What came to hold only since then has not been looked at.
  if (done && last.ms >= (appliesSince(rule, at) ?? -Infinity)) return undefined;
  const counted = countedFrom(timeline, 'plan', planned.ref, { ...planned, ms: planned.ms });
  return { dueByMs, intervalMs, countedFrom: counted, because: [planned.ref], sinceMs: planned.sinceMs };
}

// Common practice, no source: what is ordered for a time may be begun an hour before it.
const onceLeadMs = 3_600_000;

/** Once, for the time that an order gives; what is done on that day, or later, meets it. */
function once(
  rule: Rule,
  { from: start, by }: Extract<Begins, { kind: 'once' }>,
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
