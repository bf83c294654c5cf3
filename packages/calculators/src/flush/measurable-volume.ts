import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { compare, toText } from '../lib/decimal.js';
import { type InputOf, choice, optional, quantity, readInput } from '../lib/input.js';
import { type Syringe, measured, sizeText, syringeSizes } from '../lib/syringe.js';

export const measurableVolumeCard = () =>
  card({
    name: 'measurable-volume',
    title: 'A volume as a syringe shows it',
    formula: 'volume to the nearest mark, up or down, of the smallest syringe that holds it',
    unit: 'mL',
    source:
      'Scales of syringes: 1 mL by 0.01, 3 mL by 0.1, 5 and 10 mL by 0.2, 20 and 50 mL by 1 mL: common practice, no source',
    cautions: [
      'Look at the scale of the syringe in your hand: its marks may lie otherwise.',
      'A small syringe measures finely and presses hard: never flush a line with one that is narrower than local policy allows.',
      deferToDevice,
    ],
    inputs: {
      volumeMl: quantity('mL', '0.001', '50', 'volume that was worked out'),
      rounding: choice(
        ['up', 'down'],
        'up for what fills or clears a lumen, down for a dose or what may be drawn',
      ),
      leastSyringe: optional(choice(syringeSizes, 'smallest syringe that may be used; 1-ml when left out')),
    },
  });

export type MeasurableVolumeInput = InputOf<ReturnType<typeof measurableVolumeCard>['inputs']>;

/** Volume as `value`; the syringe and its scale beside it. */
export interface MeasurableVolume extends Result {
  readonly syringe: Syringe;
  /** From mark to mark. */
  readonly stepMl: string;
}

/**
 * What a syringe can show of a volume: to its nearest mark, in the direction that is asked for.
 *
 * @formula volume to the nearest mark, up or down, of the smallest syringe that holds it
 * @units `volumeMl` in mL; result in mL
 * @ranges
 * - `volumeMl`: 0.001 to 50 mL; volume that was worked out
 * - `rounding`: one of up, down; up for what fills or clears a lumen, down for a dose or what may be drawn
 * - `leastSyringe` (optional): one of 1-ml, 3-ml, 5-ml, 10-ml, 20-ml, 50-ml; smallest syringe that may be
 *   used; 1-ml when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Look at the scale of the syringe in your hand: its marks may lie otherwise.
 * - A small syringe measures finely and presses hard: never flush a line with one that is narrower than
 *   local policy allows.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Scales of syringes: 1 mL by 0.01, 3 mL by 0.1, 5 and 10 mL by 0.2, 20 and 50 mL by 1 mL: common
 *   practice, no source
 * @example
 * ```ts
 * measurableVolume({ volumeMl: '0.30', rounding: 'up', leastSyringe: '1-ml' }).value; // '0.3'
 * ```
 */
export function measurableVolume(input: MeasurableVolumeInput): MeasurableVolume {
  const own = measurableVolumeCard();
  const { volumeMl: exact, rounding, leastSyringe = '1-ml' } = readInput(own.inputs, input);
  const { syringe, stepMl, volumeMl } = measured(exact, leastSyringe, rounding);
  return {
    ...answerAmount(own, volumeMl, [
      `a ${sizeText(syringe)} syringe shows steps of ${stepMl} mL`,
      compare(volumeMl, exact) === 0
        ? `${toText(exact)} mL stands on a mark`
        : `${toText(exact)} mL, ${rounding} to the next mark: ${toText(volumeMl)} mL`,
    ]),
    syringe,
    stepMl,
  };
}
