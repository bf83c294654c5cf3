import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { cylinderMl } from '../lib/circle.js';
import { round, toText } from '../lib/decimal.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';

export const segmentAirVolumeCard = () =>
  card({
    name: 'segment-air-volume',
    title: 'Air in a new repair segment, to withdraw before the first flush',
    formula: 'V = π · d² / 4 · L, up to 0.01 mL',
    unit: 'mL',
    source: 'Volume of a cylinder (geometry)',
    cautions: [
      'Withdraw until blood comes, not just this volume; hub and connector hold air too.',
      'Never push air towards the patient.',
      deferToDevice,
    ],
    inputs: {
      innerDiameterMm: quantity('mm', '0.1', '10', 'inner diameter of the new segment'),
      lengthCm: quantity('cm', '0.1', '60', 'length of the new segment'),
    },
  });

export type SegmentAirVolumeInput = InputOf<ReturnType<typeof segmentAirVolumeCard>['inputs']>;

/**
 * The air that a new segment holds. Rounded once, up to 0.01 mL, so that none is left by rounding.
 *
 * @formula V = π · d² / 4 · L, up to 0.01 mL
 * @units `innerDiameterMm` in mm; `lengthCm` in cm; result in mL
 * @ranges
 * - `innerDiameterMm`: 0.1 to 10 mm; inner diameter of the new segment
 * - `lengthCm`: 0.1 to 60 cm; length of the new segment
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Withdraw until blood comes, not just this volume; hub and connector hold air too.
 * - Never push air towards the patient.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Volume of a cylinder (geometry)
 * @example
 * ```ts
 * segmentAirVolume({ innerDiameterMm: '1.3', lengthCm: '9.5' }).value; // '0.13'
 * ```
 */
export function segmentAirVolume(input: SegmentAirVolumeInput): Result {
  const own = segmentAirVolumeCard();
  const { innerDiameterMm, lengthCm } = readInput(own.inputs, input);
  const exact = cylinderMl(innerDiameterMm, lengthCm);
  const air = round(exact, 2, 'up');
  return answerAmount(own, air, [
    `π × ${toText(innerDiameterMm)} mm × ${toText(innerDiameterMm)} mm ÷ 4 × ${toText(lengthCm)} cm ÷ 100 = ${toText(round(exact, 6, 'nearest'))} mL`,
    `rounded up to 0.01 mL: ${toText(air)} mL`,
  ]);
}
