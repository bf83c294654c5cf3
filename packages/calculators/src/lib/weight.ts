import { type Decimal, compare, decimal, divide, minus, plus, times, toText } from './decimal.js';
import { inconsistent } from './calculator.js';

/** How far a weight may be believed at an age. */
export type Plausibility = 'plausible' | 'questionable' | 'implausible';

/** Inside `usual` silent, between the two with a question, outside `lowest` and `highest` no weight at all; in kg. */
export interface WeightRange {
  readonly lowestKg: Decimal;
  readonly usualLowKg: Decimal;
  readonly usualHighKg: Decimal;
  readonly highestKg: Decimal;
}

export const weightSource =
  'WHO Child Growth Standards 2006 and WHO Reference 2007: z −6, −3, +3, +5; CDC growth charts 2000: ±3 SD and modified z −5, +8, the wider from 2 years on; Fenton preterm chart: ±3 SD (tables seen, values computed from them; the cuts from memory); adults, and the lowest weight of 0.2 kg: common practice, no source';

/**
 * Age in days, then the four limits in kg, of both sexes the wider. Up to 2 years WHO; to 10 years the wider of WHO and
 * CDC; to 20 years CDC. Between two ages a straight line is taken.
 */
const byAge = `
0 0.94 2.03 5.03 6.25
7 0.99 2.10 5.26 6.55
14 1.12 2.27 5.61 6.98
21 1.26 2.47 6.02 7.47
30 1.44 2.72 6.54 8.07
46 1.73 3.12 7.35 9.01
61 1.96 3.45 7.97 9.73
76 2.17 3.73 8.50 10.34
91 2.36 3.99 8.96 10.86
107 2.53 4.23 9.39 11.34
122 2.68 4.43 9.75 11.76
152 2.94 4.79 10.39 12.49
183 3.15 5.09 10.96 13.16
213 3.33 5.34 11.44 13.73
244 3.49 5.57 11.88 14.32
274 3.62 5.76 12.28 14.86
304 3.74 5.94 12.65 15.37
335 3.86 6.11 13.01 15.87
365 3.97 6.27 13.34 16.33
457 4.29 6.74 14.32 17.64
548 4.59 7.19 15.25 18.87
639 4.88 7.63 16.19 20.09
730 5.15 8.06 17.13 21.34
913 5.65 8.89 19.40 27.81
1096 6.03 9.61 21.60 31.23
1461 6.56 10.88 26.79 39.09
1826 6.99 12.05 32.97 47.94
2192 8.06 13.47 39.93 57.67
2557 8.67 14.75 47.45 68.63
2922 9.40 16.29 55.52 81.45
3287 9.39 18.15 65.09 96.38
3652 9.33 20.29 75.77 113.00
4018 9.71 22.68 84.74 130.33
4383 10.87 25.08 95.84 146.94
4748 12.13 27.82 107.41 161.67
5114 14.04 31.28 120.14 173.85
5479 17.12 34.82 135.99 183.33
5844 20.84 37.29 158.28 190.38
6209 24.19 38.96 184.32 195.06
6574 24.94 39.84 186.50 198.38
6940 24.58 40.15 163.50 200.42
7305 23.80 40.12 148.10 202.36
`;

/**
 * Weeks since the mother’s last period, then the four limits in kg: ±3 SD of the Fenton chart with 0.4 kg at least, 5 SD
 * above and 0.2 kg below.
 */
const byPostmenstrualWeek = `
22 0.2 0.4 0.77 0.93
23 0.2 0.4 0.83 1.01
24 0.2 0.4 1.02 1.33
25 0.2 0.4 1.13 1.43
26 0.2 0.4 1.30 1.60
27 0.2 0.4 1.49 1.83
28 0.2 0.4 1.69 2.08
29 0.2 0.4 1.92 2.36
30 0.2 0.4 2.18 2.68
31 0.2 0.4 2.47 3.04
32 0.2 0.55 2.79 3.43
33 0.2 0.76 3.13 3.86
34 0.2 0.98 3.51 4.48
35 0.2 1.12 3.94 5.07
36 0.2 1.27 4.40 5.70
37 0.2 1.46 4.92 6.49
38 0.2 1.57 5.30 6.99
39 0.2 1.71 5.71 7.61
40 0.2 2.29 5.11 6.19
41 0.2 2.47 5.40 6.54
42 0.2 2.65 5.72 6.93
43 0.2 2.82 6.06 7.36
44 0.2 2.99 6.42 7.80
45 0.2 3.16 6.77 8.24
46 0.2 3.33 7.10 8.65
47 0.2 3.51 7.41 9.01
48 0.2 3.68 7.69 9.35
49 0.2 3.82 7.97 9.68
`;

