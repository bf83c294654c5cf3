import {
  type Card,
  type Result,
  answer,
  answerAmount,
  card,
  inconsistent,
  raisedWhere,
} from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { type Decimal, compare, decimal, divide, smaller, times, toText } from '../lib/decimal.js';
import { CalculatorError } from '../lib/error.js';
import { type InputOf, flag, optional, quantity, readInput, whole } from '../lib/input.js';
import { measured, sizeText } from '../lib/syringe.js';
import { weightCautions } from '../lib/weight.js';

export const thrombolyticDoseCard = () =>
  card({
    name: 'thrombolytic-dose',
    title: 'Alteplase for a blocked lumen: dose and volume',
    formula:
      '30 kg and more: 2 mg in 2 mL; below: 110 % of the lumen volume at 1 mg/mL, at most 2 mg, down to the mark of the syringe',
    unit: 'mg; none where the drug is not to be given, or not before the prescriber was asked',
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
    refuses: [
      'below 30 kg without the lumen volume',
      'two doses given already',
      'a weight that nobody of that age has',
    ],
    inputs: {
      weightKg: quantity('kg', '0.2', '300', 'weight of the patient'),
      ageDays: optional(whole('d', '0', '45000', 'age of the patient, to hold the weight against')),
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
      riskWeighed: optional(
        flag('the prescriber knows of all that was answered with true, and orders the drug all the same'),
      ),
    },
  });

export type ThrombolyticDoseInput = InputOf<ReturnType<typeof thrombolyticDoseCard>['inputs']>;

/** Whether there is a dose: no contraindication, and nothing that the prescriber has to weigh first. */
export type ThrombolyticVerdict = 'dose' | 'ask-first' | 'contraindicated';

/**
 * Dose in mg as `value`; where there is none, the verdict is the result, and nothing of a treatment stands beside it.
 */
export interface ThrombolyticDose extends Result {
  readonly verdict: ThrombolyticVerdict;
  /** At 1 mg/mL. */
  readonly volumeMl?: string;
  readonly reassessAfterMinutes?: readonly [number, number];
  readonly secondDoseAllowed: boolean;
  /** What to withdraw and discard once the lumen is open again; it counts as blood loss. */
  readonly withdrawLeastMl?: string;
  readonly withdrawMostMl?: string;
  readonly contraindicated: boolean;
  /** The questions about the patient that were left open; one of `cautions` names them. */
  readonly notAsked: readonly ThrombolyticQuestion[];
  /** `cautions` but for the one that names them: for a reader who is asked these questions in other words. */
  readonly furtherCautions: readonly string[];
}

/**
 * Dose and volume of alteplase for one blocked lumen, with its reassessment times.
 *
 * Exactly 30 kg is in the 2 mg arm. Rounded once, down to what the syringe shows that measures it (0.01 mL up to 1 mL,
 * 0.1 mL above), so that it is never above 110 % of the lumen or 2 mg. A contraindication is the result: there is no dose
 * then. What the prescriber has to weigh first is the result too, until it is said to be weighed.
 *
 * @formula 30 kg and more: 2 mg in 2 mL; below: 110 % of the lumen volume at 1 mg/mL, at most 2 mg, down to
 *   the mark of the syringe
 * @units `weightKg` in kg; `ageDays` in d; `lumenVolumeMl` in mL; `dosesGiven` in doses; result in mg; none
 *   where the drug is not to be given, or not before the prescriber was asked
 * @ranges
 * - `weightKg`: 0.2 to 300 kg; weight of the patient
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age of the patient, to hold the weight against
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
 * - `riskWeighed` (optional): true or false; the prescriber knows of all that was answered with true, and
 *   orders the drug all the same
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: below 30 kg without the lumen volume
 * @throws {@link CalculatorError} where refused together: two doses given already
 * @throws {@link CalculatorError} where refused together: a weight that nobody of that age has
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
 * @example
 * ```ts
 * thrombolyticDose({ weightKg: '29.99', lumenVolumeMl: '0.333' }).value; // '0.36'
 * ```
 */
