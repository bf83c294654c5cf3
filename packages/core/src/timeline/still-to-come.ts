import type { CareEvent, Finding, LineRecord, RecordedTime } from '../model/record.js';
import type { Calendar } from './calendar.js';
import type { DoneOrSeen } from '../model/sentences.js';

/**
 * Common practice, no source: clocks of charts and servers differ by minutes, and what is charted for the next ten is said to
 * nobody. Too long: a slip of a date is told late. Too short: every act charted by a clock that is ahead is told, and taken
 * back a minute later.
 */
export const aheadMs = 10 * 60_000;

/** Statuses in which a finding counts. */
export const countingFinding: ReadonlySet<string> = new Set(['final', 'amended', 'corrected', 'preliminary']);

/** What is on record as done or seen, and its time. */
export interface ToCome {
  readonly fact: CareEvent | Finding;
  readonly ms: number;
  readonly what: DoneOrSeen;
}

/**
 * What is on record as done or seen at a time still to come, the earliest first: a slip of a date, which counts for nothing
 * until then. Asked about an earlier moment it is as it should be; which of the two it is, the record can’t tell. The
 * insertion of a line that is not in yet stands apart.
 */
export function stillToCome({ events, findings }: LineRecord, calendar: Calendar, asOfMs: number): ToCome[] {
  const placed = (fact: CareEvent | Finding, at: RecordedTime | undefined, what: DoneOrSeen): ToCome[] => {
    const ms = at === undefined ? -Infinity : calendar.earliest(at);
    return ms > asOfMs + aheadMs ? [{ fact, ms, what }] : [];
  };
  return [
    ...events
      .filter(({ status }) => status === 'completed')
      .flatMap((one) => placed(one, one.at, { activity: one.activity })),
    ...findings
      .filter(({ status }) => countingFinding.has(status))
      .flatMap((one) => placed(one, one.at, { finding: one.finding })),
  ].sort((a, b) => a.ms - b.ms || (a.fact.ref < b.fact.ref ? -1 : 1));
}
