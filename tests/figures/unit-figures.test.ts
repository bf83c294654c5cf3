import { readRecords } from '@dwellward/core';
import { unitFigures } from '@dwellward/figures';
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
