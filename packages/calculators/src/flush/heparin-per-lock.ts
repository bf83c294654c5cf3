import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { times, toText } from '../lib/decimal.js';
import { heparinCautions, heparinStanding } from '../lib/heparin.js';
import { type InputOf, optional, quantity, readInput, whole } from '../lib/input.js';

export const heparinPerLockCard = () =>
  card({
    name: 'heparin-per-lock',
    title: 'Heparin in one lock',
    formula: 'units = concentration × volume',
    unit: 'U',
    source: 'Concentration × volume (arithmetic); age limits: US heparin lock labels',
    cautions: [heparinStanding.clear, heparinStanding.hit, deferToDrug],
    inputs: {
      concentrationUnitsPerMl: quantity('U/mL', '0.5', '5000', 'concentration of the heparin'),
      volumeMl: quantity('mL', '0', '20', 'volume of the lock'),
      ageDays: optional(whole('d', '0', '45000', 'age of the patient')),
    },
  });

export type HeparinPerLockInput = InputOf<ReturnType<typeof heparinPerLockCard>['inputs']>;

/**
 * Units of heparin in one lock. Exact, nothing is rounded.
 *
 * @formula units = concentration × volume
 * @units `concentrationUnitsPerMl` in U/mL; `volumeMl` in mL; `ageDays` in d; result in U
 * @ranges
 * - `concentrationUnitsPerMl`: 0.5 to 5000 U/mL; concentration of the heparin
 * - `volumeMl`: 0 to 20 mL; volume of the lock
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age of the patient
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Clear and discard heparin before a sample that heparin would affect; flush with saline before and after
 *   an incompatible drug.
 * - Heparin-induced thrombocytopenia, now or before: no heparin at all, locks included (US labels, from
 *   memory).
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source Concentration × volume (arithmetic); age limits: US heparin lock labels
 */
export function heparinPerLock(input: HeparinPerLockInput): Result {
  const own = heparinPerLockCard();
  const { concentrationUnitsPerMl, volumeMl, ageDays } = readInput(own.inputs, input);
  const units = times(concentrationUnitsPerMl, volumeMl);
  return answerAmount(
    own,
    units,
    [`${toText(concentrationUnitsPerMl)} U/mL × ${toText(volumeMl)} mL = ${toText(units)} U`],
    heparinCautions(concentrationUnitsPerMl, ageDays),
  );
}
