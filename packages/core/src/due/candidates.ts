import type { FactName, Rule, Schedule } from '@dwellward/policy';
import type { LineCareActivity } from '@dwellward/profiles';
import { nominalMs } from './calendar.js';
import { damageBy } from './damage.js';
import { confirmedSince, judgesItsFinding } from './external-length.js';
import { changesOf, factsAt, type Moment } from './known.js';
import type { CountedFrom, Target } from './model.js';
import type { Timed } from './timed.js';
import { plannedAct } from './plans.js';
import { isEmergency } from './priority.js';
import { eventsOn, findingsOn, firstShown, removedMs, shows, type Timeline } from './timeline.js';
import type { CareEvent, RecordedTime, Ref } from '../record/model.js';
import { recordedTime } from '../record/times.js';

/** A rule that holds for a target, with the time that it alone would give. */
export interface DueByRule {
  readonly rule: Rule;
  readonly dueByMs: number;
  /** Nominal length of its interval, for choosing between equal times and for the lead. */
  readonly intervalMs: number;
  readonly countedFrom: CountedFrom;
  /** When it opens, where its schedule says so itself. */
  readonly opensMs?: number;
  /** Since when the condition has held, where that moved `dueByMs`. */
  readonly heldSinceMs?: number;
  /** True where it holds only by its reading of facts that are not known. */
  readonly byUnknown: readonly FactName[];
  /** The findings or the event behind it. */
  readonly because: readonly Ref[];
}

/** What an interval counts from: the last time it was done, else the insertion, else the earliest sign of the line. */
export interface Start {
  readonly ms?: number;
  readonly countedFrom: CountedFrom;
  readonly last?: Timed<CareEvent>;
}

/** The start of the open cycle of an activity on a target. */
export function startOf(timeline: Timeline, rule: Pick<Rule, 'activity'>, target: Target): Start {
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  if (last) return { ms: last.ms, last, countedFrom: from(timeline, 'event', last.fact.ref, last) };
  const { insertion, earliest } = timeline;
  if (insertion)
    return { ms: insertion.ms, countedFrom: from(timeline, 'insertion', insertion.fact.ref, insertion) };
  if (earliest)
    return { ms: earliest.ms, countedFrom: from(timeline, 'earliest-event', earliest.ref, earliest) };
  return { countedFrom: { basis: 'nothing' } };
}

/** Whether a rule holds at a moment. */
export function holds(
  rule: Rule,
  at: Moment,
): { readonly holds: boolean; readonly byUnknown: readonly FactName[] } {
  const truth = rule.condition.evaluate(factsAt(rule.condition.uses, at));
  if (truth.is === 'unknown') return { holds: rule.whenUnknown === 'protective', byUnknown: truth.missing };
  return { holds: truth.is === 'true', byUnknown: [] };
}

/**
 * When a rule alone would have its activity done on a target; undefined where it asks for nothing now.
 * `sinceMs` is when the rule itself began to count, as a patient's order does.
 */
export function dueByRule(rule: Rule, at: Moment, sinceMs = -Infinity): DueByRule | undefined {
  // What a measurement tells of itself is asked at its own moment: a later one does not undo it.
  const itself = judgesItsFinding(rule);
  const applicability = itself ? { holds: true, byUnknown: [] } : holds(rule, at);
  if (!applicability.holds) return undefined;
  const found = bySchedule(rule, rule.schedule, at);
  if (!found) return undefined;
  const heldMs = (itself ? undefined : heldSince(rule, at, found.dueByMs)) ?? -Infinity;
  const since = Math.max(sinceMs, found.sinceMs ?? -Infinity, heldMs);
  const moved = since > found.dueByMs;
  return {
    rule,
    ...found,
    ...(moved ? { dueByMs: since, heldSinceMs: since } : {}),
    byUnknown: applicability.byUnknown,
  };
}

type Found = Pick<DueByRule, 'dueByMs' | 'intervalMs' | 'countedFrom' | 'because' | 'opensMs'> & {
  /** When the plan that it counts from came to be known. */
  readonly sinceMs?: number;
};

