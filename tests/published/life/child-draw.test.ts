import { bloodDraw, dueCare, type DrawOptions } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import { at, event, finding, lineOf, policyOf, recordOf, zone } from './line.js';
import { spoken } from '../../said.js';

// Draws from children by size. Discard 2 × dead space, 6 × for coagulation (RNAO, seen); 3 % of the blood volume a day
// (Howie 2011, seen), by the lowest of two published sets: 78 mL/kg in the first month, 75 to a year, 70 to three, 65
// above (laboratory table and guidance page, seen). Push–pull up to 3 × dead space and 1 % of the blood volume: common
// practice, no source. Fixed volumes are of adults.

const policy = policyOf('blood-sampling');
const sizes = {
  '850 g': { weightKg: 0.85, birthDate: '2026-11-05', primingMl: { red: 0.2, white: 0.2 } },
  '3.5 kg': { weightKg: 3.5, birthDate: '2026-11-20', primingMl: { red: 0.3, white: 0.3 } },
  '6 kg': { weightKg: 6, birthDate: '2026-07-25', primingMl: { red: 0.4, white: 0.4 } },
  '20 kg': { weightKg: 20, birthDate: '2020-11-05', primingMl: { red: 0.6, white: 0.6 } },
  adult: { weightKg: 70, birthDate: '1980-05-05', primingMl: { red: 0.8, white: 0.8 } },
} as const;
type Size = keyof typeof sizes;

const planOf = (
  size: Size | Parameters<typeof lineOf>[0],
  options: Partial<DrawOptions> = {},
  more: object[] = [],
) =>
  spoken(
    bloodDraw(
      recordOf([...lineOf(typeof size === 'string' ? sizes[size] : size), ...(more as never[])]),
      { tests: [{ test: 'chemistry', volumeMl: '0.5' }], lumen: 'Device/red', ...options },
      policy,
      { asOf: at('12:00:00'), zone },
    ),
  );

describe('the volumes of a draw', () => {
  it.each([
    // General discard, coagulation discard, flush before a coagulation sample, what may be drawn today.
    ['850 g', '0.4', '1.2', '0.4', '1.9'],
    ['3.5 kg', '0.6', '1.8', '0.6', '8.1'],
    ['6 kg', '0.8', '2.4', '0.8', '13.5'],
    ['20 kg', '1.2', '3.6', '1.2', '39'],
    ['adult', '1.6', '5', '5', undefined],
  ] as const)('C5: %s: no fixed volume of adults in a child', (size, general, coagulation, flush, safe) => {
    const coagulationOf = planOf(size, { tests: [{ test: 'coagulation', volumeMl: '0.5' }] });
    expect(planOf(size).discardMl).toBe(general);
    expect(coagulationOf.discardMl).toBe(coagulation);
    expect(planOf(size).loss.safeTodayMl).toBe(safe);
    expect(coagulationOf.steps.find((step) => step.startsWith('Flush the lumen with at least'))).toContain(
      `at least ${flush} mL`,
    );
    const words = JSON.stringify(planOf(size));
    expect(/6 mL\. Published: 3 to 6 mL|10 to 20 mL|5 to 10 mL/.test(words)).toBe(size === 'adult');
  });

  it('C5: an age that is not known takes no volume of adults either', () => {
    const resources = lineOf(sizes.adult).map((one) =>
      'birthDate' in one ? { resourceType: 'Patient' as const, id: 'maple' } : one,
    );
    const draw = spoken(
      bloodDraw(
        recordOf(resources),
        { tests: [{ test: 'coagulation', volumeMl: '0.5' }], lumen: 'Device/red' },
        policy,
        { asOf: at('12:00:00'), zone },
      ),
    );
    expect(draw.discardMl).toBe('4.8');
    expect(draw.warnings[0]).toMatch(/^HOW MUCH MAY BE DRAWN COULD NOT BE WORKED OUT/);
  });
});

