import { repairJudgement, type RepairOptions } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import {
  at,
  careOf,
  event,
  finding,
  itemOf,
  lineOf,
  places,
  policyOf,
  recordOf,
  zone,
  type Resources,
} from './line.js';
import { spoken } from '../../said.js';

// Repair of a line. The lengths and times are common practice, no source: 4 cm intact, 2 minutes of cleansing, 1 mL of
// adhesive, 20 cm outside at most, no infusion for 2 h, splint for 48 h. Clamp: home sheet (seen). Clot check: JAVA
// 25(2):40 (seen). Kit by device and size, who may do it: instructions of makers (from memory).

const policy = policyOf('repair-care', 'trouble');
const damage = {
  ...finding('cut', 'damage', at('08:00:00'), 'cut', 'red'),
  component: [
    {
      code: {
        coding: [
          { system: 'https://dwellward.example/fhir/CodeSystem/line-finding', code: 'distance-from-skin' },
        ],
      },
      valueQuantity: { value: 6, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' },
    },
  ],
};
const all = {
  lumen: 'Device/red',
  intactExternalLengthCm: '6',
  trimCm: '0.5',
  newSegmentLengthCm: '10',
  newSegmentInnerDiameterMm: '1.6',
  lumenFrench: '9.6',
  kitFrench: '9.6',
  kitForThisDevice: true,
  lumenFreeOfClot: true,
  performerAllowed: true,
  leastIntactCm: '4',
} satisfies RepairOptions;
/** All but one, which is then not known. */
const without = (left: keyof RepairOptions): RepairOptions =>
  Object.fromEntries(Object.entries(all).filter(([name]) => name !== left));
const judge = (options: RepairOptions, resources: Resources = [...lineOf(), damage]) =>
  spoken(repairJudgement(recordOf(resources), options, policy, { asOf: at('09:00:00'), zone }));

describe('whether', () => {
  it('it is possible where every precondition is met', () => {
    expect(judge(all).verdict).toBe('possible');
    expect(judge(all).preconditions.map(({ met }) => met)).toEqual(Array(7).fill('yes'));
  });

  it.each([
    ['intact-length', { intactExternalLengthCm: '4.4' }],
    ['kit-size', { kitFrench: '6.6' }],
    ['kit-for-device', { kitForThisDevice: false }],
    ['no-clot', { lumenFreeOfClot: false }],
    ['length-afterwards', { newSegmentLengthCm: '15' }],
    ['stump-left', { trimCm: '3.6', leastIntactCm: '1' }],
    ['who-may-repair', { performerAllowed: false }],
  ] as const)('%s not met: not possible, with the reason', (name, change) => {
    const found = judge({ ...all, ...change });
    expect(found.verdict).toBe('not-possible');
    const failed = found.preconditions.filter(({ met }) => met !== 'yes');
    expect(failed.map((one) => one.name)).toEqual([name]);
    expect(failed[0]?.reason).toMatch(/\S{3}/);
  });

  it('C6: what the kit needs has to be left after the trim', () => {
    expect(judge({ ...all, intactExternalLengthCm: '4.5' }).verdict).toBe('possible');
    expect(judge({ ...all, intactExternalLengthCm: '4.5', leastIntactCm: '5' }).verdict).toBe('not-possible');
    // 2 mm left for the clamp.
    expect(judge({ ...all, intactExternalLengthCm: '4.2', trimCm: '4' }).verdict).toBe('not-possible');
  });
  it('C6: without the kit’s figure no repair is possible yet, and the figure is asked for', () => {
    const found = judge(without('leastIntactCm'));
    expect(found.verdict).toBe('not-known');
    expect(found.preconditions.find(({ name }) => name === 'intact-length')?.reason).toMatch(/not known/);
    expect(found.measures).toBeUndefined();
  });
  it('C6: less than 2.5 cm left is never enough, whatever the kit says', () => {
    const short = { ...all, intactExternalLengthCm: '3', leastIntactCm: '1' };
    expect(judge({ ...short, trimCm: '0.5' }).verdict).toBe('possible');
    expect(judge({ ...short, trimCm: '0.6' }).verdict).toBe('not-possible');
    expect(judge({ ...without('leastIntactCm'), intactExternalLengthCm: '3', trimCm: '0.6' }).verdict).toBe(
      'not-possible',
    );
  });

  it.each([
    ['trimCm', ['intact-length', 'stump-left', 'length-afterwards']],
    ['leastIntactCm', ['intact-length']],
    ['newSegmentLengthCm', ['length-afterwards']],
    ['lumenFrench', ['kit-size']],
    ['kitForThisDevice', ['kit-for-device']],
    ['lumenFreeOfClot', ['no-clot']],
    ['performerAllowed', ['who-may-repair']],
    ['intactExternalLengthCm', ['intact-length', 'stump-left', 'length-afterwards']],
  ] as const)('%s not known: not yet, and it says what to find out', (name, open) => {
    const unmeasured = finding('cut', 'damage', at('08:00:00'), 'cut', 'red');
    const found = judge(without(name), [...lineOf(), unmeasured]);
    expect(found.verdict).toBe('not-known');
    const unknown = found.preconditions.filter(({ met }) => met === 'not-known');
    expect(unknown.map((one) => one.name)).toEqual(open);
    for (const { reason } of unknown) expect(reason).toMatch(/^not known: \S/);
  });

  it('takes the intact length from the latest damage on record, up to its repair', () => {
    const rest = without('intactExternalLengthCm');
    const found = judge(rest, [...lineOf(), damage]);
    expect(found.verdict).toBe('possible');
    expect(found.damage).toMatchObject({ ref: 'Observation/cut', values: ['cut'], fromSkinCm: '6' });
    const after = judge(rest, [...lineOf(), damage, event('mended', 'repair', at('08:30:00'))]);
    expect(after.damage).toBeUndefined();
    expect(after.verdict).toBe('no-damage');
    // No other lumen was damaged then: it was of this one.
    expect(after.earlierRepairs).toEqual([
      { ref: 'Procedure/mended', at: at('08:30:00'), lumen: 'Device/red' },
    ]);
  });
});

describe('which lumen', () => {
  const judged = (...resources: Resources) => judge(without('lumen'), [...lineOf(), ...resources]);
  const other = finding('other', 'damage', at('08:10:00'), 'leak', 'white');
  it('is the one that the damage on record names', () => {
    expect(judged(damage).lumen).toEqual({ ref: 'Device/red', name: 'red' });
    const whiteMended = event('mended', 'repair', at('08:30:00'), 'white');
    expect(judged(damage, other, whiteMended).lumen?.name).toBe('red');
  });
  it.each([
    ['two lumens', [damage, other]],
    ['the line as a whole', [finding('whole', 'damage', at('08:00:00'), 'leak')]],
  ])('is asked for where damage of %s is on record', (_, resources) => {
    expect(() => judged(...resources)).toThrow(
      /several lumens.*does not name just one; say which: red \(Device\/red\), white \(Device\/white\)/,
    );
  });
});

describe('what is not to be repaired, or not damaged (home sheet, seen: clamp between damage and body, cover, call)', () => {
  it('not possible: only what is done at once and whom to ask', () => {
    const { steps, supplies, measures } = judge({ ...all, kitForThisDevice: false });
    expect(steps.join(' ')).toMatch(
      /clamp between the damage and the body.*sterile gauze.*responsible clinician/,
    );
    expect(steps.join(' ')).not.toMatch(/[Cc]ut|kit|adhesive|[Ff]lush|[Ll]ock with/);
    expect([supplies, measures]).toEqual([[], undefined]);
  });
  it.each([
    ['none was found', lineOf()],
    ['it was repaired', [...lineOf(), damage, event('mended', 'repair', at('08:30:00'), 'red')]],
    ['it is of the other lumen', [...lineOf(), finding('other', 'damage', at('08:00:00'), 'leak', 'white')]],
  ])('no damage where %s: no steps, whatever is known of the kit', (_, resources) => {
    const { verdict, steps, measures } = judge(all, resources);
    expect([verdict, steps, measures]).toEqual(['no-damage', [], undefined]);
  });
});

describe('how', () => {
  it('clamp, 2 minutes, 1 mL, air drawn back, then flush, then lock (common practice, no source)', () => {
    const { steps } = judge(all);
    const found = places(steps, [
      /clamp between the damage and the body/,
      /at least 4 cm intact/,
      /2 minutes/,
      /1 mL of its adhesive/,
      /^Draw back the air.*until blood fills it/,
      /^Then flush/,
      /^Then lock/,
      /until the waiting time of the kit.*48 hours/,
    ]);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(steps.join('\n')).toContain('Then flush with at least 1.6 mL');
    expect(steps.join('\n')).toContain('Then lock with 1 mL');
  });

  it('measures: cut, length afterwards, air of the segment (geometry: π · 1.6² / 4 · 100 mm³)', () => {
    expect(judge(all).measures).toEqual({
      cutAtCm: '5.5',
      externalLengthAfterCm: '15.5',
      airToWithdrawMl: '0.21',
    });
  });
});

describe('after it (common practice, no source)', () => {
  const mended = [...lineOf(), damage, event('mended', 'repair', at('08:30:00'), 'red')];
  it('no infusion until the kit’s time is over, a test within the day, splint off after 48 hours', () => {
    const care = careOf(mended, policy, at('09:00:00'));
    expect(
      care.holds.filter(({ activity }) => activity === 'infusion-start').map(({ until }) => until),
    ).toEqual([undefined]);
    expect(itemOf(care, 'patency-assessment')?.dueBy).toBe('2026-11-26T08:30:00+01:00');
    expect(itemOf(care, 'splint-removal')?.dueBy).toBe('2026-11-27T08:30:00+01:00');
  });
});
