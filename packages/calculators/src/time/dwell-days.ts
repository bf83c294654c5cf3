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
    inputs: {
      insertedOn: date('date of insertion'),
      asOfDate: date('date to count to'),
    },
  });

export type DwellDaysInput = InputOf<ReturnType<typeof dwellDaysCard>['inputs']>;

/**
 * Whole calendar days since insertion: 0 on the day of insertion, 1 on the next day.
 *
 * `inconsistent` is thrown where the date to count to lies before the insertion.
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
