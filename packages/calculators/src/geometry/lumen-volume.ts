import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice, printedVolumeFirst } from '../lib/cautions.js';
import { cylinderMl } from '../lib/circle.js';
import { round, toText } from '../lib/decimal.js';
import { type InputOf, choice, optional, quantity, readInput } from '../lib/input.js';

export const lumenVolumeCard = () =>
  card({
    name: 'lumen-volume',
    title: 'Internal volume of a lumen',
    formula: 'V = π · d² / 4 · L, to 0.001 mL',
    unit: 'mL',
    source: 'Volume of a cylinder (geometry)',
    cautions: [
      printedVolumeFirst,
      'Hub, extension and connector are not in it; their volume comes on top.',
      deferToDevice,
    ],
    inputs: {
      innerDiameterMm: quantity('mm', '0.1', '10', 'inner diameter of the lumen'),
      lengthCm: quantity('cm', '0.1', '200', 'length of the catheter from hub to tip'),
      rounding: optional(
        choice(
          ['nearest', 'up', 'down'],
          'up before a flush or lock, down before a dose; nearest when left out',
        ),
      ),
    },
  });

export type LumenVolumeInput = InputOf<ReturnType<typeof lumenVolumeCard>['inputs']>;

/**
 * The volume a lumen holds, from its inner diameter and length.
 *
 * Rounded once, to 0.001 mL. No direction is safe for every use, so the caller may choose it: up before a flush or
 * a lock, down before a dose.
 *
 * @formula V = π · d² / 4 · L, to 0.001 mL
 * @units `innerDiameterMm` in mm; `lengthCm` in cm; result in mL
 * @ranges
 * - `innerDiameterMm`: 0.1 to 10 mm; inner diameter of the lumen
 * - `lengthCm`: 0.1 to 200 cm; length of the catheter from hub to tip
 * - `rounding` (optional): one of nearest, up, down; up before a flush or lock, down before a dose; nearest
 *   when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Where the maker prints a volume on the limb or in the leaflet, use that volume instead of a computed
 *   one.
 * - Hub, extension and connector are not in it; their volume comes on top.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Volume of a cylinder (geometry)
 * @example
 * ```ts
 * lumenVolume({ innerDiameterMm: 0.6, lengthCm: 50, rounding: 'up' }).value; // '0.142'
 * ```
 */
export function lumenVolume(input: LumenVolumeInput): Result {
  const own = lumenVolumeCard();
  const { innerDiameterMm, lengthCm, rounding = 'nearest' } = readInput(own.inputs, input);
  const exact = cylinderMl(innerDiameterMm, lengthCm);
  const volume = round(exact, 3, rounding);
  return answerAmount(own, volume, [
    `π × ${toText(innerDiameterMm)} mm × ${toText(innerDiameterMm)} mm ÷ 4 × ${toText(lengthCm)} cm ÷ 100 = ${toText(round(exact, 6, 'nearest'))} mL`,
    `rounded ${rounding} to 0.001 mL: ${toText(volume)} mL`,
  ]);
}
