import {
  bloodVolume,
  bloodVolumeInputs,
  bloodVolumeRefusals,
  bloodVolumeSource,
} from '../lib/blood-volume.js';
import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, divide, round, times, toText } from '../lib/decimal.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';

export const pushPullCycleCard = () =>
  card({
    name: 'push-pull-cycle',
    title: 'Push–pull instead of a discard in a child: volume of one cycle, and whether it is small enough',
    formula: 'cycle = 3 × dead space, down to 0.1 mL; allowed where it is at most 1 % of the blood volume',
    unit: 'mL',
    source: `common practice, no source (no publication limits push–pull by weight or volume). At least 3 cycles: Royal Marsden Manual, chapter 13 (seen), of 6 mL in adults. Blood volume: ${bloodVolumeSource}`,
    cautions: [
      'Never before a coagulation sample, nor for the level of a drug that was given through this lumen.',
      'Not all kinds of catheters and tests were studied in children (McBride 2018); the laboratory and local policy say for which tests.',
      'Where it is not allowed: discard by the dead space, and count it as blood loss.',
      deferToClinician,
    ],
    refuses: bloodVolumeRefusals,
    inputs: {
      deadSpaceMl: quantity(
        'mL',
        '0.01',
        '10',
        'internal volume of the lumen with everything between it and the syringe',
      ),
      ...bloodVolumeInputs(),
    },
  });

export type PushPullCycleInput = InputOf<ReturnType<typeof pushPullCycleCard>['inputs']>;

/** Volume of one cycle as `value`, the most that it may be beside it. */
export interface PushPullCycle extends Result {
  /** 1 % of the blood volume, rounded down to 0.1 mL. */
  readonly mostMl: string;
  readonly allowed: boolean;
}

/**
 * How much blood is drawn and given back in one cycle of push–pull, and whether that is small against the blood volume.
 *
 * The cycle is rounded down to 0.1 mL; whether it is allowed is judged by the volume before rounding.
 *
 * @formula cycle = 3 × dead space, down to 0.1 mL; allowed where it is at most 1 % of the blood volume
 * @units `deadSpaceMl` in mL; `weightKg` in kg; `ageDays` in d; `mlPerKg` in mL/kg; `haemoglobinGPerL` in
 *   g/L; `referenceHaemoglobinGPerL` in g/L; result in mL
 * @ranges
 * - `deadSpaceMl`: 0.01 to 10 mL; internal volume of the lumen with everything between it and the syringe
 * - `weightKg`: 0.2 to 300 kg; weight of the patient
 * - `ageDays`: a whole number from 0 to 45000 d; age of the patient
 * - `premature` (optional): true or false; born before term; counts up to 30 days of age; no when left out
 * - `mlPerKg` (optional): 50 to 110 mL/kg; blood volume of local policy, instead of the table
 * - `haemoglobinGPerL` (optional): 20 to 300 g/L; haemoglobin, to correct for anaemia
 * - `referenceHaemoglobinGPerL` (optional): 80 to 250 g/L; normal haemoglobin at this age
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: one haemoglobin value without the other
 * @throws {@link CalculatorError} where refused together: a weight that nobody of that age has
 * @cautions
 * - Never before a coagulation sample, nor for the level of a drug that was given through this lumen.
 * - Not all kinds of catheters and tests were studied in children (McBride 2018); the laboratory and local
 *   policy say for which tests.
 * - Where it is not allowed: discard by the dead space, and count it as blood loss.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source common practice, no source (no publication limits push–pull by weight or volume). At least 3
 *   cycles: Royal Marsden Manual, chapter 13 (seen), of 6 mL in adults. Blood volume: The lowest of two
 *   published sets: a US children’s hospital’s laboratory table (premature 90 to 105, term newborn 78 to 86
 *   mL/kg; seen), a paediatric guidance page (1 to 12 months 75, to 3 years 70, older 65 mL/kg; seen); adult
 *   65 to 70 mL/kg (from memory); correction for anaemia: PMC4890332 (seen)
 * @example
 * ```ts
 * pushPullCycle({ deadSpaceMl: '0.2', weightKg: '0.85', ageDays: 3, premature: true }).value; // '0.6'
 * ```
 */
export function pushPullCycle(input: PushPullCycleInput): PushPullCycle {
  const own = pushPullCycleCard();
  const read = readInput(own.inputs, input);
  const { numerator, divisor, steps, raised } = bloodVolume(read);
  const exact = times(read.deadSpaceMl, decimal('3'));
  const cycle = round(exact, 1, 'down');
  const hundredfold = times(divisor, decimal('100'));
  const most = divide(numerator, hundredfold, 1, 'down');
  const allowed = compare(times(exact, hundredfold), numerator) <= 0 && cycle.digits > 0n;
  return {
    ...answerAmount(
      own,
      cycle,
      [
        ...steps,
        `3 × ${toText(read.deadSpaceMl)} mL = ${toText(exact)} mL, down to 0.1: ${toText(cycle)} mL`,
        `1 % of the blood volume: ${toText(most)} mL`,
      ],
      [
        ...raisedWhere([
          !allowed,
          'NOT PUSH–PULL: the cycle is too large for this child, or too small to be drawn. Discard by the dead space.',
        ]),
        ...raised,
      ],
    ),
    mostMl: toText(most),
    allowed,
  };
}
