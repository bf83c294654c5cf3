import { type Result, answer, card, inconsistent } from '../lib/calculator.js';
import { dateOf } from '../lib/calendar.js';
import { type InputOf, date, flag, list, optional, readInput } from '../lib/input.js';

export const catheterDaysCard = () =>
  card({
    name: 'catheter-days',
    title: 'Catheter days of one patient by calendar day',
    formula: 'calendar days of the period with at least one line in place; several lines on a day count once',
    unit: 'd',
    source:
      'CDC NHSN Patient Safety Component Manual, chapter 4, January 2026: one line-day per patient and day whatever the number of lines (seen)',
    cautions: [
      'A manual count at one time of the day leaves out the day of removal where the line was out by then: set countRemovalDay to false.',
      'Some programs divide hours by 24 instead; the two counts must not be mixed.',
      'Presence counts here; whether a line was accessed decides eligibility, not line days.',
    ],
    refuses: ['a period that ends before it begins', 'a removal before the insertion'],
    inputs: {
      lines: list(
        0,
        200,
        {
          insertedOn: date('day of insertion, or of arrival on the unit'),
          removedOn: optional(date('day of removal, or of leaving the unit; left out while in place')),
        },
        'every line of the patient',
      ),
      periodFrom: date('first day of the period'),
      periodTo: date('last day of the period'),
      countRemovalDay: optional(flag('the day of removal counts; yes when left out')),
    },
  });

export type CatheterDaysInput = InputOf<ReturnType<typeof catheterDaysCard>['inputs']>;

/**
 * Line days of one patient in a period. Day of insertion included.
 *
 * @formula calendar days of the period with at least one line in place; several lines on a day count once
 * @units result in d
 * @ranges
 * - `lines`: a list of 0 to 200 entries; every line of the patient
 * - `lines[].insertedOn`: a date YYYY-MM-DD of the years 1900 to 2199; day of insertion, or of arrival on
 *   the unit
 * - `lines[].removedOn` (optional): a date YYYY-MM-DD of the years 1900 to 2199; day of removal, or of
 *   leaving the unit; left out while in place
 * - `periodFrom`: a date YYYY-MM-DD of the years 1900 to 2199; first day of the period
 * - `periodTo`: a date YYYY-MM-DD of the years 1900 to 2199; last day of the period
 * - `countRemovalDay` (optional): true or false; the day of removal counts; yes when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: a period that ends before it begins
 * @throws {@link CalculatorError} where refused together: a removal before the insertion
 * @cautions
 * - A manual count at one time of the day leaves out the day of removal where the line was out by then: set
 *   countRemovalDay to false.
 * - Some programs divide hours by 24 instead; the two counts must not be mixed.
 * - Presence counts here; whether a line was accessed decides eligibility, not line days.
 * @source CDC NHSN Patient Safety Component Manual, chapter 4, January 2026: one line-day per patient and
 *   day whatever the number of lines (seen)
 * @example
 * ```ts
 * catheterDays({ periodFrom: '2026-04-01', periodTo: '2026-04-30', lines: [] }).value; // 0
 * ```
 */
export function catheterDays(input: CatheterDaysInput): Result<number> {
  const own = catheterDaysCard();
  const { lines, periodFrom, periodTo, countRemovalDay = true } = readInput(own.inputs, input);
  if (periodTo < periodFrom) {
    throw inconsistent(
      'periodTo',
      dateOf(periodTo),
      `a date on or after the beginning, ${dateOf(periodFrom)}`,
    );
  }
  const spans = lines.map(({ insertedOn, removedOn }, index) => {
    if (removedOn !== undefined && removedOn < insertedOn) {
      throw inconsistent(`lines[${index}].removedOn`, dateOf(removedOn), `on or after ${dateOf(insertedOn)}`);
    }
    const last = removedOn === undefined ? periodTo : removedOn - (countRemovalDay ? 0 : 1);
    return { from: Math.max(insertedOn, periodFrom), to: Math.min(last, periodTo) };
  });
  spans.sort((a, b) => a.from - b.from);
  let days = 0;
  let countedTo = periodFrom - 1;
  const steps: string[] = [];
  for (const { from, to } of spans) {
    const fresh = Math.max(0, to - Math.max(from, countedTo + 1) + 1);
    days += fresh;
    countedTo = Math.max(countedTo, to);
    steps.push(
      to < from
        ? 'a line outside the period: 0 d'
        : `${dateOf(from)} to ${dateOf(to)}: ${fresh} d not counted yet`,
    );
  }
  return answer(own, days, [...steps, `together ${days} d`]);
}
