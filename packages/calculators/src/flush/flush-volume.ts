import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { decimal, plus, round, times, toText } from '../lib/decimal.js';
import { type InputOf, optional, quantity, readInput } from '../lib/input.js';

export const flushVolumeCard = () =>
  card({
    name: 'flush-volume',
    title: 'Smallest flush volume',
    formula: 'flush = 2 × (catheter volume + add-on volume), rounded up to 0.1 mL',
    unit: 'mL',
    source:
      'INS Infusion Therapy Standards 2016, 2021, 2024: at least twice the volume of catheter and add-ons (from memory)',
    cautions: [
      'This is the least; local policy often asks for more, and after blood or viscous fluid 10 to 20 mL are usual.',
      'In a small child or under fluid restriction count the flush in the fluid balance.',
      'Saline with a preservative: at most 30 mL in 24 h in adults, none in neonates (from memory).',
      'Never force a flush against resistance.',
      deferToDevice,
    ],
    inputs: {
      catheterVolumeMl: quantity('mL', '0.001', '30', 'internal volume of the lumen'),
      addOnVolumeMl: optional(quantity('mL', '0', '30', 'extension sets and connectors; 0 when left out')),
    },
  });

export type FlushVolumeInput = InputOf<ReturnType<typeof flushVolumeCard>['inputs']>;

/**
 * The least volume that clears a lumen: twice what catheter and add-ons hold.
 *
 * Rounded up to 0.1 mL, so that it is never less than twice the volume.
 *
 * @formula flush = 2 × (catheter volume + add-on volume), rounded up to 0.1 mL
 * @units `catheterVolumeMl` in mL; `addOnVolumeMl` in mL; result in mL
 * @ranges
 * - `catheterVolumeMl`: 0.001 to 30 mL; internal volume of the lumen
 * - `addOnVolumeMl` (optional): 0 to 30 mL; extension sets and connectors; 0 when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - This is the least; local policy often asks for more, and after blood or viscous fluid 10 to 20 mL are
 *   usual.
 * - In a small child or under fluid restriction count the flush in the fluid balance.
 * - Saline with a preservative: at most 30 mL in 24 h in adults, none in neonates (from memory).
 * - Never force a flush against resistance.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source INS Infusion Therapy Standards 2016, 2021, 2024: at least twice the volume of catheter and add-ons
 *   (from memory)
 */
export function flushVolume(input: FlushVolumeInput): Result {
  const own = flushVolumeCard();
  const { catheterVolumeMl, addOnVolumeMl = decimal('0') } = readInput(own.inputs, input);
  const held = plus(catheterVolumeMl, addOnVolumeMl);
  const twice = times(held, decimal('2'));
  const flush = round(twice, 1, 'up');
  return answerAmount(own, flush, [
    `catheter ${toText(catheterVolumeMl)} mL + add-ons ${toText(addOnVolumeMl)} mL = ${toText(held)} mL`,
    `2 × ${toText(held)} mL = ${toText(twice)} mL`,
    `rounded up to 0.1 mL: ${toText(flush)} mL`,
  ]);
}
