import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { compare, decimal, divide, plus, times, toText } from '../lib/decimal.js';
import { heparinStanding, infantLimit, isSmallInfant } from '../lib/heparin.js';
import { type InputOf, list, optional, quantity, readInput, whole } from '../lib/input.js';

export const heparinGivenCard = () =>
  card({
    name: 'heparin-given',
    title: 'Heparin given in the last 24 hours, against the child’s limit',
    formula: 'units = Σ units of the doses at most 24 h ago; units/kg = units / weight',
    unit: 'U',
    source:
      'Age of 60 days or less, or weight below 3 kg: at most 40 units/kg in 24 h (caregiver sheet of a US children’s hospital, heparin-lock-flush-infants, seen); sum (arithmetic)',
    cautions: [
      'Only what was told is in it: heparin from infusions, line pressure bags and treatment comes on top.',
      'A lock that is drawn off again does not reach the patient, and is not told.',
      heparinStanding.hit,
      deferToDrug,
    ],
    inputs: {
      doses: list(
        0,
        2000,
        {
          hoursAgo: quantity('h', '0', '20000', 'since the dose'),
          units: quantity('U', '0', '1000000', 'heparin of the dose'),
        },
        'every dose, locks and flushes with it',
      ),
      weightKg: optional(quantity('kg', '0.2', '650', 'weight of the patient')),
      ageDays: optional(whole('d', '0', '45000', 'age of the patient')),
    },
  });

export type HeparinGivenInput = InputOf<ReturnType<typeof heparinGivenCard>['inputs']>;

/** Units of 24 hours as `value`; per kilogram and against the limit beside it. */
export interface HeparinGiven extends Result {
  /** Rounded up to 0.01; absent without a weight. */
  readonly unitsPerKg?: string;
  /** In units/kg in 24 h; absent where no published limit applies. */
  readonly limitUnitsPerKg?: string;
  /** `not-checked` where no limit applies or the weight is not known. */
  readonly limitCheck: 'within' | 'above' | 'not-checked';
}

/**
 * Heparin that was given in the last 24 hours, and per kilogram against the limit.
 *
 * A dose exactly 24 h ago still counts, the protective reading. The published limit of 40 units/kg in 24 h applies up to
 * an age of 60 days and below 3 kg; beyond that there is none. The comparison is exact; the printed units/kg are
 * rounded up to 0.01.
 *
 * @formula units = Σ units of the doses at most 24 h ago; units/kg = units / weight
 * @units `doses[].hoursAgo` in h; `doses[].units` in U; `weightKg` in kg; `ageDays` in d; result in U
 * @ranges
 * - `doses`: a list of 0 to 2000 entries; every dose, locks and flushes with it
 * - `doses[].hoursAgo`: 0 to 20000 h; since the dose
 * - `doses[].units`: 0 to 1000000 U; heparin of the dose
 * - `weightKg` (optional): 0.2 to 650 kg; weight of the patient
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age of the patient
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Only what was told is in it: heparin from infusions, line pressure bags and treatment comes on top.
 * - A lock that is drawn off again does not reach the patient, and is not told.
 * - Heparin-induced thrombocytopenia, now or before: no heparin at all, locks included (US labels, from
 *   memory).
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source Age of 60 days or less, or weight below 3 kg: at most 40 units/kg in 24 h (caregiver sheet of a US
 *   children’s hospital, heparin-lock-flush-infants, seen); sum (arithmetic)
 * @example
 * ```ts
 * heparinGiven({
 *   doses: [{ hoursAgo: 6, units: 20 }, { hoursAgo: 1, units: 20 }],
 *   weightKg: 1,
 *   ageDays: 60,
 * }).value; // '40'
 * ```
 */
export function heparinGiven(input: HeparinGivenInput): HeparinGiven {
  const own = heparinGivenCard();
  const { doses, weightKg, ageDays } = readInput(own.inputs, input);
  const counted = doses
    .filter(({ hoursAgo }) => compare(hoursAgo, decimal('24')) <= 0)
    .map(({ units }) => units);
  const total = counted.reduce(plus, decimal('0'));
  const perKg = weightKg && divide(total, weightKg, 2, 'up');
  const limit = isSmallInfant(weightKg, ageDays) ? infantLimit() : undefined;
  const within = limit && weightKg && compare(total, times(limit, weightKg)) <= 0;
  const unknown = limit === undefined && (weightKg === undefined || ageDays === undefined);
  const steps = [`last 24 h: ${['0', ...counted.map(toText)].join(' + ')} = ${toText(total)} U`];
  if (weightKg && perKg)
    steps.push(`${toText(total)} U ÷ ${toText(weightKg)} kg = ${toText(perKg)} U/kg, rounded up to 0.01`);
  if (limit) steps.push(`limit ${toText(limit)} U/kg in 24 h`);
  return {
    ...answerAmount(
      own,
      total,
      steps,
      raisedWhere(
        [within === false, 'ABOVE THE LIMIT: ask the prescriber before the next lock.'],
        [limit !== undefined && weightKg === undefined, 'No weight: it can’t be held against the limit.'],
        [
          unknown,
          'Age or weight not given: up to 60 days of age, and below 3 kg, the published limit is 40 units/kg in 24 h.',
        ],
      ),
    ),
    ...(perKg && { unitsPerKg: toText(perKg) }),
    ...(limit && { limitUnitsPerKg: toText(limit) }),
    limitCheck: within === undefined ? 'not-checked' : within ? 'within' : 'above',
  };
}
