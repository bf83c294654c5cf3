import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { decimal, minus, plus, toText } from '../lib/decimal.js';
import { type InputOf, flag, list, optional, quantity, readInput, whole } from '../lib/input.js';

export const sampleTotalCard = () =>
  card({
    name: 'sample-total',
    title: 'Blood drawn and lost with one sampling',
    formula: 'lost = Σ tubes + discard, without the discard where it was returned',
    unit: 'mL',
    source: 'Sum of volumes (arithmetic); discarded volume counts as loss, returned volume does not',
    cautions: [
      'Returning a discard brings risks of its own: clots, contamination, mix-up of syringes (RNAO).',
      deferToClinician,
    ],
    inputs: {
      tubes: list(
        1,
        40,
        {
          volumeMl: quantity('mL', '0', '30', 'fill volume of the tube or bottle'),
          count: optional(whole('tubes', '1', '20', 'how many of them; 1 when left out')),
        },
        'tubes and bottles to fill',
      ),
      discardMl: optional(quantity('mL', '0', '60', 'blood drawn before the tubes; 0 when left out')),
      discardReturned: optional(flag('the discard went back into the patient; no when left out')),
    },
  });

export type SampleTotalInput = InputOf<ReturnType<typeof sampleTotalCard>['inputs']>;

/** Loss as `value`, everything that was drawn beside it. */
export interface SampleTotal extends Result {
  readonly drawnMl: string;
}

/**
 * What one blood sampling takes from the patient. Exact, nothing is rounded.
 *
 * @formula lost = Σ tubes + discard, without the discard where it was returned
 * @units `tubes[].volumeMl` in mL; `tubes[].count` in tubes; `discardMl` in mL; result in mL
 * @ranges
 * - `tubes`: a list of 1 to 40 entries; tubes and bottles to fill
 * - `tubes[].volumeMl`: 0 to 30 mL; fill volume of the tube or bottle
 * - `tubes[].count` (optional): a whole number from 1 to 20 tubes; how many of them; 1 when left out
 * - `discardMl` (optional): 0 to 60 mL; blood drawn before the tubes; 0 when left out
 * - `discardReturned` (optional): true or false; the discard went back into the patient; no when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Returning a discard brings risks of its own: clots, contamination, mix-up of syringes (RNAO).
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Sum of volumes (arithmetic); discarded volume counts as loss, returned volume does not
 * @example
 * ```ts
 * sampleTotal({
 *   tubes: [{ volumeMl: 3, count: 2 }, { volumeMl: '1.8' }],
 *   discardMl: 5,
 *   discardReturned: true,
 * }).value; // '7.8'
 * ```
 */
export function sampleTotal(input: SampleTotalInput): SampleTotal {
  const own = sampleTotalCard();
  const { tubes, discardMl = decimal('0'), discardReturned = false } = readInput(own.inputs, input);
  const each = tubes.flatMap(({ volumeMl, count = 1 }) => Array.from({ length: count }, () => volumeMl));
  const filled = each.reduce(plus);
  const drawn = plus(filled, discardMl);
  const lost = discardReturned ? minus(drawn, discardMl) : drawn;
  return {
    ...answerAmount(own, lost, [
      `tubes ${each.map(toText).join(' + ')} = ${toText(filled)} mL`,
      `with the discard of ${toText(discardMl)} mL drawn: ${toText(drawn)} mL`,
      discardReturned
        ? `discard returned, lost: ${toText(lost)} mL`
        : `discard not returned, lost: ${toText(lost)} mL`,
    ]),
    drawnMl: toText(drawn),
  };
}
