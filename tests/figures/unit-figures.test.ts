import { readRecords } from '@dwellward/core';
import { compareRates, compareShares, figuresView, unitFigures } from '@dwellward/figures';
import { inventedYear, organismLists, yearPeriod } from '@dwellward/fixtures';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';

const subject = { reference: 'Patient/p' };
const june = (day: number, hour = 12) => `2026-06-${String(day).padStart(2, '0')}T${hour}:00:00Z`;
const organisms = (code: string) => [
  { resourceType: 'ValueSet', compose: { include: [{ system: 'urn:o', concept: [{ code }] }] } },
];
const patient = { resourceType: 'Patient', id: 'p' };
const stay = {
  ...{ resourceType: 'Encounter', id: 's', status: 'in-progress', subject, period: { start: june(1, 10) } },
  location: [{ location: { display: 'Ward' }, status: 'active' }],
};
const port = {
  ...{ resourceType: 'Device', id: 'l', status: 'active', patient: subject },
  type: { coding: [{ system: codeSystem.lineType, code: 'implanted-port' }] },
};
const done = (activity: string, performedDateTime: string) => ({
  ...{
    resourceType: 'Procedure',
    id: `${activity}-${performedDateTime.slice(0, 10)}`,
    status: 'completed',
    subject,
  },
  ...{ performedDateTime, focalDevice: [{ manipulated: { reference: 'Device/l' } }] },
  code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
});
const culture = (day: number, code: string, more: object = {}) => ({
  ...{ resourceType: 'Observation', id: `c${day}`, status: 'final', subject, effectiveDateTime: june(day) },
  code: { coding: [{ system: 'http://loinc.org', code: '600-7' }] },
  valueCodeableConcept: { coding: [{ system: 'urn:o', code }] },
  ...more,
});
const temperature = (day: number, value: number) => ({
  ...{ resourceType: 'Observation', id: `t${day}`, status: 'final', subject, effectiveDateTime: june(day) },
  code: { coding: [{ system: 'http://loinc.org', code: '8310-5' }] },
  valueQuantity: { value, unit: 'Cel', system: 'http://unitsofmeasure.org', code: 'Cel' },
});
const figures = (...given: object[]) => {
  const entries = [patient, stay, port, ...given].map((resource) => ({ resource }));
  return unitFigures(readRecords(entries), entries, {
    ...{ from: '2026-06-01', to: '2026-06-30', zone: 'Europe/Berlin' },
    organisms: { pathogens: organisms('patho'), commensals: organisms('comm') },
  });
};
const years = done('insertion', '2024-03-01');

describe('access', () => {
  it('counts from the first of this admission, not from an earlier one', () => {
    const of = (...acts: object[]) =>
      figures(years, done('flush', '2026-05-20'), ...acts, culture(8, 'patho')).infections[0]?.lineAssociated;
    expect(of()).toBe(false);
    expect(of(done('flush', '2026-06-07'))).toBe(false);
    expect(of(done('flush', '2026-06-06'))).toBe(true);
    expect(of(done('dressing-change', '2026-06-02'))).toBe(false);
  });
});

describe('fever', () => {
  it.each([
    [38, 0],
    [38.1, 1],
  ])('of %d °C with a commensal in two specimens: %i infections', (value, count) => {
    const { infections, leftOut } = figures(
      years,
      culture(8, 'comm'),
      culture(9, 'comm'),
      temperature(6, value),
    );
    expect(infections).toHaveLength(count);
    if (count === 1) expect(infections[0]).toMatchObject({ criterion: 'LCBI-2', dateOfEvent: '2026-06-06' });
    else expect(leftOut.map(({ ref }) => ref)).toEqual(['Observation/c8', 'Observation/c9']);
  });
});

describe('a culture that can’t be used', () => {
  it.each([
    ['of status cancelled', { status: 'cancelled' }],
    ['of no patient', { subject: undefined }],
    ['without a day of collection', { effectiveDateTime: '2026-06' }],
    ['without a coded organism', { valueCodeableConcept: undefined }],
    ['of nobody who was admitted then', { subject: { reference: 'Patient/q' } }],
    ['of before the stay', { effectiveDateTime: '2026-05-01' }],
  ])('%s is told', (_, more) => {
    const { infections, leftOut } = figures(years, culture(8, 'patho', more));
    expect(infections).toEqual([]);
    expect(leftOut).toMatchObject([{ ref: 'Observation/c8', counted: false }]);
  });
});

describe('compared with an earlier period', () => {
  const halves = (against?: { from: string; to: string }) => {
    const entries = inventedYear().map((resource) => ({ resource }));
    const { pathogens, commensals } = organismLists();
    return unitFigures(readRecords(entries), entries, {
      ...{ from: '2025-07-01', to: '2025-12-31', zone: yearPeriod.zone },
      organisms: { pathogens: [pathogens], commensals: [commensals] },
      ...(against ? { against } : {}),
    });
  };
  const earlier = { from: '2025-01-01', to: '2025-06-30' };

  it('each unit stands beside itself, by the published tests', () => {
    const compared = halves(earlier);
    const alone = halves();
    const then = unitFiguresOf(earlier);
    for (const { unit, against, rate, lineDays, patientDays } of compared.units) {
      const before = then.find((one) => one.unit === unit)!;
      expect(against?.rate).toEqual(before.rate);
      expect(against?.ratePValue).toBe(compareRates(rate!, before.rate!));
      expect(against?.utilisationPValue).toBe(
        compareShares(
          { part: lineDays, whole: patientDays },
          { part: before.lineDays, whole: before.patientDays },
        ),
      );
    }
    expect(compared.units.map(({ against: _, ...own }) => own)).toEqual(alone.units);
    expect(compared.infections).toEqual(alone.infections);
    // What could not be counted then is told, too.
    expect(compared.leftOut.length).toBeGreaterThan(alone.leftOut.length);
  });

  it('stands in a table, which says so where the periods overlap or nothing can be compared', () => {
    const [, table] = figuresView(halves(earlier)).tables;
    expect(table).toMatchObject({ heading: 'Compared with 2025-01-01 to 2025-06-30' });
    expect(table?.rows).toHaveLength(2);
    expect(table?.notes.join(' ')).not.toMatch(/overlap/);
    const [, over] = figuresView(halves({ from: '2025-01-01', to: '2025-07-01' })).tables;
    expect(over?.notes.join(' ')).toMatch(/overlap/);
    const [, empty] = figuresView(halves({ from: '2023-01-01', to: '2023-06-30' })).tables;
    expect(empty?.rows).toEqual([]);
    expect(empty?.notes.join(' ')).toMatch(/Marlpit Unit: no line days in one of the two periods/);
  });

  function unitFiguresOf(period: { from: string; to: string }) {
    const entries = inventedYear().map((resource) => ({ resource }));
    const { pathogens, commensals } = organismLists();
    return unitFigures(readRecords(entries), entries, {
      ...{ ...period, zone: yearPeriod.zone },
      organisms: { pathogens: [pathogens], commensals: [commensals] },
    }).units;
  }
});
