import { describe, expect, it } from 'vitest';
import { dayAfter, dayBefore, readEffectivePeriod } from './effective.js';
import { Findings, type LintFinding } from './findings.js';

const readOf = (period: unknown) => {
  const list: LintFinding[] = [];
  const read = readEffectivePeriod(period, new Findings(list, 0, 'PlanDefinition.effectivePeriod'));
  return {
    read,
    found: list.map(({ severity, code, path }) => `${severity} ${code} ${path.split('.').at(-1) ?? ''}`),
  };
};

describe('when a layer is in force', () => {
  // The type date of HL7 FHIR R4: a day, a month or a year from 0001 to 9999.
  it.each([
    [{ start: '0001-01-01' }, { start: '0001-01-01' }],
    [
      { start: '2026-01-01', end: '2026-12-31' },
      { start: '2026-01-01', end: '2026-12-31' },
    ],
    [
      { start: '2026', end: '2026-04' },
      { start: '2026-01-01', end: '2026-04-30' },
    ],
    [{ end: '9999' }, { end: '9999-12-31' }],
    [
      { start: '2026-12-01', end: '2026-12-01' },
      { start: '2026-12-01', end: '2026-12-01' },
    ],
    [{}, undefined],
    [undefined, undefined],
  ])('%j is read', (period, read) => {
    expect(readOf(period)).toEqual({ read, found: [] });
  });

  it.each([
    '0000',
    '0000-01-01',
    '2026-00',
    '2026-13-01',
    '2026-01-00',
    '2026-04-31',
    '12026-01-01',
    '2026-01-011',
    '',
    7,
    null,
  ])('%j is no day, and nothing is read', (start) => {
    const code = 'error effective-period start';
    expect(readOf({ start })).toEqual({ read: undefined, found: [code] });
    expect(readOf({ start, end: '2026-12-31' })).toEqual({ read: undefined, found: [code] });
  });

  it('says what else stands in it: what tells nothing as unused, the rest as what can’t be kept', () => {
    const start = '2026-12-01';
    expect(readOf({ start, id: 'a', extension: [] })).toEqual({
      read: { start },
      found: ['information unused-element id', 'information unused-element extension'],
    });
    expect(readOf({ start, low: 1 }).found).toEqual(['error unread-element low']);
    expect(readOf({ start, end: '2026-11-30' })).toEqual({
      read: undefined,
      found: ['error effective-period end'],
    });
    expect(readOf('2026').found).toEqual(['error effective-period effectivePeriod']);
  });

  it.each([
    ['2026-01-29', '2026-01-30'],
    ['2028-01-29', '2028-01-30'],
    ['2028-02-28', '2028-02-29'],
    ['2100-02-28', '2100-03-01'],
    ['2000-02-28', '2000-02-29'],
    ['2026-12-31', '2027-01-01'],
    ['2026-04-30', '2026-05-01'],
  ])('the day after %s is %s, and the day before that is the first', (day, next) => {
    expect(dayAfter(day)).toBe(next);
    expect(dayBefore(next)).toBe(day);
  });
});
