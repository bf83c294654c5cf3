import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { type Decimal, compare, decimal, times, toText } from '../lib/decimal.js';
import { type InputOf, optional, quantity, readInput, whole } from '../lib/input.js';
import { type Plausibility, plausibilityIn, weightRange, weightSource } from '../lib/weight.js';

export const weightPlausibilityCard = () =>
  card({
    name: 'weight-plausibility',
    title: 'Whether a weight can be right at an age',
    formula:
      'plausible inside the usual range of the age; questionable between it and the outer limits; implausible outside them',
    unit: '',
    source: weightSource,
    cautions: [
      'An implausible weight is no weight: no dose and no limit is worked out from it. Never convert it by guess; weigh again.',
      'A plausible weight can still be wrong: a child’s weight in pounds lies within the limits from 7 years on, a light child’s at any age.',
      deferToClinician,
    ],
    inputs: {
      weightKg: quantity('kg', '0.001', '100000', 'weight as it was charted'),
      ageDays: optional(whole('d', '0', '45000', 'age when it was weighed; left out when not known')),
      gestationWeeks: optional(
        whole('wk', '22', '44', 'completed weeks at birth; a newborn may be preterm when left out'),
      ),
      lastWeightKg: optional(
        quantity('kg', '0.2', '650', 'the weight before this one, at most 30 days earlier'),
      ),
    },
  });

export type WeightPlausibilityInput = InputOf<ReturnType<typeof weightPlausibilityCard>['inputs']>;

/** Verdict as `value`; the limits of the age beside it. */
export interface WeightPlausibility extends Result<Plausibility> {
  /** Below it no weight is believed. */
  readonly lowestKg: string;
  readonly usualLowKg: string;
  readonly usualHighKg: string;
  /** Above it no weight is believed. */
  readonly highestKg: string;
  /** Whether it is less than half, or more than twice the weight before; absent where none was given. */
  readonly jumped?: boolean;
}

/**
 * Whether a weight can be right at an age, by the published growth tables.
 *
 * Both ends of each range belong to it. Without the gestation a newborn may be a preterm one: from 0.2 kg on a weight is
 * believed then, from 1.5 kg on without a question. A change to less than half or more than twice the weight before is a
 * question too: common practice, no source.
 *
 * @formula plausible inside the usual range of the age; questionable between it and the outer limits;
 *   implausible outside them
 * @units `weightKg` in kg; `ageDays` in d; `gestationWeeks` in wk; `lastWeightKg` in kg; result a word
 * @ranges
 * - `weightKg`: 0.001 to 100000 kg; weight as it was charted
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age when it was weighed; left out when not known
 * - `gestationWeeks` (optional): a whole number from 22 to 44 wk; completed weeks at birth; a newborn may be
 *   preterm when left out
 * - `lastWeightKg` (optional): 0.2 to 650 kg; the weight before this one, at most 30 days earlier
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - An implausible weight is no weight: no dose and no limit is worked out from it. Never convert it by
 *   guess; weigh again.
 * - A plausible weight can still be wrong: a child’s weight in pounds lies within the limits from 7 years
 *   on, a light child’s at any age.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source WHO Child Growth Standards 2006 and WHO Reference 2007: z −6, −3, +3, +5; CDC growth charts 2000:
 *   ±3 SD and modified z −5, +8, the wider from 2 years on; Fenton preterm chart: ±3 SD (tables seen, values
 *   computed from them; the cuts from memory); adults, and the lowest weight of 0.2 kg: common practice, no
 *   source
 * @example
 * ```ts
 * weightPlausibility({ weightKg: '2.61', ageDays: 116, gestationWeeks: 40 }).value; // 'implausible'
 * ```
 */
export function weightPlausibility(input: WeightPlausibilityInput): WeightPlausibility {
  const own = weightPlausibilityCard();
  const { weightKg, ageDays, gestationWeeks, lastWeightKg } = readInput(own.inputs, input);
  const range = weightRange(ageDays, gestationWeeks);
  const byAge = plausibilityIn(weightKg, range);
  const jumped = lastWeightKg && isJump(weightKg, lastWeightKg);
  const value = byAge === 'plausible' && jumped ? 'questionable' : byAge;
  const lowestKg = toText(range.lowestKg);
  const highestKg = toText(range.highestKg);
  const usualLowKg = toText(range.usualLowKg);
  const usualHighKg = toText(range.usualHighKg);
  const inGrams = plausibilityIn(times(weightKg, decimal('0.001')), range) !== 'implausible';
  return {
    ...answer(
      own,
      value,
      [
        `${ageDays === undefined ? 'age not known' : `at ${ageDays} days`}: usual ${usualLowKg} to ${usualHighKg} kg, outer limits ${lowestKg} to ${highestKg} kg`,
        `${toText(weightKg)} kg: ${byAge}`,
        ...(lastWeightKg && jumped
          ? [`before it ${toText(lastWeightKg)} kg: less than half, or more than twice`]
          : []),
      ],
      raisedWhere(
        [byAge === 'implausible', 'NOT A WEIGHT OF THIS AGE: weigh again, and check unit and date of birth.'],
        [byAge === 'implausible' && inGrams, 'Grams taken for kilograms?'],
        [byAge === 'questionable', 'Unusual at this age: weigh again, and check unit and date of birth.'],
        [
          jumped === true,
          'Less than half, or more than twice the weight before: pounds and kilograms mixed up?',
        ],
        [ageDays === undefined, 'Age not known: almost any weight passes.'],
      ),
    ),
    lowestKg,
    usualLowKg,
    usualHighKg,
    highestKg,
    ...(jumped === undefined ? {} : { jumped }),
  };
}

/** Pounds taken for kilograms are 2.2 times as much, kilograms taken for pounds 0.45 times. */
function isJump(now: Decimal, before: Decimal): boolean {
  return compare(now, times(before, decimal('2'))) > 0 || compare(times(now, decimal('2')), before) < 0;
}
