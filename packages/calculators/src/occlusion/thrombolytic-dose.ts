import { type Result, answerAmount, card, inconsistent, raisedWhere } from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { type Decimal, compare, decimal, round, smaller, times, toText } from '../lib/decimal.js';
import { CalculatorError } from '../lib/error.js';
import { type InputOf, flag, optional, quantity, readInput, whole } from '../lib/input.js';

export const thrombolyticDoseCard = () =>
  card({
    name: 'thrombolytic-dose',
    title: 'Alteplase for a blocked lumen: dose and volume',
    formula:
      '30 kg and more: 2 mg in 2 mL; below: 110 % of the lumen volume at 1 mg/mL, at most 2 mg, down to 0.01 mg',
    unit: 'mg',
    source:
      'US label of alteplase for catheter occlusion and UK SmPC (emc 4617): dose, 30 and 120 min, second dose, 4 mg in all (seen); US dosing card: volume to withdraw (seen)',
    cautions: [
      'Look for a cause other than a clot before any thrombolytic.',
      'No vigorous suction, no excessive pressure: the line can burst, the clot can be driven out.',
      'Reconstitute with 2.2 mL sterile water without preservative, swirl, use within 8 h; add nothing to it.',
      'A dose for each lumen of a dialysis catheter is off-label.',
      'Serious bleeding: stop and withdraw the drug from the line.',
      deferToDrug,
    ],
    refuses: ['below 30 kg without the lumen volume', 'two doses given already'],
    inputs: {
      weightKg: quantity('kg', '0.5', '300', 'weight of the patient'),
      lumenVolumeMl: optional(
        quantity('mL', '0.01', '10', 'internal volume of the lumen, without add-ons; needed below 30 kg'),
      ),
      dosesGiven: optional(
        whole('doses', '0', '2', 'doses already given for this occlusion; 0 when left out'),
      ),
      hypersensitivity: optional(flag('known hypersensitivity to the drug or its excipients')),
      activeBleeding: optional(flag('active internal bleeding')),
      procedureWithin48Hours: optional(
        flag('surgery, delivery, biopsy of viscera or deep tissue, or puncture of a non-compressible vessel'),
      ),
      bleedingTendency: optional(
        flag('thrombocytopenia, other haemostatic defect, severe liver or kidney disease'),
      ),
      embolicRisk: optional(flag('condition with a risk of embolism')),
      infectionInCatheter: optional(flag('known or suspected infection in the catheter')),
    },
  });

export type ThrombolyticDoseInput = InputOf<ReturnType<typeof thrombolyticDoseCard>['inputs']>;

/** Dose in mg as `value`; everything else of the treatment beside it. */
export interface ThrombolyticDose extends Result {
  /** At 1 mg/mL. */
  readonly volumeMl: string;
  readonly reassessAfterMinutes: readonly [number, number];
  readonly secondDoseAllowed: boolean;
  /** What to withdraw and discard once the lumen is open again. */
  readonly withdrawLeastMl: string;
  readonly withdrawMostMl: string;
  readonly contraindicated: boolean;
  /** The questions about the patient that were left open; one of `cautions` names them. */
  readonly notAsked: readonly ThrombolyticQuestion[];
  /** `cautions` but for the one that names them: for a reader who is asked these questions in other words. */
  readonly furtherCautions: readonly string[];
}

/**
 * Dose and volume of alteplase for one blocked lumen, with its reassessment times.
 *
 * Exactly 30 kg is in the 2 mg arm. Rounded once, down to 0.01 mg, so that it is never above 110 % of the lumen
 * or 2 mg. A contraindication does not hide the number; it comes first among the cautions and in
 * `contraindicated`.
 *
 * @formula 30 kg and more: 2 mg in 2 mL; below: 110 % of the lumen volume at 1 mg/mL, at most 2 mg, down to
 *   0.01 mg
 * @units `weightKg` in kg; `lumenVolumeMl` in mL; `dosesGiven` in doses; result in mg
 * @ranges
 * - `weightKg`: 0.5 to 300 kg; weight of the patient
 * - `lumenVolumeMl` (optional): 0.01 to 10 mL; internal volume of the lumen, without add-ons; needed below
 *   30 kg
 * - `dosesGiven` (optional): a whole number from 0 to 2 doses; doses already given for this occlusion; 0
 *   when left out
 * - `hypersensitivity` (optional): true or false; known hypersensitivity to the drug or its excipients
 * - `activeBleeding` (optional): true or false; active internal bleeding
 * - `procedureWithin48Hours` (optional): true or false; surgery, delivery, biopsy of viscera or deep tissue,
 *   or puncture of a non-compressible vessel
 * - `bleedingTendency` (optional): true or false; thrombocytopenia, other haemostatic defect, severe liver
 *   or kidney disease
 * - `embolicRisk` (optional): true or false; condition with a risk of embolism
 * - `infectionInCatheter` (optional): true or false; known or suspected infection in the catheter
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: below 30 kg without the lumen volume
 * @throws {@link CalculatorError} where refused together: two doses given already
 * @cautions
 * - Look for a cause other than a clot before any thrombolytic.
 * - No vigorous suction, no excessive pressure: the line can burst, the clot can be driven out.
 * - Reconstitute with 2.2 mL sterile water without preservative, swirl, use within 8 h; add nothing to it.
 * - A dose for each lumen of a dialysis catheter is off-label.
 * - Serious bleeding: stop and withdraw the drug from the line.
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source US label of alteplase for catheter occlusion and UK SmPC (emc 4617): dose, 30 and 120 min, second
 *   dose, 4 mg in all (seen); US dosing card: volume to withdraw (seen)
 */
