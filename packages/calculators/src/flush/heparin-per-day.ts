import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { type Decimal, compare, divide, plus, smaller, times, toText } from '../lib/decimal.js';
import { CalculatorError } from '../lib/error.js';
import {
  heparinAmountRefusals,
  heparinAmountsSource,
  heparinCautions,
  heparinStanding,
  infantLimit,
  isSmallInfant,
  lockAmountCautions,
  lockedLineInputs,
} from '../lib/heparin.js';
import { type InputOf, list, name, optional, quantity, readInput, whole } from '../lib/input.js';

export const heparinPerDayCard = () =>
  card({
    name: 'heparin-per-day',
    title: 'Heparin in a day over all lumens, against the child’s limit',
    formula: 'units/day = Σ concentration × volume × times per day; units/kg/day = units/day / weight',
    unit: 'U/d',
    source: `Age of 60 days or less, or weight below 3 kg: at most 40 units/kg in 24 h (caregiver sheet of a US children’s hospital, heparin-lock-flush-infants, seen); age limits: US heparin lock labels; ${heparinAmountsSource}`,
    cautions: [
      'Heparin from infusions, line pressure bags and treatment comes on top.',
      'An intermittent dose must not approach a therapeutic dose per kg.',
      heparinStanding.hit,
      deferToDrug,
    ],
    refuses: [
      'a limit applies (small infant, or limit given) and the weight is missing',
      ...heparinAmountRefusals,
    ],
    inputs: {
      lumens: list(
        1,
        20,
        {
          name: optional(name('the lumen')),
          concentrationUnitsPerMl: quantity('U/mL', '0.5', '5000', 'concentration of the heparin'),
          volumeMl: quantity('mL', '0', '20', 'volume of one lock'),
          timesPerDay: quantity('/d', '0', '24', 'locks a day; 0.5 is every other day'),
        },
        'every lumen that is locked with heparin',
      ),
      weightKg: optional(quantity('kg', '0.2', '300', 'weight of the patient')),
      ageDays: optional(whole('d', '0', '45000', 'age of the patient')),
      ...lockedLineInputs(),
      limitUnitsPerKgPerDay: optional(
        quantity(
          'U/kg/d',
          '1',
          '400',
          'limit of local policy; in a small infant the lower of it and 40 counts',
        ),
      ),
    },
  });

export type HeparinPerDayInput = InputOf<ReturnType<typeof heparinPerDayCard>['inputs']>;

/** Units a day as `value`; per kilogram and against the limit beside it. */
export interface HeparinPerDay extends Result {
  /** Rounded up to 0.01; absent without a weight. */
  readonly unitsPerKgPerDay?: string;
  /** Absent where no published limit applies and none was given. */
  readonly limitUnitsPerKgPerDay?: string;
  readonly limitCheck: 'within' | 'above' | 'not-checked';
}

/**
 * Heparin a day over all lumens, and per kilogram against the limit.
 *
 * The published limit of 40 units/kg in 24 h applies up to an age of 60 days and below 3 kg; beyond that there is
 * none, and only a limit given by the caller is checked. The comparison is exact; the printed units/kg are
 * rounded up to 0.01.
 *
 * @formula units/day = Σ concentration × volume × times per day; units/kg/day = units/day / weight
 * @units `lumens[].concentrationUnitsPerMl` in U/mL; `lumens[].volumeMl` in mL; `lumens[].timesPerDay` in
 *   /d; `weightKg` in kg; `ageDays` in d; `limitUnitsPerKgPerDay` in U/kg/d; result in U/d
 * @ranges
 * - `lumens`: a list of 1 to 20 entries; every lumen that is locked with heparin
 * - `lumens[].name` (optional): text of 1 to 80 characters; the lumen
 * - `lumens[].concentrationUnitsPerMl`: 0.5 to 5000 U/mL; concentration of the heparin
 * - `lumens[].volumeMl`: 0 to 20 mL; volume of one lock
 * - `lumens[].timesPerDay`: 0 to 24 /d; locks a day; 0.5 is every other day
 * - `weightKg` (optional): 0.2 to 300 kg; weight of the patient
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age of the patient
 * - `premature` (optional): true or false; born before 37 weeks; no when left out
 * - `dialysisLine` (optional): true or false; the line is a dialysis catheter, whose lock is drawn off
 *   before use; no when left out
 * - `limitUnitsPerKgPerDay` (optional): 1 to 400 U/kg/d; limit of local policy; in a small infant the lower
 *   of it and 40 counts
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: a limit applies (small infant, or limit given) and
 *   the weight is missing
 * @throws {@link CalculatorError} where refused together: more than 25,000 units in one lock
 * @throws {@link CalculatorError} where refused together: 50 units/kg or more in one lock, 25 in a child
 *   born before 37 weeks, but for a dialysis line
 * @throws {@link CalculatorError} where refused together: a weight that nobody of that age has
 * @cautions
 * - Heparin from infusions, line pressure bags and treatment comes on top.
 * - An intermittent dose must not approach a therapeutic dose per kg.
 * - Heparin-induced thrombocytopenia, now or before: no heparin at all, locks included (US labels, from
 *   memory).
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source Age of 60 days or less, or weight below 3 kg: at most 40 units/kg in 24 h (caregiver sheet of a US
 *   children’s hospital, heparin-lock-flush-infants, seen); age limits: US heparin lock labels; questions
 *   and refusals by amount: common practice, no source, drawn from therapeutic loading doses of 25 to 100
 *   units/kg (Blood/ASH table, seen), 50 units/kg (US label, seen) and reported mix-ups of strengths (FDA
 *   notices, seen)
 * @example
 * ```ts
 * heparinPerDay({
 *   lumens: [{ concentrationUnitsPerMl: 10, volumeMl: 2, timesPerDay: 2 }],
 *   weightKg: 3,
 *   ageDays: 61,
 * }).value; // '40'
 * ```
 */
