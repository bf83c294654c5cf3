import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { decimal, divide, toText } from '../lib/decimal.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';

export const frenchToMmCard = () =>
  card({
    name: 'french-to-mm',
    title: 'French (Charrière) to millimetres',
    formula: 'mm = Fr / 3, to 0.001 mm',
    unit: 'mm',
    source: 'Definition of the French scale: outer diameter in thirds of a millimetre',
    cautions: [
      'French is the outer diameter; the inner diameter depends on the wall and has to come from the maker.',
      deferToDevice,
    ],
    inputs: { french: quantity('[Ch]', '0.5', '40', 'catheter size in French') },
  });

export type FrenchToMmInput = InputOf<ReturnType<typeof frenchToMmCard>['inputs']>;

/**
 * The outer diameter of a catheter in millimetres. Rounded once, to the nearest 0.001 mm.
 *
 * @formula mm = Fr / 3, to 0.001 mm
 * @units `french` in [Ch]; result in mm
 * @ranges
 * - `french`: 0.5 to 40 [Ch]; catheter size in French
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - French is the outer diameter; the inner diameter depends on the wall and has to come from the maker.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Definition of the French scale: outer diameter in thirds of a millimetre
 * @example
 * ```ts
 * frenchToMm({ french: '14.5' }).value; // '4.833'
 * ```
 */
export function frenchToMm(input: FrenchToMmInput): Result {
  const own = frenchToMmCard();
  const { french } = readInput(own.inputs, input);
  const diameter = divide(french, decimal('3'), 3, 'nearest');
  return answerAmount(own, diameter, [`${toText(french)} Fr ÷ 3 = ${toText(diameter)} mm`]);
}
