import { type Result, answerAmount, card, inconsistent } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { cellCountUnits, perUl } from '../lib/cell-count.js';
import { compare, decimal, plus, toText } from '../lib/decimal.js';
import { neutrophilCautions } from '../lib/laboratory.js';
import { type InputOf, choice, optional, quantity, readInput } from '../lib/input.js';

export const neutrophilsFromAbsoluteCountsCard = () =>
  card({
    name: 'neutrophils-from-absolute-counts',
    title: 'Absolute neutrophil count from absolute segmented neutrophils and bands',
    formula: 'ANC = segmented + bands',
    unit: '/uL',
    source: 'CDC NHSN Patient Safety Component Manual, chapter 4, January 2026, p. 4-10',
    cautions: ['Both counts must be of the same blood sample and in the same unit.', deferToClinician],
    refuses: ['more than 100,000 /uL together'],
    inputs: {
      segmented: quantity('in countUnit', '0', '1000000', 'segmented neutrophils'),
      bands: optional(quantity('in countUnit', '0', '1000000', 'bands; 0 when left out')),
      countUnit: choice(cellCountUnits(), 'unit of both counts, exactly as printed'),
    },
  });

export type NeutrophilsFromAbsoluteCountsInput = InputOf<
  ReturnType<typeof neutrophilsFromAbsoluteCountsCard>['inputs']
>;

/**
 * Neutrophils per microlitre from two absolute counts. Exact, nothing is rounded.
 *
 * @formula ANC = segmented + bands
 * @units `segmented` in countUnit; `bands` in countUnit; result in /uL
 * @ranges
 * - `segmented`: 0 to 1000000 in countUnit; segmented neutrophils
 * - `bands` (optional): 0 to 1000000 in countUnit; bands; 0 when left out
 * - `countUnit`: one of /uL, {cells}/uL, cells/uL, /mm3, /cmm, 10*6/L, 10^6/L, x10^6/L, 10*3/uL, 10^3/uL,
 *   x10*3/uL, x10^3/uL, 10*9/L, 10^9/L, x10^9/L, K/uL, k/mm3, thou/mcL, G/L, G/l, lakhs/cu.mm; unit of both
 *   counts, exactly as printed
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: more than 100,000 /uL together
 * @cautions
 * - Both counts must be of the same blood sample and in the same unit.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source CDC NHSN Patient Safety Component Manual, chapter 4, January 2026, p. 4-10
 * @example
 * ```ts
 * neutrophilsFromAbsoluteCounts({ segmented: '0.3', countUnit: '10*9/L' }).value; // '300'
 * ```
 */
export function neutrophilsFromAbsoluteCounts(input: NeutrophilsFromAbsoluteCountsInput): Result {
  const own = neutrophilsFromAbsoluteCountsCard();
  const { segmented, bands = decimal('0'), countUnit } = readInput(own.inputs, input);
  const sum = plus(segmented, bands);
  const count = perUl(sum, countUnit);
  if (compare(count, decimal('100000')) > 0)
    throw inconsistent(
      'segmented',
      `${toText(count)} /uL`,
      '0 to 100000 /uL together: a higher count is a slip of the unit, or needs its leucocytes beside it',
    );
  return answerAmount(
    own,
    count,
    [
      `${toText(segmented)} + ${toText(bands)} = ${toText(sum)} ${countUnit}`,
      `${toText(sum)} ${countUnit} = ${toText(count)} /uL`,
    ],
    neutrophilCautions(count),
  );
}
