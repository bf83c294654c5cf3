import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { compare, decimal, plus, round, times, toText } from '../lib/decimal.js';
import { type InputOf, optional, quantity, readInput, whole } from '../lib/input.js';
import { adultFromDays } from '../lib/age.js';
import { measured, sizeText } from '../lib/syringe.js';

export const flushVolumeCard = () =>
  card({
    name: 'flush-volume',
    title: 'Smallest flush volume',
    formula: 'flush = 2 × (catheter volume + add-on volume), rounded up to 0.1 mL',
    unit: 'mL',
    source:
      'INS Infusion Therapy Standards 2016, 2021, 2024: at least twice the volume of catheter and add-ons (from memory)',
    cautions: [
      'This is the least; local policy often asks for more.',
      'In a small child or under fluid restriction count the flush in the fluid balance.',
      'Saline with a preservative: at most 30 mL in 24 h in adults, none in neonates (from memory).',
      'Never force a flush against resistance.',
      deferToDevice,
    ],
    inputs: {
      catheterVolumeMl: quantity('mL', '0.001', '10', 'internal volume of the lumen'),
      addOnVolumeMl: optional(quantity('mL', '0', '10', 'extension sets and connectors; 0 when left out')),
      ageDays: optional(whole('d', '0', '45000', 'age of the patient')),
    },
  });

export type FlushVolumeInput = InputOf<ReturnType<typeof flushVolumeCard>['inputs']>;

/** The least as `value`; the next mark of a 10 mL syringe beside it. */
export interface FlushVolume extends Result {
  /** On a 10 mL syringe or, above 10 mL, a larger one. */
  readonly onSyringeMl: string;
}

/**
 * The least volume that clears a lumen: twice what catheter and add-ons hold.
 *
 * Rounded up to 0.1 mL, so that it is never less than twice the volume. It follows what the lumen holds at any age: the
 * fixed 10 to 20 mL are of adults, and are said of nobody else.
 *
 * @formula flush = 2 × (catheter volume + add-on volume), rounded up to 0.1 mL
 * @units `catheterVolumeMl` in mL; `addOnVolumeMl` in mL; `ageDays` in d; result in mL
 * @ranges
 * - `catheterVolumeMl`: 0.001 to 10 mL; internal volume of the lumen
 * - `addOnVolumeMl` (optional): 0 to 10 mL; extension sets and connectors; 0 when left out
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age of the patient
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - This is the least; local policy often asks for more.
 * - In a small child or under fluid restriction count the flush in the fluid balance.
 * - Saline with a preservative: at most 30 mL in 24 h in adults, none in neonates (from memory).
 * - Never force a flush against resistance.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source INS Infusion Therapy Standards 2016, 2021, 2024: at least twice the volume of catheter and add-ons
 *   (from memory)
 * @example
 * ```ts
 * flushVolume({ catheterVolumeMl: '0.61' }).value; // '1.3'
 * ```
 */
export function flushVolume(input: FlushVolumeInput): FlushVolume {
  const own = flushVolumeCard();
  const { catheterVolumeMl, addOnVolumeMl = decimal('0'), ageDays } = readInput(own.inputs, input);
  const held = plus(catheterVolumeMl, addOnVolumeMl);
  const twice = times(held, decimal('2'));
  const flush = round(twice, 1, 'up');
  const shown = measured(flush, '10-ml', 'up');
  const adult = ageDays !== undefined && ageDays >= adultFromDays;
  return {
    ...answerAmount(
      own,
      flush,
      [
        `catheter ${toText(catheterVolumeMl)} mL + add-ons ${toText(addOnVolumeMl)} mL = ${toText(held)} mL`,
        `2 × ${toText(held)} mL = ${toText(twice)} mL`,
        `rounded up to 0.1 mL: ${toText(flush)} mL`,
        `a ${sizeText(shown.syringe)} syringe shows steps of ${shown.stepMl} mL: ${toText(shown.volumeMl)} mL there`,
      ],
      raisedWhere(
        [
          compare(flush, decimal('20')) > 0,
          'MORE THAN 20 ML: no flush of a line is so large; check the volumes of lumen and add-ons.',
        ],
        [adult, 'After blood or viscous fluid 10 to 20 mL are usual in adults (INS, from memory).'],
      ),
    ),
    onSyringeMl: toText(shown.volumeMl),
  };
}