export function heparinPerDay(input: HeparinPerDayInput): HeparinPerDay {
  const own = heparinPerDayCard();
  const read = readInput(own.inputs, input);
  const { lumens, weightKg, ageDays, limitUnitsPerKgPerDay } = read;
  const asked = lumens.flatMap(({ concentrationUnitsPerMl, volumeMl }) =>
    lockAmountCautions(times(concentrationUnitsPerMl, volumeMl), concentrationUnitsPerMl, read),
  );
  const doses = lumens.map((lumen) =>
    times(times(lumen.concentrationUnitsPerMl, lumen.volumeMl), lumen.timesPerDay),
  );
  const total = doses.reduce(plus);
  const small = isSmallInfant(weightKg, ageDays);
  const limit = small
    ? smaller(limitUnitsPerKgPerDay ?? infantLimit(), infantLimit())
    : limitUnitsPerKgPerDay;
  if (limit !== undefined && weightKg === undefined) {
    throw new CalculatorError(
      'missing',
      'weightKg',
      undefined,
      'the weight, since a limit per kilogram applies',
    );
  }
  const perKg = weightKg && divide(total, weightKg, 2, 'up');
  const within = limit && weightKg && compare(total, times(limit, weightKg)) <= 0;
  const steps = lumens.map((lumen, index) => lockWorking(lumen, doses[index] ?? total, index + 1));
  steps.push(`together ${toText(total)} U/d`);
  if (weightKg && perKg) {
    steps.push(`${toText(total)} U/d ÷ ${toText(weightKg)} kg = ${toText(perKg)} U/kg/d, rounded up to 0.01`);
  }
  if (limit) steps.push(`limit ${toText(limit)} U/kg/d`);
  const strongest = lumens.map((lumen) => lumen.concentrationUnitsPerMl).reduce(larger);
  const unknown = !small && (weightKg === undefined || ageDays === undefined);
  return {
    ...answerAmount(own, total, steps, [
      ...raisedWhere([within === false, 'ABOVE THE LIMIT: ask the prescriber before the next lock.']),
      ...new Set(asked),
      ...raisedWhere(
        [
          unknown,
          'Age or weight not given: up to 60 days of age, and below 3 kg, the published limit is 40 units/kg in 24 h.',
        ],
        [
          limit === undefined && !unknown,
          'No published limit from 61 days of age and 3 kg on; ask local policy for one in a child.',
        ],
      ),
      ...heparinCautions(strongest, ageDays),
    ]),
    ...(perKg && { unitsPerKgPerDay: toText(perKg) }),
    ...(limit && { limitUnitsPerKgPerDay: toText(limit) }),
    limitCheck: within === undefined ? 'not-checked' : within ? 'within' : 'above',
  };
}

interface Lock {
  readonly name: string | undefined;
  readonly concentrationUnitsPerMl: Decimal;
  readonly volumeMl: Decimal;
  readonly timesPerDay: Decimal;
}

const lockWorking = (lock: Lock, dose: Decimal, place: number): string =>
  `${lock.name ?? `lumen ${place}`}: ${toText(lock.concentrationUnitsPerMl)} U/mL × ${toText(lock.volumeMl)} mL × ${toText(lock.timesPerDay)} a day = ${toText(dose)} U/d`;

const larger = (a: Decimal, b: Decimal): Decimal => (compare(a, b) >= 0 ? a : b);
