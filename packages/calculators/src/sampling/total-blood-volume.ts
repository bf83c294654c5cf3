import {
  bloodVolume,
  bloodVolumeInputs,
  bloodVolumeRefusals,
  bloodVolumeSource,
} from '../lib/blood-volume.js';
import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { divide, toText } from '../lib/decimal.js';
import { type InputOf, readInput } from '../lib/input.js';

export const totalBloodVolumeCard = () =>
  card({
    name: 'total-blood-volume',
    title: 'Total blood volume from weight and age',
    formula: 'TBV = kg × mL/kg of the age; in anaemia × haemoglobin / normal haemoglobin; down to 0.1 mL',
    unit: 'mL',
    source: bloodVolumeSource,
    cautions: [
      'The lower end of each published range is used; a text may use the upper end or a flat 80 mL/kg.',
      deferToClinician,
    ],
    refuses: bloodVolumeRefusals,
    inputs: bloodVolumeInputs(),
  });

export type TotalBloodVolumeInput = InputOf<ReturnType<typeof totalBloodVolumeCard>['inputs']>;

/**
 * How much blood the patient has, by weight and age.
 *
 * The lower end of each published range counts, and the result is rounded once, down to 0.1 mL, since limits for
 * sampling are a share of it.
 *
 * @formula TBV = kg × mL/kg of the age; in anaemia × haemoglobin / normal haemoglobin; down to 0.1 mL
 * @units `weightKg` in kg; `ageDays` in d; `mlPerKg` in mL/kg; `haemoglobinGPerL` in g/L;
 *   `referenceHaemoglobinGPerL` in g/L; result in mL
 * @ranges
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
 * - The lower end of each published range is used; a text may use the upper end or a flat 80 mL/kg.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source The lowest of two published sets: a US children’s hospital’s laboratory table (premature 90 to
 *   105, term newborn 78 to 86 mL/kg; seen), a paediatric guidance page (1 to 12 months 75, to 3 years 70,
 *   older 65 mL/kg; seen); adult 65 to 70 mL/kg (from memory); correction for anaemia: PMC4890332 (seen)
 * @example
 * ```ts
 * totalBloodVolume({ weightKg: 2, ageDays: 30, premature: true }).value; // '180'
 * ```
 */
export function totalBloodVolume(input: TotalBloodVolumeInput): Result {
  const own = totalBloodVolumeCard();
  const { numerator, divisor, steps, raised } = bloodVolume(readInput(own.inputs, input));
  const volume = divide(numerator, divisor, 1, 'down');
  return answerAmount(own, volume, [...steps, `rounded down to 0.1 mL: ${toText(volume)} mL`], raised);
}
