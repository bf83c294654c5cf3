import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { times, toText } from '../lib/decimal.js';
import {
  heparinAmountRefusals,
  heparinAmountsSource,
  heparinCautions,
  heparinStanding,
  lockAmountCautions,
  lockedLineInputs,
} from '../lib/heparin.js';
import { type InputOf, optional, quantity, readInput, whole } from '../lib/input.js';

export const heparinPerLockCard = () =>
  card({
    name: 'heparin-per-lock',
    title: 'Heparin in one lock',
    formula: 'units = concentration × volume',
    unit: 'U',
    source: `Concentration × volume (arithmetic); age limits: US heparin lock labels; ${heparinAmountsSource}`,
    cautions: [heparinStanding.clear, heparinStanding.hit, deferToDrug],
    refuses: heparinAmountRefusals,
    inputs: {
      concentrationUnitsPerMl: quantity('U/mL', '0.5', '5000', 'concentration of the heparin'),
      volumeMl: quantity('mL', '0', '20', 'volume of the lock'),
      ageDays: optional(whole('d', '0', '45000', 'age of the patient')),
      weightKg: optional(quantity('kg', '0.2', '300', 'weight of the patient')),
      ...lockedLineInputs(),
    },
  });

export type HeparinPerLockInput = InputOf<ReturnType<typeof heparinPerLockCard>['inputs']>;

/**
 * Units of heparin in one lock. Exact, nothing is rounded.
 *
 * @formula units = concentration × volume
 * @units `concentrationUnitsPerMl` in U/mL; `volumeMl` in mL; `ageDays` in d; `weightKg` in kg; result in U
 * @ranges
 * - `concentrationUnitsPerMl`: 0.5 to 5000 U/mL; concentration of the heparin
 * - `volumeMl`: 0 to 20 mL; volume of the lock
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age of the patient
 * - `weightKg` (optional): 0.2 to 300 kg; weight of the patient
 * - `premature` (optional): true or false; born before 37 weeks; no when left out
 * - `dialysisLine` (optional): true or false; the line is a dialysis catheter, whose lock is drawn off
 *   before use; no when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: more than 25,000 units in one lock
 * @throws {@link CalculatorError} where refused together: 50 units/kg or more in one lock, 25 in a child
 *   born before 37 weeks, but for a dialysis line
 * @throws {@link CalculatorError} where refused together: a weight that nobody of that age has
 * @cautions
 * - Clear and discard heparin before a sample that heparin would affect; flush with saline before and after
 *   an incompatible drug.
 * - Heparin-induced thrombocytopenia, now or before: no heparin at all, locks included (US labels, from
 *   memory).
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source Concentration × volume (arithmetic); age limits: US heparin lock labels; questions and refusals by
 *   amount: common practice, no source, drawn from therapeutic loading doses of 25 to 100 units/kg
 *   (Blood/ASH table, seen), 50 units/kg (US label, seen) and reported mix-ups of strengths (FDA notices,
 *   seen)
 * @example
 * ```ts
 * heparinPerLock({ concentrationUnitsPerMl: 10, volumeMl: 3, weightKg: 3 }).value; // '30'
 * ```
 */
export function heparinPerLock(input: HeparinPerLockInput): Result {
  const own = heparinPerLockCard();
  const read = readInput(own.inputs, input);
  const { concentrationUnitsPerMl, volumeMl, ageDays } = read;
  const units = times(concentrationUnitsPerMl, volumeMl);
  return answerAmount(
    own,
    units,
    [`${toText(concentrationUnitsPerMl)} U/mL × ${toText(volumeMl)} mL = ${toText(units)} U`],
    [
      ...lockAmountCautions(units, concentrationUnitsPerMl, read),
      ...heparinCautions(concentrationUnitsPerMl, ageDays),
    ],
  );
}
