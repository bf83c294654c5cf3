import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { decimal, times, toText } from '../lib/decimal.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';

export const mmToFrenchCard = () =>
  card({
    name: 'mm-to-french',
    title: 'Millimetres to French (Charrière)',
    formula: 'Fr = 3 × mm',
    unit: '[Ch]',
    source: 'Definition of the French scale: outer diameter in thirds of a millimetre',
    cautions: ['Give the outer diameter; an inner diameter has no French size.', deferToDevice],
    inputs: { outerDiameterMm: quantity('mm', '0.1', '15', 'outer diameter of the catheter') },
  });

export type MmToFrenchInput = InputOf<ReturnType<typeof mmToFrenchCard>['inputs']>;

/**
 * The French size of an outer diameter. Exact, nothing is rounded.
 *
 * @formula Fr = 3 × mm
 * @units `outerDiameterMm` in mm; result in [Ch]
 * @ranges
 * - `outerDiameterMm`: 0.1 to 15 mm; outer diameter of the catheter
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Give the outer diameter; an inner diameter has no French size.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Definition of the French scale: outer diameter in thirds of a millimetre
 * @example
 * ```ts
 * mmToFrench({ outerDiameterMm: '1.35' }).value; // '4.05'
 * ```
 */
export function mmToFrench(input: MmToFrenchInput): Result {
  const own = mmToFrenchCard();
  const { outerDiameterMm } = readInput(own.inputs, input);
  const french = times(outerDiameterMm, decimal('3'));
  return answerAmount(own, french, [`${toText(outerDiameterMm)} mm × 3 = ${toText(french)} Fr`]);
}
