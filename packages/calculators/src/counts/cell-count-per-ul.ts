import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { cellCountUnits, perUl } from '../lib/cell-count.js';
import { toText } from '../lib/decimal.js';
import { type InputOf, choice, quantity, readInput } from '../lib/input.js';

export const cellCountPerUlCard = () =>
  card({
    name: 'cell-count-per-ul',
    title: 'Cell count per microlitre from a laboratory’s own unit',
    formula: 'count per µL = count × factor of its unit',
    unit: '/uL',
    source: 'UCUM (10*9/L, 10*3/uL and others); spellings outside UCUM as laboratories print them (seen)',
    cautions: [
      'G/L of a laboratory report means 10*9/L; in UCUM G is gauss.',
      'A count without a unit can’t be used: 0.8 and 800 are both plausible.',
      deferToClinician,
    ],
    inputs: {
      count: quantity('in countUnit', '0', '1000000', 'the count as printed'),
      countUnit: choice(cellCountUnits(), 'its unit, exactly as printed'),
    },
  });

export type CellCountPerUlInput = InputOf<ReturnType<typeof cellCountPerUlCard>['inputs']>;

/**
 * A cell count per microlitre. Exact, nothing is rounded: every factor is a power of ten.
 *
 * @formula count per µL = count × factor of its unit
 * @units `count` in countUnit; result in /uL
 * @ranges
 * - `count`: 0 to 1000000 in countUnit; the count as printed
 * - `countUnit`: one of /uL, {cells}/uL, cells/uL, /mm3, /cmm, 10*6/L, 10^6/L, x10^6/L, 10*3/uL, 10^3/uL,
 *   x10*3/uL, x10^3/uL, 10*9/L, 10^9/L, x10^9/L, K/uL, k/mm3, thou/mcL, G/L, G/l, lakhs/cu.mm; its unit,
 *   exactly as printed
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - G/L of a laboratory report means 10*9/L; in UCUM G is gauss.
 * - A count without a unit can’t be used: 0.8 and 800 are both plausible.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source UCUM (10*9/L, 10*3/uL and others); spellings outside UCUM as laboratories print them (seen)
 * @example
 * ```ts
 * cellCountPerUl({ count: '1.5', countUnit: '/uL' }).value; // '1.5'
 * ```
 */
export function cellCountPerUl(input: CellCountPerUlInput): Result {
  const own = cellCountPerUlCard();
  const { count, countUnit } = readInput(own.inputs, input);
  const converted = perUl(count, countUnit);
  return answerAmount(own, converted, [`${toText(count)} ${countUnit} = ${toText(converted)} /uL`]);
}
