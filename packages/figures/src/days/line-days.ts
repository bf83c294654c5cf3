import { Calendar, type Records, type UnitStay } from '@dwellward/core';
import { FiguresError } from '../error.js';
import type { LeftOut } from '../left-out.js';
import { day, daysIn, eachDay, within, type Day, type DaySpan } from './calendar-days.js';
import { presenceOf, type Presence, type Stratum } from './line-presence.js';

/** The days of one unit in one month. */
export interface UnitDays {
  readonly unit: string;
  /** `2026-04`. */
  readonly month: string;
  readonly patientDays: number;
  /** A patient with lines on a day counts once, however many there are. */
  readonly lineDays: number;
  /** The same days by stratum: a patient with both kinds counts as temporary. */
  readonly byStratum: Readonly<Record<Stratum, number>>;
  /** A patient counts once for each type of line: more than `lineDays` where there are several types. */
  readonly byType: Readonly<Record<string, number>>;
  /** Line days over patient days; absent without patient days. */
  readonly utilisation?: number;
}

/** Line days and patient days of a period. */
export interface LineDays {
  readonly period: DaySpan;
  readonly rows: readonly UnitDays[];
  readonly leftOut: readonly LeftOut[];
  readonly cautions: readonly string[];
}

/** The period and the clock that days are counted by. */
export interface PeriodOptions {
  /** First and last day, `2026-04-01`. */
  readonly from: Day;
  readonly to: Day;
  /** The unit’s IANA time zone. */
  readonly zone: string;
}

/** What a unit is called that the record does not name. */
export const unnamedUnit = '(unit not named)';

const mostDays = 3700;

/**
 * Line days and patient days by unit and month, and the device utilisation ratio.
 *
 * A line day is a calendar day on which a patient on the unit has at least one central line in, the days of insertion, arrival
 * and removal included; several lines count once. A day on which a patient was on several units is that of the unit
 * where they were last on that day, so that units add up to the whole.
 *
 * - Units: days. Ranges: a period of up to ten years; days by the clock of `zone`.
 * - Errors: throws a {@link FiguresError} for a period that is none, a CoreError for an unknown zone.
 * - Cautions: a count by hand at one time of the day gives fewer days; whether a line was accessed makes no difference here,
 *   but does for whether an infection belongs to it. What could not be counted is in `leftOut`, with the reason.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 4: one line day for each patient and day whatever the
 *   number of lines; permanent and temporary together count as temporary. Days of a transfer: common practice, no source.
 *
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * lineDays(none, { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' }).rows; // []
 * ```
 */
export function lineDays(records: Records, options: PeriodOptions): LineDays {
  const period = { from: day('from', options.from), to: day('to', options.to) };
  if (period.to < period.from || daysIn(period) > mostDays)
    throw new FiguresError('inconsistent', 'to', period.to, `a day from ${period.from}, within ten years,`);
  const calendar = new Calendar(options.zone);
  const leftOut: LeftOut[] = [];
  const stays = placedStays(records.unitStays, calendar, leftOut);
  const lines = new Map<string, Presence[]>();
  for (const line of records.lines) {
    const { presence, said } = presenceOf(line, calendar);
    if (said) leftOut.push(said);
    if (presence) lines.set(presence.patient, [...(lines.get(presence.patient) ?? []), presence]);
  }
  const rows = new Map<string, Tally>();
  const days = eachDay(period);
  for (const [patient, own] of stays) {
    for (const at of days) {
      const [last] = own.filter((stay) => within(at, stay)).sort(laterFirst(at));
      if (last === undefined) continue;
      const month = at.slice(0, 7);
      const key = `${last.unit}\u0000${month}`;
      const row = rows.get(key) ?? emptyTally(last.unit, month);
      rows.set(key, row);
      row.patientDays++;
      count(
        row,
        (lines.get(patient) ?? []).filter(({ fromDay, untilDay }) =>
          within(at, { from: fromDay, to: untilDay ?? period.to }),
        ),
      );
    }
  }
  for (const [patient, own] of lines)
    for (const { ref } of stays.has(patient) ? [] : own)
      leftOut.push({ ref, counted: false, reason: 'no Encounter says on which unit its patient was' });
  return {
    period,
    rows: [...rows.values()]
      .map(finished)
      .sort((a, b) => compare(a.unit, b.unit) || compare(a.month, b.month)),
    leftOut,
    cautions: [
      'Days are calendar days by the definition of 2026; a count at one time of the day gives fewer.',
      'Units with other patients are not comparable without adjustment for risk.',
    ],
  };
}