export function thrombolyticDose(input: ThrombolyticDoseInput): ThrombolyticDose {
  const own = thrombolyticDoseCard();
  const read = readInput(own.inputs, input);
  const { weightKg, lumenVolumeMl, dosesGiven = 0 } = read;
  const verdict = verdictOf(read);
  if (verdict !== 'dose') return withoutDose(own, verdict, read);
  if (dosesGiven === 2)
    throw inconsistent('dosesGiven', dosesGiven, 'at most one earlier dose: no data beyond two');
  const weighed = weightCautions(weightKg, read.ageDays);
  const heavy = compare(weightKg, decimal('30')) >= 0;
  const { dose, working } = heavy
    ? { dose: decimal('2'), working: `${toText(weightKg)} kg is 30 kg or more: 2 mg` }
    : byLumen(lumenVolumeMl);
  const small = compare(weightKg, decimal('10')) < 0;
  const notAsked = openQuestions(read);
  const further = [...weighed, ...trueAnswers(read), ...lossOf(weightKg, small), ...large(lumenVolumeMl)];
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
      [...notAskedCaution(notAsked), ...further],
    ),
    unit: 'mg',
    verdict,
    volumeMl: toText(dose),
    reassessAfterMinutes: [30, 120],
    secondDoseAllowed: dosesGiven === 0,
    withdrawLeastMl: small ? '3' : '4',
    withdrawMostMl: small ? '3' : '5',
    contraindicated: false,
    notAsked,
    furtherCautions: [...further, ...own.cautions],
  };
}

function verdictOf(read: Screen & { readonly riskWeighed: boolean | undefined }): ThrombolyticVerdict {
  if (read.hypersensitivity === true) return 'contraindicated';
  const risk = questions.some(([key]) => read[key] === true);
  return risk && read.riskWeighed !== true ? 'ask-first' : 'dose';
}

function withoutDose(own: Card, verdict: ThrombolyticVerdict, read: Screen): ThrombolyticDose {
  const notAsked = openQuestions(read);
  const answered = trueAnswers(read);
  const step =
    verdict === 'contraindicated'
      ? 'hypersensitivity: the drug is not given'
      : 'no dose before the prescriber has weighed it; then say so with riskWeighed';
  return {
    ...answer<string>(own, verdict, [step], [...answered, ...notAskedCaution(notAsked)]),
    unit: '',
    verdict,
    secondDoseAllowed: false,
    contraindicated: verdict === 'contraindicated',
    notAsked,
    furtherCautions: [...answered, ...own.cautions],
  };
}

const openQuestions = (read: Screen): readonly ThrombolyticQuestion[] =>
  questions.map(([key]) => key).filter((key) => read[key] === undefined);

const trueAnswers = (read: Screen): readonly string[] =>
  questions.filter(([key]) => read[key] === true).map(([, text]) => text);

const notAskedCaution = (notAsked: readonly ThrombolyticQuestion[]): readonly string[] =>
  raisedWhere([notAsked.length > 0, `Not asked yet: ${notAsked.join(', ')}.`]);

/** What is withdrawn once the lumen works, against 75 mL of blood for each kg, as infants of 1 to 12 months have it. */
function lossOf(weightKg: Decimal, small: boolean): readonly string[] {
  const percent = toText(divide(decimal('300'), times(weightKg, decimal('75')), 1, 'up'));
  return raisedWhere([
    small,
    `The 3 mL that are withdrawn count as blood loss: ${percent} % of the blood volume at 75 mL/kg. Where that is more than may be drawn today, ask the prescriber how much first.`,
  ]);
}

const large = (lumenVolumeMl: Decimal | undefined): readonly string[] =>
  raisedWhere([
    lumenVolumeMl !== undefined && compare(lumenVolumeMl, decimal('2')) > 0,
    'The lumen holds more than 2 mL: by the UK text the drug may be diluted with saline to the volume.',
  ]);

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
  const shown = measured(smaller(filled, decimal('2')), '1-ml', 'down');
  const dose = shown.volumeMl;
  return {
    dose,
    working: `below 30 kg: 1.1 × ${toText(lumenVolumeMl)} mL × 1 mg/mL = ${toText(filled)} mg, at most 2 mg, down to the ${shown.stepMl} mL that a ${sizeText(shown.syringe)} syringe shows: ${toText(dose)} mg`,
  };
}

const questions = [
  ['hypersensitivity', 'CONTRAINDICATED: hypersensitivity to the drug. It is not given.'],
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
