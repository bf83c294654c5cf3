import { type Result, answer, card, inconsistent } from '../lib/calculator.js';
import { dateOf } from '../lib/calendar.js';
import { type InputOf, date, readInput } from '../lib/input.js';

export const dwellDaysCard = () =>
  card({
    name: 'dwell-days',
    title: 'Days a line has been in place',
    formula: 'dwell days = date − date of insertion, 0 on the day itself',
    unit: 'd',
    source: 'Difference of calendar dates (arithmetic)',
    cautions: [
      'Not the count for infection surveillance, where the day of insertion is day 1: see catheter-days.',
      'Both dates must be of the unit’s own zone.',
      'No number of days is by itself a reason to replace a line; ask every day whether it is still needed.',
    ],
    refuses: ['a date before the insertion'],
    inputs: {
      insertedOn: date('date of insertion'),
      asOfDate: date('date to count to'),
    },
  });

export type DwellDaysInput = InputOf<ReturnType<typeof dwellDaysCard>['inputs']>;

/**
 * Whole calendar days since insertion: 0 on the day of insertion, 1 on the next day.
 *
 * @formula dwell days = date − date of insertion, 0 on the day itself
 * @units result in d
 * @ranges
 * - `insertedOn`: a date YYYY-MM-DD of the years 1900 to 2199; date of insertion
 * - `asOfDate`: a date YYYY-MM-DD of the years 1900 to 2199; date to count to
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: a date before the insertion
 * @cautions
 * - Not the count for infection surveillance, where the day of insertion is day 1: see catheter-days.
 * - Both dates must be of the unit’s own zone.
 * - No number of days is by itself a reason to replace a line; ask every day whether it is still needed.
 * @source Difference of calendar dates (arithmetic)
 * @example
 * ```ts
 * dwellDays({ insertedOn: '2026-05-05', asOfDate: '2026-05-05' }).value; // 0
 * ```
 */
export function dwellDays(input: DwellDaysInput): Result<number> {
  const own = dwellDaysCard();
  const { insertedOn, asOfDate } = readInput(own.inputs, input);
  if (asOfDate < insertedOn) {
    throw inconsistent(
      'asOfDate',
      dateOf(asOfDate),
      `a date on or after the insertion, ${dateOf(insertedOn)}`,
    );
  }
  const days = asOfDate - insertedOn;
  return answer(own, days, [`${dateOf(asOfDate)} − ${dateOf(insertedOn)} = ${days} d`]);
}
