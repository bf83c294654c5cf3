import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { dateOf } from '../lib/calendar.js';
import { deferToClinician } from '../lib/cautions.js';
import { type Decimal, compare, toText } from '../lib/decimal.js';
import { neutrophilCautions } from '../lib/laboratory.js';
import { type InputOf, date, list, quantity, readInput } from '../lib/input.js';

export const neutrophilTrendCard = () =>
  card({
    name: 'neutrophil-trend',
    title: 'Lowest neutrophil count, its day, and the trend',
    formula: 'lowest count of each day; minimum over the days; direction between the last two days',
    unit: '/uL',
    source: 'Minimum and difference (arithmetic)',
    cautions: [
      'The lowest of the counts measured; the true lowest may lie on a day without a count.',
      deferToClinician,
    ],
    inputs: {
      counts: list(
        1,
        1000,
        {
          date: date('day of the blood sample'),
          neutrophilsPerUl: quantity(
            '/uL',
            '0',
            '100000',
            'absolute neutrophil count; a higher one is a slip of the unit, or needs its leucocytes beside it',
          ),
        },
        'the counts, in any order',
      ),
    },
  });

export type NeutrophilTrendInput = InputOf<ReturnType<typeof neutrophilTrendCard>['inputs']>;

/** Lowest count as `value`; its first day, the last day's direction and the days since beside it. */
export interface NeutrophilTrend extends Result {
  readonly lowestOn: string;
  readonly direction: 'falling' | 'steady' | 'rising' | 'one-day-only';
  readonly daysSinceLowest: number;
}

/**
 * The lowest count, the first day it was reached, and where the last two days point.
 *
 * Of several counts of one day the lowest counts: the protective reading.
 *
 * @formula lowest count of each day; minimum over the days; direction between the last two days
 * @units `counts[].neutrophilsPerUl` in /uL; result in /uL
 * @ranges
 * - `counts`: a list of 1 to 1000 entries; the counts, in any order
 * - `counts[].date`: a date YYYY-MM-DD of the years 1900 to 2199; day of the blood sample
 * - `counts[].neutrophilsPerUl`: 0 to 100000 /uL; absolute neutrophil count; a higher one is a slip of the
 *   unit, or needs its leucocytes beside it
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - The lowest of the counts measured; the true lowest may lie on a day without a count.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Minimum and difference (arithmetic)
 * @example
 * ```ts
 * neutrophilTrend({
 *   counts: [{ date: '2026-01-03', neutrophilsPerUl: '100' }, { date: '2026-01-01', neutrophilsPerUl: '900' }, { date: '2026-01-02', neutrophilsPerUl: '300' }],
 * }).value; // '100'
 * ```
 */
export function neutrophilTrend(input: NeutrophilTrendInput): NeutrophilTrend {
  const own = neutrophilTrendCard();
  const { counts } = readInput(own.inputs, input);
  const days = lowestOfEachDay(counts);
  const lowest = days.reduce((best, each) => (compare(each.count, best.count) < 0 ? each : best));
  const last = days.at(-1) ?? lowest;
  const direction = directionOf(days.at(-2), last);
  const daysSinceLowest = last.day - lowest.day;
  return {
    ...answerAmount(
      own,
      lowest.count,
      [
        ...days.map((each) => `${dateOf(each.day)}: ${toText(each.count)} /uL`),
        `lowest on ${dateOf(lowest.day)}, ${daysSinceLowest} d before the last count; ${direction}`,
      ],
      [
        ...new Set(counts.flatMap(({ neutrophilsPerUl }) => neutrophilCautions(neutrophilsPerUl))),
        ...raisedWhere([direction === 'falling', 'Still falling: the lowest count may be ahead.']),
      ],
    ),
    lowestOn: dateOf(lowest.day),
    direction,
    daysSinceLowest,
  };
}

interface DayCount {
  readonly day: number;
  readonly count: Decimal;
}

function directionOf(previous: DayCount | undefined, last: DayCount): NeutrophilTrend['direction'] {
  if (previous === undefined) return 'one-day-only';
  const change = compare(last.count, previous.count);
  return change < 0 ? 'falling' : change > 0 ? 'rising' : 'steady';
}

function lowestOfEachDay(
  counts: readonly { readonly date: number; readonly neutrophilsPerUl: Decimal }[],
): readonly DayCount[] {
  const byDay = new Map<number, Decimal>();
  for (const { date: day, neutrophilsPerUl } of counts) {
    const known = byDay.get(day);
    if (known === undefined || compare(neutrophilsPerUl, known) < 0) byDay.set(day, neutrophilsPerUl);
  }
  return [...byDay].map(([day, count]) => ({ day, count })).sort((a, b) => a.day - b.day);
}
