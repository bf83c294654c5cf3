import type { Span, StaticFactName, StaticFacts } from '@dwellward/policy';
import type { Known, Moment } from './moment.js';
import type { Timeline } from '../timeline/timeline.js';

/** A moment at which a fact may have changed. */
export interface Change {
  /** When the change shows. */
  readonly ms: number;
  /** When it came to be so: a result is not yet stale at its limit, but stale since then. */
  readonly sinceMs: number;
}

/** Notes a moment of change: when it came to be so and, where it shows only later, when it shows. */
export type Note = (sinceMs: number | undefined, showsMs?: number) => void;

/** When a fact may change. */
export type Changes = (timeline: Timeline, note: Note, staleAfter: Span) => void;

/** How a fact is read from the record at a moment, and when it may change. One that is not known has no value. */
export interface FactDefinition<Value> {
  readonly read: (at: Moment) => Known<Value>;
  readonly changes: Changes;
}

/** The definitions of all facts of a group: the compiler refuses one that lacks a reader or its moments of change. */
export type FactGroup<Group extends string> = {
  readonly [Name in Extract<StaticFactName, `${Group}.${string}`>]: FactDefinition<
    NonNullable<StaticFacts[Name]>
  >;
};

/** What the Device itself says never changes. */
export const never: Changes = () => undefined;

export const atEvents: Changes = ({ events }, note) => {
  for (const { ms } of events) note(ms);
};

export const atFindings: Changes = ({ findings }, note) => {
  for (const { ms } of findings) note(ms);
};

export const atEventsAndFindings: Changes = (timeline, note, staleAfter) => {
  atEvents(timeline, note, staleAfter);
  atFindings(timeline, note, staleAfter);
};

/** With every event, and where an infusion begins or ends. */
export const atUse: Changes = (timeline, note, staleAfter) => {
  atEvents(timeline, note, staleAfter);
  for (const { ms, untilMs } of timeline.infusions) {
    note(ms);
    note(untilMs);
  }
};

/** With every midnight since the line was put in, and when it was: from then on there are days to count. */
export const everyDay: Changes = (timeline, note) => {
  const start = timeline.insertion?.ms ?? timeline.earliest?.ms ?? Infinity;
  note(start);
  for (const ms of midnightsSince(start, timeline)) note(ms);
};

// Every rule that counts days asks for them, and a port may be in for ten thousand.
const midnights = new WeakMap<Timeline, readonly number[]>();

function midnightsSince(start: number, timeline: Timeline): readonly number[] {
  const known = midnights.get(timeline);
  if (known) return known;
  const found: number[] = [];
  let ms = timeline.calendar.startOfDay(timeline.asOfMs);
  while (ms > start) {
    found.push(ms);
    ms = timeline.calendar.add(ms, { value: 1, unit: 'd' }, -1);
  }
  midnights.set(timeline, found);
  return found;
}

/** With every result, and when it goes stale. */
export const atMeasurements: Changes = ({ measurements, calendar }, note, staleAfter) => {
  for (const { ms } of measurements) {
    const staleMs = calendar.add(ms, staleAfter);
    note(staleMs, staleMs + 1);
    note(ms);
  }
};
