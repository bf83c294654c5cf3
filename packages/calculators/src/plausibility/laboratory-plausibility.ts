import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, toText } from '../lib/decimal.js';
import { type InputOf, choice, optional, quantity, readInput } from '../lib/input.js';
import { type Laboratory, laboratoryLimits, laboratorySource } from '../lib/laboratory.js';
import type { Plausibility } from '../lib/weight.js';

export const laboratoryPlausibilityCard = () =>
  card({
    name: 'laboratory-plausibility',
    title: 'Whether a count or an INR can be right',
    formula:
      'neutrophils: questionable above 50, implausible above 100 · 10⁹/L unless as many leucocytes are there; platelets: above 1000, above 3000 · 10⁹/L; INR: below 0.6 or above 10, below 0.5 or above 20',
    unit: '',
    source: laboratorySource,
    cautions: [
      'An implausible value is no value: it is read as not known. Never convert it by guess; ask the laboratory.',
      '180 · 10⁹/L of neutrophils may be 0.18 with a slip of the unit: the opposite of what it says.',
      deferToClinician,
    ],
    inputs: {
      of: choice(Object.keys(laboratoryLimits()) as readonly Laboratory[], 'what was measured'),
      amount: quantity('10*9/L; INR without unit', '0', '1000000', 'the value as it was reported'),
      leucocytes: optional(
        quantity('10*9/L', '0', '1000000', 'leucocytes of the same sample, of neutrophils'),
      ),
    },
  });

export type LaboratoryPlausibilityInput = InputOf<ReturnType<typeof laboratoryPlausibilityCard>['inputs']>;

/** Verdict as `value`; the limits beside it. */
export interface LaboratoryPlausibility extends Result<Plausibility> {
  readonly lowest: string;
  readonly usualLow: string;
  readonly usualHigh: string;
  readonly highest: string;
}

/**
 * Whether a neutrophil count, a platelet count or an INR can be right. Both ends of each range belong to it.
 *
 * Neutrophils above 100 · 10⁹/L are believed, with a question, where at least as many leucocytes were counted in the same
 * sample; more neutrophils than leucocytes are impossible.
 *
 * @formula neutrophils: questionable above 50, implausible above 100 · 10⁹/L unless as many leucocytes are
 *   there; platelets: above 1000, above 3000 · 10⁹/L; INR: below 0.6 or above 10, below 0.5 or above 20
 * @units `amount` in 10*9/L; INR without unit; `leucocytes` in 10*9/L; result a word
 * @ranges
 * - `of`: one of neutrophils, platelets, inr; what was measured
 * - `amount`: 0 to 1000000 10*9/L; INR without unit; the value as it was reported
 * - `leucocytes` (optional): 0 to 1000000 10*9/L; leucocytes of the same sample, of neutrophils
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - An implausible value is no value: it is read as not known. Never convert it by guess; ask the
 *   laboratory.
 * - 180 · 10⁹/L of neutrophils may be 0.18 with a slip of the unit: the opposite of what it says.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Neutrophils: leukaemoid reaction above 50, hyperleukocytosis above 100 · 10⁹/L (a haematology
 *   site, seen); platelets: extreme thrombocytosis above 1000 · 10⁹/L (from memory); INR: point-of-care
 *   range 0.6 to 8.0 (Thromb Res 2012, seen); the cuts made of them: common practice, no source
 * @example
 * ```ts
 * laboratoryPlausibility({ of: 'neutrophils', amount: '50' }).value; // 'plausible'
 * ```
 */
export function laboratoryPlausibility(input: LaboratoryPlausibilityInput): LaboratoryPlausibility {
  const own = laboratoryPlausibilityCard();
  const { of, amount, leucocytes } = readInput(own.inputs, input);
  const { lowest, usualLow, usualHigh, highest } = laboratoryLimits()[of];
  const counted = of === 'neutrophils' ? leucocytes : undefined;
  const more = counted !== undefined && compare(amount, counted) > 0;
  const borne = counted !== undefined && !more;
  const outside = compare(amount, lowest) < 0 || (compare(amount, highest) > 0 && !borne);
  const unusual = compare(amount, usualLow) < 0 || compare(amount, usualHigh) > 0;
  const value: Plausibility = more || outside ? 'implausible' : unusual ? 'questionable' : 'plausible';
  const limits = {
    lowest: toText(lowest),
    usualLow: toText(usualLow),
    usualHigh: toText(usualHigh),
    highest: toText(highest),
  };
  return {
    ...answer(
      own,
      value,
      [
        `${of}: usual ${limits.usualLow} to ${limits.usualHigh}, outer limits ${limits.lowest} to ${limits.highest}`,
        ...(counted === undefined ? [] : [`leucocytes of the same sample: ${toText(counted)}`]),
        `${toText(amount)}: ${value}`,
      ],
      raisedWhere(
        [more, 'MORE NEUTROPHILS THAN LEUCOCYTES: one of the two is wrong.'],
        [
          value === 'implausible' && !more,
          'NOT A VALUE OF A PATIENT: ask the laboratory; a slip of the unit?',
        ],
        [value === 'questionable', 'Unusual: ask the laboratory whether value and unit are right.'],
      ),
    ),
    ...limits,
  };
}
