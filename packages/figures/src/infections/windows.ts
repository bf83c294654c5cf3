import { addDays, day, within, type Day, type DaySpan } from '../days/calendar-days.js';
import { FiguresError } from '../error.js';

// NHSN Patient Safety Component Manual, January 2026, chapter 2.
const aroundTestDays = 3;
const repeatDays = 14;
const eligibleFromDay = 3;

/**
 * Infection window period: the day of the first positive diagnostic test with the three calendar days before and after it.
 *
 * - Units: calendar days of the unit. Errors: throws a {@link FiguresError} where the day is none.
 * - Cautions: endocarditis and bone infection have a longer one of 21 days, which is not this.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 2.
 *
 * @example
 * ```ts
 * infectionWindow('2026-06-04'); // { from: '2026-06-01', to: '2026-06-07' }
 * ```
 */
export function infectionWindow(test: Day): DaySpan {
  return { from: addDays(day('test', test), -aroundTestDays), to: addDays(test, aroundTestDays) };
}

/**
 * Date of event: the day of the first element of the definition within the infection window period.
 *
 * - Units: calendar days. Errors: throws a {@link FiguresError} where a day is none.
 * - Cautions: elements outside of the window do not count; the test itself is one.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 2.
 *
 * @example
 * ```ts
 * dateOfEvent('2026-06-04', ['2026-06-01', '2026-05-20']); // '2026-06-01'
 * ```
 */
export function dateOfEvent(test: Day, elements: readonly Day[]): Day {
  const window = infectionWindow(test);
  return elements
    .filter((at) => within(day('elements', at), window))
    .reduce((first, at) => (at < first ? at : first), test);
}

/**
 * Repeat infection timeframe: 14 days of which the date of event is the first; it ends with the admission.
 *
 * - Units: calendar days. Errors: throws a {@link FiguresError} where a day is none.
 * - Cautions: only a primary bloodstream infection begins one for bloodstream infections; a readmission does not inherit it.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 2.
 *
 * @example
 * ```ts
 * repeatTimeframe('2026-06-01'); // { from: '2026-06-01', to: '2026-06-14' }
 * ```
 */
export function repeatTimeframe(event: Day, discharged?: Day): DaySpan {
  const to = addDays(day('event', event), repeatDays - 1);
  return { from: event, to: discharged !== undefined && discharged < to ? discharged : to };
}

/**
 * Secondary attribution period of an infection elsewhere: its window and its repeat timeframe together, 14 to 17 days.
 *
 * - Units: calendar days. Errors: throws a {@link FiguresError} where a day is none.
 * - Cautions: a blood culture in it must share an organism with the site to be secondary; that is for a person to judge.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 2.
 *
 * @example
 * ```ts
 * secondaryAttribution('2026-06-04', '2026-06-04'); // { from: '2026-06-01', to: '2026-06-17' }
 * ```
 */
export function secondaryAttribution(test: Day, event: Day): DaySpan {
  const { from } = infectionWindow(test);
  const { to } = repeatTimeframe(event);
  return { from: event < from ? event : from, to };
}

/**
 * Whether an infection was present on admission (day of admission, the two days before, the day after) or came later.
 *
 * - Units: calendar days. Errors: throws a {@link FiguresError} where a day is none.
 * - Cautions: the date of event decides, not the day of the culture.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 2.
 *
 * @example
 * ```ts
 * onsetOf('2026-06-03', '2026-06-01'); // 'healthcare-associated'
 * ```
 */
export function onsetOf(
  event: Day,
  admitted: Day,
): 'before-admission' | 'present-on-admission' | 'healthcare-associated' {
  if (day('event', event) < addDays(day('admitted', admitted), -2)) return 'before-admission';
  return event <= addDays(admitted, 1) ? 'present-on-admission' : 'healthcare-associated';
}

/** When a central line was in and accessed. */
export interface LineTime {
  readonly inserted: Day;
  /** First access in an inpatient place of this admission; of a line placed there, its insertion. Absent: never. */
  readonly accessed?: Day;
  /** Absent while it is in. */
  readonly removed?: Day;
}

