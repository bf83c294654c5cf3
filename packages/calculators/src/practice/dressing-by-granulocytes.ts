import { type Result, answer, card } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, toText } from '../lib/decimal.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';
import { granulocytesForDailyDressing, practiceSource } from '../lib/practice.js';

export const dressingByGranulocytesCard = () =>
  card({
    name: 'dressing-by-granulocytes',
    title: 'Dressing changes a week by granulocytes (older practice)',
    formula: 'below 200 /uL: every day (7 a week); otherwise three a week',
    unit: '/wk',
    source: practiceSource,
    cautions: [
      granulocytesForDailyDressing().guidance,
      'A damp, loosened or soiled dressing is changed at once, whatever the count.',
      deferToClinician,
    ],
    inputs: { granulocytesPerUl: quantity('/uL', '0', '1000000', 'granulocytes') },
  });

export type DressingByGranulocytesInput = InputOf<ReturnType<typeof dressingByGranulocytesCard>['inputs']>;

/**
 * How many dressing changes a week. Exactly 200 /uL is not below 200.
 *
 * @formula below 200 /uL: every day (7 a week); otherwise three a week
 * @units `granulocytesPerUl` in /uL; result in /wk
 * @ranges
 * - `granulocytesPerUl`: 0 to 1000000 /uL; granulocytes
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - No national guideline with a neutrophil-triggered interval was found; gauze every 2 days, transparent
 *   every 7 days, at once when damp, loosened or soiled (CDC 2011).
 * - A damp, loosened or soiled dressing is changed at once, whatever the count.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source common practice, no source
 */
export function dressingByGranulocytes(input: DressingByGranulocytesInput): Result<number> {
  const own = dressingByGranulocytesCard();
  const { granulocytesPerUl } = readInput(own.inputs, input);
  const low = compare(granulocytesPerUl, decimal(granulocytesForDailyDressing().value)) < 0;
  return answer(own, low ? 7 : 3, [
    `${toText(granulocytesPerUl)} /uL is ${low ? 'below' : 'not below'} 200 /uL: ${low ? 'every day' : 'three times a week'}`,
  ]);
}