type Row = readonly [at: number, ...limits: Decimal[]];

const rows = (table: string): readonly Row[] =>
  table
    .trim()
    .split('\n')
    .map((line) => {
      const [at = '', ...limits] = line.split(' ');
      return [Number(at), ...limits.map(decimal)];
    });

const range = ([lowestKg, usualLowKg, usualHighKg, highestKg]: readonly Decimal[]): WeightRange =>
  ({ lowestKg, usualLowKg, usualHighKg, highestKg }) as WeightRange;

const limits = (...texts: readonly string[]): WeightRange => range(texts.map(decimal));

/** 20 years. */
const grownDays = 7305;
/** Born at 22 weeks, a child is 50 weeks old by then: from there on it is held against the tables of term children. */
const mayBePretermDays = 196;

/**
 * What a weight may be at an age.
 *
 * @param gestationWeeks at birth; not known where left out: a newborn may then be a preterm one
 */
export function weightRange(ageDays: number | undefined, gestationWeeks?: number): WeightRange {
  if (ageDays === undefined) return limits('0.2', '0.4', '200', '650');
  if (ageDays >= grownDays) return limits('20', '35', '200', '650');
  const weeks = gestationWeeks === undefined ? undefined : gestationWeeks + Math.floor(ageDays / 7);
  const preterm = rows(byPostmenstrualWeek).find(([week]) => week === weeks);
  if (preterm !== undefined) return range(preterm.slice(1) as Decimal[]);
  const term = atAge(ageDays);
  if (gestationWeeks !== undefined || ageDays >= mayBePretermDays) return term;
  const mostPreterm = decimal('1.5');
  const { usualLowKg } = term;
  return {
    ...term,
    lowestKg: decimal('0.2'),
    usualLowKg: compare(usualLowKg, mostPreterm) < 0 ? usualLowKg : mostPreterm,
  };
}

function atAge(ageDays: number): WeightRange {
  const table = rows(byAge);
  const after = table.findIndex(([at]) => at > ageDays);
  const [from, ...low] = table[after - 1] as Row;
  const [to, ...high] = table[after] as Row;
  const past = decimal(String(ageDays - from));
  const span = decimal(String(to - from));
  return range(
    low.map((value, i) => {
      const gain = times(minus(high[i] as Decimal, value), past);
      return plus(value, divide(gain, span, 2, 'nearest'));
    }),
  );
}

export function plausibilityIn(
  weightKg: Decimal,
  { lowestKg, usualLowKg, usualHighKg, highestKg }: WeightRange,
): Plausibility {
  if (compare(weightKg, lowestKg) < 0 || compare(weightKg, highestKg) > 0) return 'implausible';
  return compare(weightKg, usualLowKg) < 0 || compare(weightKg, usualHighKg) > 0
    ? 'questionable'
    : 'plausible';
}

/**
 * The cautions of a weight at an age, for a calculator that works with both.
 *
 * @throws CalculatorError for a weight that nobody of that age has: no dose, no limit is worked out from it
 */
export function weightCautions(
  weightKg: Decimal | undefined,
  ageDays: number | undefined,
): readonly string[] {
  if (weightKg === undefined || ageDays === undefined) return [];
  const found = weightRange(ageDays);
  const { lowestKg, usualLowKg, usualHighKg, highestKg } = found;
  const which = plausibilityIn(weightKg, found);
  if (which === 'implausible')
    throw inconsistent(
      'weightKg',
      toText(weightKg),
      `${toText(lowestKg)} to ${toText(highestKg)} kg at an age of ${ageDays} days: weigh again, and check unit and date of birth`,
    );
  return which === 'plausible'
    ? []
    : [
        `Is the weight right? ${toText(weightKg)} kg at an age of ${ageDays} days is unusual (usual: ${toText(usualLowKg)} to ${toText(usualHighKg)} kg): weigh again, and check unit and date of birth.`,
      ];
}