// In the first year of life what a lumen is locked with, and whether, is the order’s (common practice, no source); the rules
// of a lock that a policy asks for begin with the second year.
describe('the lock after a draw', () => {
  const lockStepsOf = (given: Parameters<typeof planOf>[0]) =>
    planOf(given).steps.filter((step) => /\block\b/i.test(step));

  it.each(['850 g', '3.5 kg', '6 kg'] as const)(
    'C13: of %s in the first year of life has no volume',
    (size) => {
      expect(lockStepsOf(size)).toEqual([
        'In the first year of life: lock the lumen again only where a lock is ordered, with heparin of 10 units/mL at most.',
      ]);
    },
  );

  it.each(['20 kg', 'adult'] as const)('C13: of %s has the volume that the lumen holds', (size) => {
    expect(lockStepsOf(size)).toEqual([expect.stringMatching(/^Lock the lumen with \d.* mL/)]);
  });

  it('C13: is the same as care that is due has it, from the first birthday on', () => {
    for (const [birthDate, locks] of [
      ['2025-11-27', false],
      ['2025-11-20', true],
    ] as const) {
      const given = { ...sizes['6 kg'], birthDate };
      const drawn = [event('drawn', 'blood-sampling', at('11:00:00'), 'red')];
      const care = dueCare(recordOf([...lineOf(given), ...drawn]), policy, { asOf: at('12:00:00'), zone });
      expect(care.items.some(({ activity }) => activity === 'lock')).toBe(locks);
      expect(lockStepsOf(given).some((step) => /\d mL/.test(step))).toBe(locks);
    }
  });
});

describe('a draw above what may be drawn', () => {
  const culture = { tests: [{ test: 'culture', volumeMl: '3' }] } as const;

  it('C5: has no steps that would break the limit, and says what to ask', () => {
    const draw = planOf('850 g', culture);
    expect(draw.loss).toMatchObject({ thisDrawMl: '3.4', safeTodayMl: '1.9', within: false });
    expect(draw.steps).toEqual([]);
    expect(draw.supplies).toEqual([]);
    expect(draw.ask).toEqual([
      'Ask the prescriber which of these can wait: blood culture bottles (culture, 3 mL).',
      expect.stringMatching(/^Ask the laboratory for its smallest tubes/),
      expect.stringMatching(/^Ask whether a vein, or a prick of heel or finger, does/),
      expect.stringMatching(/^Then ask again here/),
    ]);
  });

  it('C5: within it the steps stand, and nothing is asked', () => {
    const draw = planOf('850 g');
    expect(draw.ask).toEqual([]);
    expect(draw.steps.length).toBeGreaterThan(5);
  });

  it('C5: what is known of the volumes is enough where it is above alone', () => {
    const draw = planOf('850 g', { tests: [{ test: 'culture', volumeMl: '3' }, { test: 'blood-count' }] });
    expect(draw.loss.thisDrawMl).toBeUndefined();
    expect(draw.loss).toMatchObject({ leastMl: '3.4', within: false });
    expect(draw.warnings[0]).toMatch(/at least 3\.4 mL/);
    expect(draw.steps).toEqual([]);
    const little = planOf('850 g', { tests: [{ test: 'culture', volumeMl: '1' }, { test: 'blood-count' }] });
    expect(little.loss.within).toBeUndefined();
    expect(little.steps.length).toBeGreaterThan(5);
  });

  it.each([
    ['850 g', '0.2', /^Push–pull.*draw 0\.6 mL/],
    ['850 g', '0.3', /^No push–pull: one cycle of 0\.9 mL is more than the 0\.6 mL/],
    ['3.5 kg', '0.9', /^Push–pull.*draw 2\.7 mL/],
    ['3.5 kg', '1', /^No push–pull: one cycle of 3 mL is more than the 2\.7 mL/],
  ] as const)('C5: push–pull in %s with a lumen of %s mL only where a cycle is small', (size, red, way) => {
    const draw = planOf(
      { ...sizes[size], primingMl: { red: Number(red) } },
      { tests: [{ test: 'culture', volumeMl: '20' }] },
    );
    expect(draw.warnings[1]).toMatch(way);
  });

  it('C5: no push–pull for the level of a drug that may have run through the lumen', () => {
    const ran = event('ran', 'infusion-start', at('10:00:00'), 'red');
    const draw = planOf('6 kg', { tests: [{ test: 'drug-level', volumeMl: '20' }] }, [ran]);
    expect(draw.warnings[1]).toMatch(/^No push–pull for the level of a drug/);
  });

  it('C5: what was withdrawn from a treated lumen counts as drawn', () => {
    const treated = [
      event('given', 'occlusion-treatment', at('09:00:00'), 'white'),
      finding('opened', 'blood-return', at('09:35:00'), 'brisk', 'white'),
    ];
    expect(planOf('6 kg', {}, treated).loss).toMatchObject({ last24HoursMl: '3', safeTodayMl: '10.5' });
    expect(planOf('6 kg', {}, treated.slice(0, 1)).loss.last24HoursMl).toBe('0');
    expect(planOf('adult', {}, treated).loss.last24HoursMl).toBe('5');
  });
});
