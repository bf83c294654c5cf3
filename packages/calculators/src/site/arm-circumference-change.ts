import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, minus, toText } from '../lib/decimal.js';
import { type InputOf, flag, optional, quantity, readInput } from '../lib/input.js';

export const armCircumferenceChangeCard = () =>
  card({
    name: 'arm-circumference-change',
    title: 'Circumference of the arm against the one at insertion (thrombosis)',
    formula:
      'change = |circumference now − circumference at insertion|; suggests thrombosis where it grew by 3 cm or more, with oedema',
    unit: 'cm',
    source:
      'INS 2016, 2021: mid-arm circumference 10 cm above the antecubital fossa; 3 cm more, with oedema, suggests deep vein thrombosis (from memory)',
    cautions: [
      'Both measured at one place, 10 cm above the antecubital fossa, the arm in the same position; else they do not compare.',
      'A sign, not a diagnosis: less than 3 cm does not rule a thrombosis out; swelling of the arm or the neck is reported whatever the tape says.',
      deferToClinician,
    ],
    inputs: {
      atInsertionCm: quantity('cm', '3', '90', 'circumference before or at the insertion'),
      nowCm: quantity('cm', '3', '90', 'circumference now'),
      oedema: optional(flag('the arm is swollen; counts as swollen when left out')),
    },
  });

export type ArmCircumferenceChangeInput = InputOf<ReturnType<typeof armCircumferenceChangeCard>['inputs']>;

/** Size of the change as `value`, its direction and the verdict beside it. */
export interface ArmCircumferenceChange extends Result {
  readonly direction: 'larger' | 'smaller' | 'none';
  readonly suggestsThrombosis: boolean;
}

/**
 * How far the arm with the line has grown since the insertion. Exact; 3 cm just reached counts.
 *
 * Oedema that is not said to be there or not counts as there, the protective reading.
 *
 * @formula change = |circumference now − circumference at insertion|; suggests thrombosis where it grew by 3
 *   cm or more, with oedema
 * @units `atInsertionCm` in cm; `nowCm` in cm; result in cm
 * @ranges
 * - `atInsertionCm`: 3 to 90 cm; circumference before or at the insertion
 * - `nowCm`: 3 to 90 cm; circumference now
 * - `oedema` (optional): true or false; the arm is swollen; counts as swollen when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Both measured at one place, 10 cm above the antecubital fossa, the arm in the same position; else they
 *   do not compare.
 * - A sign, not a diagnosis: less than 3 cm does not rule a thrombosis out; swelling of the arm or the neck
 *   is reported whatever the tape says.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source INS 2016, 2021: mid-arm circumference 10 cm above the antecubital fossa; 3 cm more, with oedema,
 *   suggests deep vein thrombosis (from memory)
 * @example
 * ```ts
 * armCircumferenceChange({ atInsertionCm: '28', nowCm: '31', oedema: true }).value; // '3'
 * ```
 */
export function armCircumferenceChange(input: ArmCircumferenceChangeInput): ArmCircumferenceChange {
  const own = armCircumferenceChangeCard();
  const { atInsertionCm, nowCm, oedema } = readInput(own.inputs, input);
  const sign = compare(nowCm, atInsertionCm);
  const change = sign < 0 ? minus(atInsertionCm, nowCm) : minus(nowCm, atInsertionCm);
  const direction = sign > 0 ? 'larger' : sign < 0 ? 'smaller' : 'none';
  const grown = sign > 0 && compare(change, decimal('3')) >= 0;
  const suggestsThrombosis = grown && oedema !== false;
  return {
    ...answerAmount(
      own,
      change,
      [
        `now ${toText(nowCm)} cm, at insertion ${toText(atInsertionCm)} cm: ${toText(change)} cm, direction ${direction}`,
        `3 cm more ${grown ? 'reached' : 'not reached'}, oedema ${oedema === undefined ? 'not said' : oedema ? 'yes' : 'no'}: ${suggestsThrombosis ? 'suggests thrombosis' : 'does not reach the published sign'}`,
      ],
      raisedWhere(
        [
          suggestsThrombosis,
          'The arm suggests a thrombosis: call the clinician now, before the line is used further.',
        ],
        [
          grown && oedema === false,
          'Grown by 3 cm or more without oedema: measure again at the same place, and tell the clinician.',
        ],
        [grown && oedema === undefined, 'Oedema not said: it counts as there. Look at the arm.'],
        [!grown && oedema === true, 'Oedema without 3 cm more: tell the clinician all the same.'],
        [direction === 'smaller', 'Smaller than at insertion: check the place that was measured.'],
      ),
    ),
    direction,
    suggestsThrombosis,
  };
}
