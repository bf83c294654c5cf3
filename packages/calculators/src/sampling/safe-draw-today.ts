import {
  bloodVolume,
  bloodVolumeInputs,
  bloodVolumeRefusals,
  bloodVolumeSource,
} from '../lib/blood-volume.js';
import { type Result, answerAmount, card, inconsistent, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { type Decimal, compare, decimal, divide, minus, notNegative, times, toText } from '../lib/decimal.js';
import { type InputOf, optional, quantity, readInput } from '../lib/input.js';

export const safeDrawTodayCard = () =>
  card({
    name: 'safe-draw-today',
    title: 'Highest volume of blood still safe to draw today',
    formula:
      'safe = smallest of TBV × daily % − loss of 24 h, TBV × monthly % − loss of 30 days and, where given, TBV × 8 weeks’ % − loss of 8 weeks; never below 0, down to 0.1 mL',
    unit: 'mL',
    source: `Howie 2011, Bull WHO 89:46-53: 1 to 5 % of total blood volume in 24 h, up to 10 % in 8 weeks (seen); a paediatric guidance page: 5 % in 24 h, 10 % a month, ideally below 3 % (seen). Blood volume: ${bloodVolumeSource}`,
    cautions: [
      'The percentages are the unit’s policy: 3, 3.8 and 5 % a day are all in use; 10 % is published for a month and for 8 weeks.',
      'Count clinical and research samples together, discards included; returned blood does not count.',
      'Take extra care in an ill or anaemic child.',
      deferToClinician,
    ],
    refuses: [
      ...bloodVolumeRefusals,
      'more lost in 24 h than in 30 days, or in 30 days than in 8 weeks',
      'the percentage of 8 weeks without their loss, or their loss without it',
    ],
    inputs: {
      ...bloodVolumeInputs(),
      dailyPercent: quantity('%', '0.5', '5', 'share of the blood volume in 24 h that local policy allows'),
      monthlyPercent: quantity(
        '%',
        '1',
        '10',
        'share of the blood volume in 30 days that local policy allows',
      ),
      lostLast24HoursMl: quantity('mL', '0', '5000', 'lost by sampling in the last 24 h'),
      lostLast30DaysMl: quantity(
        'mL',
        '0',
        '10000',
        'lost by sampling in the last 30 days, these 24 h included',
      ),
      eightWeekPercent: optional(
        quantity('%', '1', '10', 'share of the blood volume in 8 weeks that local policy allows'),
      ),
      lostLast8WeeksMl: optional(
        quantity('mL', '0', '20000', 'lost by sampling in the last 8 weeks, these 30 days included'),
      ),
      plannedMl: optional(quantity('mL', '0', '1000', 'what is about to be drawn, to compare')),
    },
  });

export type SafeDrawTodayInput = InputOf<ReturnType<typeof safeDrawTodayCard>['inputs']>;

/** Highest safe volume as `value`, which limit sets it, and whether the planned volume keeps within. */
export interface SafeDrawToday extends Result {
  readonly limitedBy: '24-hours' | '30-days' | '8-weeks';
  /** Absent where no volume was planned. */
  readonly plannedWithin?: boolean;
}

/**
 * What may still be drawn today within the daily limit, that of 30 days and, where it is given, that of 8 weeks.
 *
 * Rounded once, down to 0.1 mL; never below zero. The percentages have no default: they are policy.
 *
 * @formula safe = smallest of TBV × daily % − loss of 24 h, TBV × monthly % − loss of 30 days and, where
 *   given, TBV × 8 weeks’ % − loss of 8 weeks; never below 0, down to 0.1 mL
 * @units `weightKg` in kg; `ageDays` in d; `mlPerKg` in mL/kg; `haemoglobinGPerL` in g/L;
 *   `referenceHaemoglobinGPerL` in g/L; `dailyPercent` in %; `monthlyPercent` in %; `lostLast24HoursMl` in
 *   mL; `lostLast30DaysMl` in mL; `eightWeekPercent` in %; `lostLast8WeeksMl` in mL; `plannedMl` in mL;
 *   result in mL
 * @ranges
 * - `weightKg`: 0.2 to 300 kg; weight of the patient
 * - `ageDays`: a whole number from 0 to 45000 d; age of the patient
 * - `premature` (optional): true or false; born before term; counts up to 30 days of age; no when left out
 * - `mlPerKg` (optional): 50 to 110 mL/kg; blood volume of local policy, instead of the table
 * - `haemoglobinGPerL` (optional): 20 to 300 g/L; haemoglobin, to correct for anaemia
 * - `referenceHaemoglobinGPerL` (optional): 80 to 250 g/L; normal haemoglobin at this age
 * - `dailyPercent`: 0.5 to 5 %; share of the blood volume in 24 h that local policy allows
 * - `monthlyPercent`: 1 to 10 %; share of the blood volume in 30 days that local policy allows
 * - `lostLast24HoursMl`: 0 to 5000 mL; lost by sampling in the last 24 h
 * - `lostLast30DaysMl`: 0 to 10000 mL; lost by sampling in the last 30 days, these 24 h included
 * - `eightWeekPercent` (optional): 1 to 10 %; share of the blood volume in 8 weeks that local policy allows
 * - `lostLast8WeeksMl` (optional): 0 to 20000 mL; lost by sampling in the last 8 weeks, these 30 days
 *   included
 * - `plannedMl` (optional): 0 to 1000 mL; what is about to be drawn, to compare
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: one haemoglobin value without the other
 * @throws {@link CalculatorError} where refused together: a weight that nobody of that age has
 * @throws {@link CalculatorError} where refused together: more lost in 24 h than in 30 days, or in 30 days
 *   than in 8 weeks
 * @throws {@link CalculatorError} where refused together: the percentage of 8 weeks without their loss, or
 *   their loss without it
 * @cautions
 * - The percentages are the unit’s policy: 3, 3.8 and 5 % a day are all in use; 10 % is published for a
 *   month and for 8 weeks.
 * - Count clinical and research samples together, discards included; returned blood does not count.
 * - Take extra care in an ill or anaemic child.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Howie 2011, Bull WHO 89:46-53: 1 to 5 % of total blood volume in 24 h, up to 10 % in 8 weeks
 *   (seen); a paediatric guidance page: 5 % in 24 h, 10 % a month, ideally below 3 % (seen). Blood volume:
 *   The lowest of two published sets: a US children’s hospital’s laboratory table (premature 90 to 105, term
 *   newborn 78 to 86 mL/kg; seen), a paediatric guidance page (1 to 12 months 75, to 3 years 70, older 65
 *   mL/kg; seen); adult 65 to 70 mL/kg (from memory); correction for anaemia: PMC4890332 (seen)
 * @example
 * ```ts
 * safeDrawToday({
 *   weightKg: '10',
 *   ageDays: 1000,
 *   mlPerKg: '80',
 *   dailyPercent: '3',
 *   monthlyPercent: '10',
 *   lostLast24HoursMl: '3.45',
 *   lostLast30DaysMl: '3.45',
 * }).value; // '20.5'
 * ```
 */
export function safeDrawToday(input: SafeDrawTodayInput): SafeDrawToday {
  const own = safeDrawTodayCard();
  const read = readInput(own.inputs, input);
  const { lostLast24HoursMl: lostDay, lostLast30DaysMl: lostMonth, plannedMl } = read;
  const { eightWeekPercent, lostLast8WeeksMl: lostWeeks } = read;
  refuseMoreIn('lostLast30DaysMl', lostMonth, 'lostLast24HoursMl', lostDay);
  if (lostWeeks) refuseMoreIn('lostLast8WeeksMl', lostWeeks, 'lostLast30DaysMl', lostMonth);
  if ((eightWeekPercent === undefined) !== (lostWeeks === undefined)) {
    const lacking = lostWeeks === undefined ? 'lostLast8WeeksMl' : 'eightWeekPercent';
    throw inconsistent(lacking, undefined, 'eightWeekPercent and lostLast8WeeksMl together');
  }
  const { numerator, divisor, steps, raised } = bloodVolume(read);
  const hundredfold = times(divisor, decimal('100'));
  const limit = (by: SafeDrawToday['limitedBy'], name: string, percent: Decimal, lost: Decimal): Limit => {
    const left = minus(times(numerator, percent), times(lost, hundredfold));
    const leftMl = divide(notNegative(left), hundredfold, 1, 'down');
    const step = `${name}: ${toText(percent)} % of it − ${toText(lost)} mL lost leaves ${toText(leftMl)} mL, rounded down to 0.1`;
    return { by, leftMl, step };
  };
  const limits = [
    limit('24-hours', '24 h', read.dailyPercent, lostDay),
    limit('30-days', '30 days', read.monthlyPercent, lostMonth),
    ...(eightWeekPercent && lostWeeks ? [limit('8-weeks', '8 weeks', eightWeekPercent, lostWeeks)] : []),
  ];
  const { by: limitedBy, leftMl: safe } = limits.reduce((a, b) => (compare(b.leftMl, a.leftMl) < 0 ? b : a));
  const plannedWithin = plannedMl && compare(plannedMl, safe) <= 0;
  return {
    ...answerAmount(
      own,
      safe,
      [...steps, ...limits.map(({ step }) => step)],
      [
        ...raisedWhere(
          [
            plannedWithin === false,
            'The planned volume is above what is safe today: draw less, or ask the prescriber.',
          ],
          [safe.digits === 0n, 'Nothing is left of the limit today.'],
        ),
        ...raised,
      ],
    ),
    limitedBy,
    ...(plannedWithin !== undefined && { plannedWithin }),
  };
}

interface Limit {
  readonly by: SafeDrawToday['limitedBy'];
  readonly leftMl: Decimal;
  readonly step: string;
}

function refuseMoreIn(longer: string, longerMl: Decimal, shorter: string, shorterMl: Decimal): void {
  if (compare(shorterMl, longerMl) > 0)
    throw inconsistent(longer, toText(longerMl), `at least ${shorter}, ${toText(shorterMl)} mL`);
}