function bySchedule(rule: Rule, schedule: Schedule, at: Moment): Found | undefined {
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
  const ofDamage = schedule.finding === 'damage';
  const itself = judgesItsFinding(rule);
  const unmet = findingsOn(timeline, schedule.finding, target).filter((found) => {
    const { fact, ms, latestMs } = found;
    if (!shows(fact, schedule.values) || latestMs < outMs) return false;
    if (itself && (confirmedSince(timeline, found) || !holds(rule, { ...at, ms }).holds)) return false;
    // What is charted at the same time as the trouble does not end it.
    const endsMs = Math.max(ms + 1, latestMs);
    if (schedule.until?.some((sign) => firstShown(timeline, sign, target, endsMs))) return false;
    if (ofDamage && damageBy(timeline, found)?.endMs !== Infinity) return false;
    return (ofDamage && rule.activity === 'repair') || last === undefined || latestMs > last.ms;
  });
  const [first] = unmet;
  if (!first) return undefined;
  return {
    dueByMs: first.ms,
    intervalMs: 0,
    countedFrom: from(timeline, 'finding', first.fact.ref, first),
    because: unmet.map(({ fact }) => fact.ref),
  };
}

/** What finds out how things are; everything else leaves them changed. */
const looks: ReadonlySet<LineCareActivity> = new Set([
  'site-assessment',
  'patency-assessment',
  'external-length-measurement',
  'necessity-review',
]);

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
    : looks.has(rule.activity)
      ? leadStart(rule, dueByMs, intervalMs, timeline)
      : -Infinity;
  if (last && last.ms >= Math.max(before.latestMs, meets)) return undefined;
  if (until?.some((sign) => firstShown(timeline, sign, target, before.latestMs))) return undefined;
  return {
    dueByMs,
    intervalMs,
    countedFrom: from(timeline, 'chain-event', before.fact.ref, before),
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
  const countedFrom = from(timeline, 'plan', plan.ref, { ...plan, ms: plan.ms });
  return { dueByMs, intervalMs, countedFrom, because: [plan.ref], sinceMs: plan.sinceMs };
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
  const countedFrom = from(timeline, 'plan', order, {
    ms: dueByMs,
    ...(time.precision === 'instant' ? {} : { imprecise: time }),
  });
  return { dueByMs, intervalMs: 0, countedFrom, because: [], opensMs: opens };
}

/**
 * When the unbroken run in which the rule holds began; undefined where it has held from the start.
 * A rule never makes an item due before its condition began to hold.
 * @param afterMs a run that began at or before it need not be traced further back: undefined then too.
 */
export function heldSince(rule: Rule, at: Moment, afterMs = -Infinity): number | undefined {
  const { uses } = rule.condition;
  if (uses.length === 0) return undefined;
  let sinceMs: number | undefined;
  for (const change of changesOf(uses, at.timeline, at.staleAfter)) {
    if (!holds(rule, { ...at, ms: change.ms }).holds) return sinceMs;
    sinceMs = change.sinceMs;
    if (sinceMs <= afterMs) return undefined;
  }
  return holds(rule, { ...at, ms: beforeAll }).holds ? undefined : sinceMs;
}

// Before anything that a record can tell of, and well within what a calendar can hold.
const beforeAll = -6e13;

/**
 * The most protective first: earliest, then the shorter interval, then an emergency, then the later layer, then the
 * rule's id.
 */
export function compareProtection(a: DueByRule, b: DueByRule): number {
  return (
    a.dueByMs - b.dueByMs ||
    a.intervalMs - b.intervalMs ||
    Number(isEmergency([b.rule])) - Number(isEmergency([a.rule])) ||
    b.rule.origin.layer - a.rule.origin.layer ||
    (a.rule.id < b.rule.id ? -1 : a.rule.id > b.rule.id ? 1 : 0)
  );
}

/**
 * When the item opens: `dueBy` less the rule's lead, a quarter of its interval where it states none, and not before
 * the minimum spacing since the last time has passed. The spacing never moves `dueBy`.
 */
export function opensMs(found: DueByRule, start: Start, { timeline }: Moment): number {
  const { rule, dueByMs, intervalMs } = found;
  if (found.opensMs !== undefined) return Math.min(dueByMs, found.opensMs);
  const byLead = leadStart(rule, dueByMs, intervalMs, timeline);
  const spaced =
    start.ms !== undefined && rule.minimumSpacing
      ? timeline.calendar.add(start.ms, rule.minimumSpacing)
      : byLead;
  return Math.min(dueByMs, Math.max(byLead, spaced));
}

function leadStart(
  { lead }: Pick<Rule, 'lead'>,
  dueByMs: number,
  intervalMs: number,
  { calendar }: Timeline,
): number {
  return lead ? calendar.add(dueByMs, lead, -1) : dueByMs - Math.floor(intervalMs / 4);
}

function from(
  { calendar }: Timeline,
  basis: CountedFrom['basis'],
  ref: Ref,
  time: { readonly ms: number; readonly imprecise?: RecordedTime },
): CountedFrom {
  return { basis, ref, at: calendar.text(time.ms), ...(time.imprecise ? { imprecise: time.imprecise } : {}) };
}