/**
 * The days on which a bloodstream infection can belong to a central line: from the third consecutive day after first access to
 * the day after removal or discharge.
 *
 * Lines that follow each other count on; a full calendar day without any line begins anew. Taking the needle out of a port
 * does not end it.
 *
 * - Units: calendar days. Open lines end with `until`.
 * - Errors: throws a {@link FiguresError} where a day is none or a removal comes before the insertion.
 * - Cautions: a line that nobody accessed is not eligible, though its days are in the denominator.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 4, Table 3.
 *
 * @example
 * ```ts
 * const line = { inserted: '2026-03-20', accessed: '2026-04-02', removed: '2026-04-04' };
 * eligibleDays([line], { until: '2026-04-06' }); // [{ from: '2026-04-04', to: '2026-04-05' }]
 * ```
 */
export function eligibleDays(
  lines: readonly LineTime[],
  { until, discharged }: { readonly until: Day; readonly discharged?: Day },
): readonly DaySpan[] {
  const end = discharged !== undefined && discharged < until ? discharged : until;
  const spans = lines
    .flatMap(({ inserted, accessed, removed }): DaySpan[] => {
      if (removed !== undefined && day('removed', removed) < day('inserted', inserted))
        throw new FiguresError('inconsistent', 'removed', removed, `a day from ${inserted}`);
      if (accessed === undefined) return [];
      const from = day('accessed', accessed) > inserted ? accessed : inserted;
      const to = removed !== undefined && removed < end ? removed : end;
      return from <= to ? [{ from, to }] : [];
    })
    .sort((a, b) => (a.from < b.from ? -1 : 1));
  const runs: DaySpan[] = [];
  for (const span of spans) {
    const last = runs.at(-1);
    // Removed on one day and placed on the next: no calendar day was without a line.
    if (last && span.from <= addDays(last.to, 1))
      runs[runs.length - 1] = { from: last.from, to: span.to > last.to ? span.to : last.to };
    else runs.push(span);
  }
  return runs.flatMap(({ from, to }) => {
    const first = addDays(from, eligibleFromDay - 1);
    // Eligible only when the line was still in on its third day; then through the day after.
    const stillIn = to === until && discharged === undefined;
    const last = stillIn ? to : addDays(to, 1);
    return first <= to ? [{ from: first, to: last }] : [];
  });
}

/** Where a patient was, in the order of time; `to` is the day they left. */
export interface LocationStay extends DaySpan {
  readonly location: string;
}

/**
 * The place that an infection belongs to: where the patient was on the date of event; but of an event on the day of a transfer
 * or discharge, or the day after, the place they came from; after several moves, the first place of the day before.
 *
 * - Units: calendar days. Undefined where nothing says where the patient was.
 * - Errors: throws a {@link FiguresError} where a day is none.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 2 (transfer rule).
 *
 * @example
 * ```ts
 * const stays = [
 *   { location: 'ICU', from: '2026-06-01', to: '2026-06-05' },
 *   { location: 'Ward', from: '2026-06-05', to: '2026-06-20' },
 * ];
 * attributedTo('2026-06-06', stays); // 'ICU'
 * attributedTo('2026-06-07', stays); // 'Ward'
 * ```
 */
export function attributedTo(event: Day, stays: readonly LocationStay[]): string | undefined {
  const dayBefore = addDays(day('event', event), -1);
  const inOrder = [...stays].sort((a, b) =>
    a.from < b.from ? -1 : a.from > b.from ? 1 : a.to < b.to ? -1 : 1,
  );
  const left = inOrder.filter(({ to }) => to === event || to === dayBefore);
  if (left.length > 0) {
    const [first] = inOrder.filter((stay) => within(dayBefore, stay));
    return (first ?? left[0])?.location;
  }
  return inOrder.find((stay) => within(event, stay))?.location;
}
