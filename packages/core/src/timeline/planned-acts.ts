import type { LineCareActivity } from '@dwellward/profiles';
import { recordedTime } from '../record/times.js';
import type { PlannedInsertion, LineRecord, RecordedTime, Ref } from '../model/record.js';
import type { Calendar } from './calendar.js';

/** An act that is planned and still to come at the moment. */
export interface PlannedAct {
  readonly activity: LineCareActivity;
  readonly ref: Ref;
  /** Absent where the record gives no time. Of a date, its start: the earlier reading. */
  readonly ms?: number;
  readonly imprecise?: RecordedTime;
  /** When it came to be known; -Infinity where that is not said. */
  readonly sinceMs: number;
}

/** How a planned insertion stands at a moment. */
export type PlannedState = 'not-known-yet' | 'open' | 'inserted' | 'withdrawn';

/**
 * How a planned insertion stands. It is done where its request says so, where an insertion says that it is based
 * on it, and where the patient was given a line of that type on the planned day or later.
 */
export function plannedState(planned: PlannedInsertion, calendar: Calendar, asOfMs: number): PlannedState {
  if (planned.since && calendar.earliest(planned.since) > asOfMs) return 'not-known-yet';
  if (planned.withdrawn) return 'withdrawn';
  if (planned.completed) return 'inserted';
  const dayMs = planned.at === undefined ? undefined : calendar.startOfDay(calendar.earliest(planned.at));
  const done = planned.insertions.some(({ at, named }) => {
    const ms = calendar.earliest(at);
    if (ms > asOfMs) return false;
    return named || (dayMs !== undefined && ms >= dayMs);
  });
  return done ? 'inserted' : 'open';
}

/** What is planned for a line, the earliest first: its insertion, and what was ordered once for a time. */
export function plannedActs(
  line: LineRecord,
  calendar: Calendar,
  asOfMs: number,
  isIn: boolean,
): readonly PlannedAct[] {
  const acts: PlannedAct[] = [];
  const add = (
    activity: LineCareActivity,
    ref: Ref,
    at: RecordedTime | undefined,
    since: RecordedTime | undefined,
  ) => {
    const sinceMs = since ? calendar.earliest(since) : -Infinity;
    if (sinceMs > asOfMs) return;
    const imprecise = at && at.precision !== 'instant' ? { imprecise: at } : {};
    acts.push({ activity, ref, ...(at ? { ms: calendar.earliest(at) } : {}), ...imprecise, sinceMs });
  };
  const { planned } = line;
  if (planned && !isIn && plannedState(planned, calendar, asOfMs) === 'open')
    add('insertion', planned.ref, planned.at, planned.since);
  for (const { activity, ref, begins, from } of line.orders) {
    if (begins.kind === 'once') add(activity, ref, recordedTime(begins.from ?? begins.by), from);
  }
  // One without a time is due before every other.
  return acts.sort((a, b) => (a.ms ?? -Infinity) - (b.ms ?? -Infinity) || (a.ref < b.ref ? -1 : 1));
}

/** The next act of an activity that is planned for the line. */
export function plannedAct(
  { planned }: { readonly planned: readonly PlannedAct[] },
  activity: LineCareActivity,
): PlannedAct | undefined {
  return planned.find((one) => one.activity === activity);
}

/** The planned insertion of a line that is not in yet. */
export function plannedInsertion(timeline: {
  readonly planned: readonly PlannedAct[];
}): PlannedAct | undefined {
  return plannedAct(timeline, 'insertion');
}