export function thrombolyticDose(input: ThrombolyticDoseInput): ThrombolyticDose {
  const own = thrombolyticDoseCard();
  const read = readInput(own.inputs, input);
  const { weightKg, lumenVolumeMl, dosesGiven = 0 } = read;
  if (dosesGiven === 2)
    throw inconsistent('dosesGiven', dosesGiven, 'at most one earlier dose: no data beyond two');
  const heavy = compare(weightKg, decimal('30')) >= 0;
  const { dose, working } = heavy
    ? { dose: decimal('2'), working: `${toText(weightKg)} kg is 30 kg or more: 2 mg` }
    : byLumen(lumenVolumeMl);
  const small = compare(weightKg, decimal('10')) < 0;
  const contraindicated = read.hypersensitivity === true;
  const notAsked = questions.map(([key]) => key).filter((key) => read[key] === undefined);
  const further = screen(read);
  return {
    ...answerAmount(
      own,
      dose,
      [
        working,
        `at 1 mg/mL: ${toText(dose)} mL`,
        'assess function after 30 min; if it does not work, again after 120 min',
        dosesGiven === 0
          ? 'if it still does not work: a second, equal dose may follow'
          : 'this is the second and last dose',
        `once it works, withdraw and discard ${small ? '3' : '4 to 5'} mL, then flush with saline`,
      ],
      [
        ...further.answered,
        ...raisedWhere([notAsked.length > 0, `Not asked yet: ${notAsked.join(', ')}.`]),
        ...further.large,
      ],
    ),
    volumeMl: toText(dose),
    reassessAfterMinutes: [30, 120],
    secondDoseAllowed: dosesGiven === 0,
    withdrawLeastMl: small ? '3' : '4',
    withdrawMostMl: small ? '3' : '5',
    contraindicated,
    notAsked,
    furtherCautions: [...further.answered, ...further.large, ...own.cautions],
  };
}

function byLumen(lumenVolumeMl: Decimal | undefined): { readonly dose: Decimal; readonly working: string } {
  if (lumenVolumeMl === undefined) {
    throw new CalculatorError(
      'missing',
      'lumenVolumeMl',
      undefined,
      'the internal lumen volume, needed below 30 kg',
    );
  }
  const filled = times(lumenVolumeMl, decimal('1.1'));
  const dose = round(smaller(filled, decimal('2')), 2, 'down');
  return {
    dose,
    working: `below 30 kg: 1.1 × ${toText(lumenVolumeMl)} mL × 1 mg/mL = ${toText(filled)} mg, at most 2 mg, down to 0.01: ${toText(dose)} mg`,
  };
}

const questions = [
  ['hypersensitivity', 'CONTRAINDICATED: hypersensitivity to the drug.'],
  ['activeBleeding', 'Active internal bleeding: prescriber must weigh the risk first.'],
  [
    'procedureWithin48Hours',
    'Surgery, delivery, deep biopsy or puncture within 48 h: prescriber must weigh the risk first.',
  ],
  ['bleedingTendency', 'Bleeding tendency: prescriber must weigh the risk first.'],
  ['embolicRisk', 'Risk of embolism: prescriber must weigh the risk first.'],
  [
    'infectionInCatheter',
    'Infection in the catheter: the drug can set it free into the blood; prescriber decides.',
  ],
] as const;

/** What has to be asked before the drug is given. */
export type ThrombolyticQuestion = (typeof questions)[number][0];

type Screen = Readonly<Record<ThrombolyticQuestion, boolean | undefined>>;

function screen(read: Screen & { readonly lumenVolumeMl: Decimal | undefined }): {
  readonly answered: readonly string[];
  readonly large: readonly string[];
} {
  const large = read.lumenVolumeMl !== undefined && compare(read.lumenVolumeMl, decimal('2')) > 0;
  return {
    answered: questions.filter(([key]) => read[key] === true).map(([, text]) => text),
    large: raisedWhere([
      large,
      'The lumen holds more than 2 mL: by the UK text the drug may be diluted with saline to the volume.',
    ]),
  };
}
