import { weightPlausibility } from '@dwellward/calculators';
import { describe, expect, it } from 'vitest';

// Growth tables, typed in as printed: WHO Child Growth Standards 2006 and WHO Reference 2007, weight for age, kg (table
// seen, values computed from its LMS); CDC growth charts 2000 with the published cut of the modified z (−5, +8; table
// seen, cut from memory); Fenton preterm chart in grams (table seen).

/** Within 2 %: between the ages of the table a straight line is taken, and tables print to 0.01 or 0.1 kg. */
const near = (got: string, wanted: number): void => {
  expect(Math.abs(Number(got) - wanted), `${got} against ${wanted}`).toBeLessThanOrEqual(
    0.02 * wanted + 0.01,
  );
};
const limitsAt = (ageDays: number, gestationWeeks = 40) =>
  weightPlausibility({ weightKg: 10, ageDays, gestationWeeks });

describe('WHO weight for age: −3 SD of girls, +3 SD, and the data flags −6 and +5 of both sexes', () => {
  it.each([
    [0, 2.03, 5.03, 0.94, 6.3],
    [30, 2.73, 6.57, 1.45, 8.1],
    [61, 3.45, 7.97, 1.96, 9.7],
    [91, 3.99, 8.97, 2.36, 10.9],
    [183, 5.09, 10.95, 3.15, 13.2],
    [274, 5.76, 12.28, 3.62, 14.9],
    [365, 6.27, 13.34, 3.97, 16.3],
    [548, 7.19, 15.25, 4.59, 18.9],
    [730, 8.07, 17.13, 5.16, 21.4],
  ])('C10: at %d days', (ageDays, low, high, lowest, highest) => {
    // From 40 weeks on a newborn is held against the preterm table until 50 weeks: look past it by its own dates.
    const got = ageDays < 70 ? limitsAt(ageDays, 44) : limitsAt(ageDays);
    if (ageDays >= 70) {
      near(got.usualLowKg, low);
      near(got.usualHighKg, high);
      near(got.lowestKg, lowest);
      near(got.highestKg, highest);
    } else {
      const unknown = weightPlausibility({ weightKg: 10, ageDays });
      near(unknown.usualHighKg, high);
      near(unknown.highestKg, highest);
    }
  });
  it.each([
    [1096, 9.61, 26.6],
    [1461, 10.88, 32.5],
    [1826, 12.05, 38.8],
    [2557, 14.8, 51.9],
    [3652, 20.3, 83.8],
  ])('C10: at %d days never narrower than WHO', (ageDays, low, highest) => {
    const got = limitsAt(ageDays);
    near(got.usualLowKg, low);
    expect(Number(got.highestKg)).toBeGreaterThanOrEqual(highest * 0.98);
  });
});

describe('CDC modified z −5 and +8', () => {
  it.each([
    [730, 25.2],
    [1096, 31.2],
    [1826, 47.9],
    [3652, 113],
    [5479, 183],
    [6574, 198],
    [7304, 202],
  ])('C10: %d days, at most as much', (ageDays, highest) => {
    const { highestKg } = limitsAt(ageDays);
    expect(Number(highestKg)).toBeLessThanOrEqual(highest * 1.02);
    if (ageDays > 730) near(highestKg, highest);
  });
  it.each([
    [5479, 17.1],
    [6574, 24.9],
    [7304, 23.8],
  ])('C10: %d days, at least as much', (ageDays, lowest) => near(limitsAt(ageDays).lowestKg, lowest));
});

describe('Fenton preterm chart, grams, −3 to +3 SD of both sexes', () => {
  it.each([
    [23, 400, 830],
    [24, 400, 1020],
    [26, 400, 1300],
    [28, 400, 1690],
    [32, 550, 2790],
    [36, 1270, 4400],
    [40, 2290, 5110],
  ])('C10: at %d weeks (0.4 kg at least: common practice, no source)', (weeks, low, high) => {
    const got = limitsAt(0, weeks);
    near(got.usualLowKg, low / 1000);
    near(got.usualHighKg, high / 1000);
    expect(got.lowestKg).toBe('0.2');
  });
});

describe('slips of the unit', () => {
  it('C10: a median child in grams is never believed', () => {
    for (const [ageDays, kg] of [
      [0, 3.3],
      [183, 7.9],
      [1826, 18.3],
      [4383, 41],
      [9000, 70],
    ] as const)
      expect(weightPlausibility({ weightKg: kg * 1000, ageDays }).value).toBe('implausible');
  });
  it('C10: a median child of up to two years in pounds is not believed, an older one is asked about', () => {
    for (const [ageDays, kg] of [
      [183, 7.93],
      [365, 9.65],
      [730, 12.15],
      [1826, 18.34],
    ] as const) {
      const inPounds = weightPlausibility({ weightKg: (kg * 2.2046).toFixed(2), ageDays }).value;
      expect(inPounds).toBe(ageDays < 730 ? 'implausible' : ageDays === 730 ? 'implausible' : 'questionable');
    }
  });
  // z = +45.7 of boys, +42.9 of girls by WHO.
  it('C10: 52 kg at 116 days is no weight', () => {
    expect(weightPlausibility({ weightKg: 52, ageDays: 116 }).value).toBe('implausible');
  });
});
