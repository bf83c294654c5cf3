import { readRecords } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import { at, careOf, finding, itemOf, lineOf, policyOf, stepsOf, type Resources } from './line.js';
import { said } from '../../said.js';

// What may be believed: weights by WHO and CDC growth tables (seen), neutrophils, platelets and INR by what laboratories
// report (seen and from memory; the cuts: common practice, no source).

const result = (id: string, loinc: string, value: number, unit: string, when = at('07:00:00')) => ({
  resourceType: 'Observation',
  id,
  status: 'final',
  code: { coding: [{ system: 'http://loinc.org', code: loinc }] },
  subject: { reference: 'Patient/maple' },
  effectiveDateTime: when,
  valueQuantity: { value, unit, system: 'http://unitsofmeasure.org', code: unit },
});
const readOf = (resources: Resources) => {
  const { lines, issues } = readRecords(resources.map((resource) => ({ resource })));
  return {
    measured: lines[0]?.patient.measurements ?? [],
    issues: issues.filter(({ code }) => code === 'implausible-value'),
  };
};
const withAll = (...more: object[]): Resources =>
  [...lineOf({ birthDate: '2026-08-01' }), ...more] as Resources;

describe('a weight', () => {
  it('C10: 52 kg at 116 days is not known, and no dose is worked out', () => {
    const line = lineOf({ weightKg: 52, birthDate: '2026-08-01', primingMl: { red: 0.3 } });
    const { measured, issues } = readOf(line);
    expect(measured.find(({ kind }) => kind === 'weight')?.value.high).toBeUndefined();
    expect(said(issues.map(({ sentence }) => sentence))[0]).toMatch(
      /52 kg can’t be right \(accepted: 0\.2 to 11\.\d+ kg at an age of 11\d days\)/,
    );
    const blocked = finding('blocked', 'blood-return', at('08:00:00'), 'none', 'red');
    const item = itemOf(
      careOf([...line, blocked] as Resources, policyOf('occlusion'), at('08:25:00')),
      'occlusion-treatment',
      'red',
    );
    if (item) expect(stepsOf(item).join(' ')).not.toMatch(/\d mg in/);
  });

  it('C10: an older weight does not take the place of one that can’t be', () => {
    const older = result('older', '29463-7', 5.6, 'kg', '2026-11-10T08:00:00+01:00');
    const { measured } = readOf(withAll(older, result('slip', '29463-7', 52, 'kg')));
    expect(measured.filter(({ kind }) => kind === 'weight').map(({ value }) => value.high)).toContain('5.6');
    expect(measured.at(-1)?.value.high).toBeUndefined();
  });

  it('C10: an unusual one is used, with a question', () => {
    const { measured, issues } = readOf(withAll(result('light', '29463-7', 11, 'kg')));
    expect(measured.at(-1)?.value.high).toBe('11');
    expect(said(issues.map(({ sentence }) => sentence))[0]).toMatch(/11 kg is unusual.*Ask whether/);
    expect(readOf(withAll(result('usual', '29463-7', 6, 'kg'))).issues).toEqual([]);
  });
});

describe('a count', () => {
  it.each([
    ['neutrophils of 180 · 10⁹/L', '751-8', 180, '10*9/L'],
    ['neutrophils beyond any scale', '751-8', 1e9, '10*9/L'],
    ['platelets of 3,001', '777-3', 3001, '10*9/L'],
    ['an INR of 21', '6301-6', 21, '1'],
    ['an INR of 0.4', '6301-6', 0.4, '1'],
  ])('C10: %s is not known', (_, loinc, value, unit) => {
    const { measured, issues } = readOf(withAll(result('odd', loinc, value, unit)));
    expect(measured).toHaveLength(1);
    expect([measured[0]?.value.low, measured[0]?.value.high]).toEqual([undefined, undefined]);
    expect(issues).toMatchObject([{ severity: 'high' }]);
  });

  it('C10: neutrophils of 180 are used where as many leucocytes are there, and not where fewer are', () => {
    const of = (leucocytes: number) =>
      readOf(
        withAll(result('anc', '751-8', 180, '10*9/L'), result('wbc', '6690-2', leucocytes, '10*9/L')),
      ).measured.find(({ kind }) => kind === 'anc')?.value.high;
    expect(of(200)).toBe('180');
    expect(of(100)).toBeUndefined();
  });

  it('C10: what a laboratory reports every day is silent', () => {
    const usual = [
      result('anc', '751-8', 0.1, '10*9/L'),
      result('plt', '777-3', 12, '10*9/L'),
      result('inr', '6301-6', 2.5, '1'),
    ];
    const { measured, issues } = readOf(withAll(...usual));
    expect(measured.map(({ value }) => value.high)).not.toContain(undefined);
    expect(issues).toEqual([]);
  });
});
