import { Calendar, type CareEvent, type LineRecord, type Records } from '@dwellward/core';
import { activityRow } from '@dwellward/profiles';
import type { LeftOut } from '../left-out.js';
import { kaplanMeier, type SurvivalStep, type Watched } from '../statistics/kaplan-meier.js';
import { addDays, day } from './calendar-days.js';
import type { PeriodOptions } from './line-days.js';
import { unitAt } from './unit-at.js';

/** How long the lines of a unit stayed in until they were taken out, for any reason or for one. */
export interface Dwell {
  readonly unit: string;
  /** As the removal has it; absent of all removals together. */
  readonly reason?: string;
  readonly lines: number;
  readonly removed: number;
  /** The first day by which half or fewer were in; absent where it was not reached. */
  readonly medianDays?: number;
  /** By days since the insertion. */
  readonly curve: readonly SurvivalStep[];
}

interface WatchedLine {
  readonly unit: string;
  readonly days: number;
  /** Why it came out; absent while it is in. */
  readonly reason?: string;
}

/** What a removal without a reason on record is counted under. */
export const unsaidReason = '(no reason on record)';

/**
 * Time until removal of the lines that were put in during a period, by the unit that they were put in on and by the reason of
 * the removal (`Procedure.reasonCode`), as Kaplan and Meier estimate it.
 *
 * - Units: days. Ranges: the period as `lineDays` has it. A line that is in at the end of the period is watched until then.
 * - Errors: throws a FiguresError for a day that is none, and a CoreError for a zone that is none.
 * - Cautions: of one reason, lines that came out for another count as watched until then: the curve says what would be had
 *   there been no other reason, and is no share of all lines. Lines that were in before the period are left out.
 * - Source: Kaplan and Meier 1958 (from memory).
 *
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * dwellTimes(none, { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' }).dwell; // []
 * ```
 */
export function dwellTimes(
  records: Records,
  { from, to, zone }: PeriodOptions,
): { readonly dwell: readonly Dwell[]; readonly leftOut: readonly LeftOut[] } {
  const calendar = new Calendar(zone);
  const fromMs = calendar.earliest({ text: day('from', from), precision: 'day' });
  const toMs = calendar.earliest({ text: addDays(day('to', to), 1), precision: 'day' });
  const watched: WatchedLine[] = [];
  const leftOut: LeftOut[] = [];
  for (const line of records.lines) {
    const began = of(line, 'begins-line')[0]?.at;
    const ended = of(line, 'ends-line').at(-1);
    if (line.planned !== undefined && began === undefined) continue;
    if (began === undefined) {
      leftOut.push({
        ref: line.ref,
        counted: false,
        reason: 'how long it was in is not known: no insertion on record',
      });
      continue;
    }
    const beganMs = calendar.earliest(began);
    if (beganMs < fromMs || beganMs >= toMs) continue;
    const endMs = ended?.at === undefined ? undefined : calendar.earliest(ended.at);
    const out = endMs !== undefined && endMs < toMs;
    watched.push({
      unit: unitAt(records, line.patient.ref, beganMs, calendar),
      days: Math.max(0, calendar.daysBetween(beganMs, out ? endMs : toMs - 1)),
      ...(out ? { reason: ended?.reason ?? unsaidReason } : {}),
    });
  }
  const units = [...new Set(watched.map(({ unit }) => unit))].sort();
  return {
    dwell: units.flatMap((unit) =>
      rowsOf(
        unit,
        watched.filter((one) => one.unit === unit),
      ),
    ),
    leftOut,
  };
}

function rowsOf(unit: string, lines: readonly WatchedLine[]): Dwell[] {
  const reasons = [...new Set(lines.flatMap(({ reason }) => reason ?? []))].sort();
  return [undefined, ...(reasons.length > 1 ? reasons : [])].map((reason) => {
    const watched = lines.map(({ days, reason: own }): Watched => ({
      time: days,
      event: own !== undefined && (reason === undefined || own === reason),
    }));
    const curve = kaplanMeier(watched);
    const median = curve.find(({ share }) => share <= 0.5)?.time;
    return {
      unit,
      ...(reason === undefined ? {} : { reason }),
      lines: lines.length,
      removed: watched.filter(({ event }) => event).length,
      ...(median === undefined ? {} : { medianDays: median }),
      curve,
    };
  });
}

function of({ events }: LineRecord, role: 'begins-line' | 'ends-line'): readonly CareEvent[] {
  return events.filter(
    ({ activity, status, at }) => activityRow(activity).role === role && status === 'completed' && at,
  );
}