type Tally = { -readonly [Key in keyof UnitDays]: UnitDays[Key] } & {
  byStratum: Record<Stratum, number>;
  byType: Record<string, number>;
};

function emptyTally(unit: string, month: string): Tally {
  return { unit, month, patientDays: 0, lineDays: 0, byStratum: { permanent: 0, temporary: 0 }, byType: {} };
}

function count(row: Tally, inPlace: readonly Presence[]): void {
  if (inPlace.length === 0) return;
  row.lineDays++;
  row.byStratum[inPlace.every(({ stratum }) => stratum === 'permanent') ? 'permanent' : 'temporary']++;
  for (const type of new Set(inPlace.map((line) => line.type)))
    row.byType[type] = (row.byType[type] ?? 0) + 1;
}

function finished(row: Tally): UnitDays {
  const byType = Object.fromEntries(Object.entries(row.byType).sort(([a], [b]) => compare(a, b)));
  return { ...row, byType, utilisation: row.lineDays / row.patientDays };
}

interface PlacedStay extends DaySpan {
  readonly unit: string;
  readonly encounter: string;
  readonly fromMs: number;
  readonly untilMs: number;
}

/** The stays of every patient on the calendar; those that can’t be placed are told. */
export function placedStays(
  stays: readonly UnitStay[],
  calendar: Calendar,
  leftOut: LeftOut[],
): ReadonlyMap<string, readonly PlacedStay[]> {
  const placed = new Map<string, PlacedStay[]>();
  for (const { patient, encounter, unit, from, until, endUnknown } of stays) {
    const wrong =
      from === undefined
        ? 'nothing says when it began'
        : endUnknown && 'it is over, and nothing says since when';
    if (from === undefined || wrong) {
      leftOut.push({ ref: encounter, counted: false, reason: wrong || '' });
      continue;
    }
    const fromMs = calendar.earliest(from);
    // A date alone is that whole day, not the midnight after it.
    const untilMs = until ? calendar.latest(until) - (until.precision === 'instant' ? 0 : 1) : Infinity;
    if (untilMs < fromMs) {
      leftOut.push({ ref: encounter, counted: false, reason: 'it ends before it begins' });
      continue;
    }
    if (unit === undefined)
      leftOut.push({
        ref: encounter,
        counted: true,
        reason: `it names no unit: its days stand under ${unnamedUnit}`,
      });
    const dayOf = (ms: number) => calendar.text(ms).slice(0, 10);
    placed.set(patient, [
      ...(placed.get(patient) ?? []),
      {
        ...{ unit: unit ?? unnamedUnit, encounter, fromMs, untilMs, from: dayOf(fromMs) },
        to: untilMs === Infinity ? '9999-12-31' : dayOf(untilMs),
      },
    ]);
  }
  return placed;
}

/** Where the patient was last on a day comes first. */
function laterFirst(at: Day): (a: PlacedStay, b: PlacedStay) => number {
  const until = (stay: PlacedStay) => (stay.to > at ? Infinity : stay.untilMs);
  return (a, b) => compare(until(b), until(a)) || b.fromMs - a.fromMs || compare(a.unit, b.unit);
}

function compare<Value extends string | number>(a: Value, b: Value): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
