import { dueCare, nextChange, readRecords } from '@dwellward/core';
import { bundledPlan, defaultPlans, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { at, cautionsOf, event, finding, itemOf, lineOf, recordOf, zone, type Resources } from './line.js';
import { said } from '../../said.js';

// Heparin of the last 24 hours by the record, from all sources, against 40 units/kg up to 60 days of age or below 3 kg
// (caregiver sheet of a children’s hospital, heparin-lock-flush-infants, seen). The codes of heparin: ATC index (seen).

const noon = at('12:00:00');
const unit = '[iU]';
const subject = { reference: 'Patient/maple' };

const dose = (id: string, when: string, given: object | undefined, more: object = {}) => ({
  resourceType: 'MedicationAdministration',
  id,
  status: 'completed',
  subject,
  medicationCodeableConcept: { coding: [{ system: 'http://www.whocc.no/atc', code: 'B01AB51' }] },
  effectiveDateTime: when,
  ...(given === undefined ? {} : { dosage: { dose: given } }),
  ...more,
});
const units = (value: number) => ({ value, unit: 'units', code: unit, system: 'http://unitsofmeasure.org' });
const lockOf = (id: string, when: string) => event(id, 'lock', when, 'white');
const newborn = lineOf({ birthDate: '2026-11-09', weightKg: 1, type: 'picc' });

const reading = readPolicy([...defaultPlans(), bundledPlan('infant')]);
if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
const { policy } = reading;

function told(resources: Resources, when = noon) {
  const record = recordOf(resources);
  const care = dueCare(record, policy, { asOf: when, zone });
  return {
    care,
    record,
    warnings: said(care.warnings).join(' '),
    lock: cautionsOf(itemOf(care, 'lock', 'white')).filter((text) =>
      /^(WARNING: h|H)eparin on record/.test(text),
    ),
  };
}

/** So many units each, every two hours up to eleven. */
const doses = (...each: readonly number[]) =>
  each.map((value, i) => dose(`dose-${i}`, at(`${String(11 - 2 * i).padStart(2, '0')}:00:00`), units(value)));

describe('heparin on record', () => {
  it('C10: is added up over 24 hours, and what is above the limit of a small infant stands on top', () => {
    const within = told([...newborn, lockOf('locked', at('11:00:00')), ...doses(20, 20)] as Resources);
    expect(within.warnings).not.toMatch(/[Hh]eparin/);
    expect(within.lock).toEqual([
      'Heparin on record in the last 24 hours: 40 units in 2 doses (40 units/kg, at most 40 units/kg).',
    ]);
    const above = told([...newborn, lockOf('locked', at('11:00:00')), ...doses(20, 20, 0.1)] as Resources);
    expect(above.warnings).toMatch(
      /WARNING: heparin .* above the limit .*40\.1 units in 3 doses \(40\.1 units\/kg, at most 40.*Ask the prescriber/,
    );
    expect(above.lock).toHaveLength(1);
  });

  it('C10: of yesterday it leaves the sum after 24 hours, and whoever keeps Tasks looks again then', () => {
    const late = [...newborn, dose('old', '2026-11-24T13:00:00+01:00', units(41))] as Resources;
    const { care, record, warnings } = told(late);
    expect(warnings).toMatch(/41 units/);
    const next = nextChange(record, { ...care, items: [] }, policy, { asOf: noon, zone });
    expect(Date.parse(next ?? '')).toBeLessThanOrEqual(Date.parse(at('13:00:00.001')));
    expect(told(late, at('13:00:00')).warnings).toMatch(/41 units/);
    expect(told(late, at('13:00:01')).warnings).toBe('');
  });

  it('C10: what runs is said not to be counted, however long ago it began; what has not begun is not said', () => {
    const infusion = (start: string, more: object = {}) => ({
      ...dose('runs', start, undefined, { status: 'in-progress' }),
      effectiveDateTime: undefined,
      effectivePeriod: { start },
      dosage: { rateQuantity: { value: 10, unit: 'U/h' } },
      ...more,
    });
    const lock = (...more: Resources) =>
      told([...newborn, lockOf('locked', at('11:00:00')), ...doses(10), ...more] as Resources).lock.join(' ');
    expect(lock()).not.toMatch(/not counted/);
    expect(lock(infusion('2026-11-20T08:00:00+01:00') as never)).toMatch(
      /10 units .*; 1 more dose or lock of unknown amount not counted/,
    );
    expect(lock(infusion(at('06:00:00'), { status: 'on-hold' }) as never)).toMatch(/1 more dose/);
    expect(lock(infusion(at('18:00:00')) as never)).not.toMatch(/not counted/);
    // What is over long ago is over.
    const over = {
      status: 'completed',
      effectivePeriod: { start: '2026-11-20T08:00:00+01:00', end: '2026-11-21T08:00:00+01:00' },
    };
    expect(lock(infusion('2026-11-20T08:00:00+01:00', over) as never)).not.toMatch(/not counted/);
  });

  it('C10: a volume counts by the strength of its Medication', () => {
    const medication = {
      resourceType: 'Medication',
      id: 'strong',
      ingredient: [
        {
          itemCodeableConcept: { coding: [{ system: 'http://www.whocc.no/atc', code: 'B01AB01' }] },
          strength: {
            numerator: { value: 100, unit: 'IU', code: unit },
            denominator: { value: 1, unit: 'mL', code: 'mL' },
          },
        },
      ],
    };
    const given = dose(
      'by-volume',
      at('10:00:00'),
      { value: 0.5, unit: 'mL', code: 'mL' },
      { medicationCodeableConcept: undefined, medicationReference: { reference: 'Medication/strong' } },
    );
    expect(told([...newborn, medication, given] as Resources).warnings).toMatch(/: 50 units \(50 units\/kg/);
  });

  it('C10: what has no amount is not in the sum, and is said', () => {
    const resources = [
      ...newborn,
      lockOf('locked', at('06:00:00')),
      dose('how-much', at('09:00:00'), undefined),
      ...doses(12),
    ] as Resources;
    expect(told(resources).lock).toEqual([
      'Heparin on record in the last 24 hours: 12 units (12 units/kg, at most 40 units/kg); 2 more doses or locks of unknown amount not counted.',
    ]);
  });

  it('C10: what is not heparin, was not given, or is of low molecular weight is not in it', () => {
    const other = { medicationCodeableConcept: { text: 'saline 0.9 %' } };
    const light = { medicationCodeableConcept: { text: 'Low molecular weight heparin' } };
    const none = [
      dose('other', at('09:00:00'), units(90), other),
      dose('light', at('09:00:00'), units(90), light),
      dose('refused', at('09:00:00'), units(90), { status: 'not-done' }),
      dose('later', at('12:00:01'), units(90)),
    ];
    const { warnings } = told([...newborn, ...none] as Resources);
    expect(warnings).toBe('');
    expect(
      told([
        ...newborn,
        dose('text', at('09:00:00'), units(90), {
          medicationCodeableConcept: { text: 'Heparin flush' },
        }),
      ] as Resources).warnings,
    ).toMatch(/90 units/);
  });

  it('C10: without a weight it can’t be held against the limit, and of an adult nothing is said', () => {
    const noWeight = lineOf({ birthDate: '2026-11-09', type: 'picc' });
    const lines = [lockOf('locked', at('06:00:00')), ...doses(12)];
    expect(told([...noWeight, ...lines] as Resources).lock.join()).toMatch(
      /per kg not known: there is no weight/,
    );
    const adult = lineOf({ birthDate: '1980-05-05', weightKg: 70, type: 'picc' });
    const { warnings, lock } = told([
      ...adult,
      ...lines,
      dose('full', at('09:00:00'), units(5000)),
    ] as Resources);
    expect([warnings, lock]).toEqual(['', []]);
  });

  it('C10: the dose that a lock was filled with is no infusion that ended', () => {
    const filled = dose('filled', at('11:00:00'), units(5), {
      device: [{ reference: 'Device/white' }],
      partOf: [{ reference: 'Procedure/locked' }],
    });
    const { care } = told([...newborn, lockOf('locked', at('11:00:00')), filled] as Resources);
    const flush = itemOf(care, 'flush', 'white');
    expect(
      [flush?.rule, ...(flush?.others ?? []).map(({ rule }) => rule)].map((rule) => rule?.id).join(),
    ).not.toMatch(/after-infusion/);
  });
});

describe('a weight beside the one before it', () => {
  const weighed = (id: string, kg: number, when: string) => ({
    resourceType: 'Observation',
    id,
    status: 'final',
    code: { coding: [{ system: 'http://loinc.org', code: '29463-7' }] },
    subject,
    effectiveDateTime: when,
    valueQuantity: { value: kg, unit: 'kg', system: 'http://unitsofmeasure.org', code: 'kg' },
  });
  const read = (...weights: readonly object[]) => {
    const resources = [...lineOf({ birthDate: '2019-05-05' }), ...weights];
    const { lines, issues } = readRecords(resources.map((resource) => ({ resource })));
    return {
      weights: (lines[0]?.patient.measurements ?? []).map(({ value }) => [value.low, value.high]),
      issues: said(issues.filter(({ code }) => code === 'implausible-value').map(({ sentence }) => sentence)),
    };
  };

  // A child of 7 years, 22.9 kg: 50.5 lb. By the growth tables of WHO and CDC either is a weight of that age.
  it('C10: twice as much as the last is anything between the two until it is weighed again, and that is said', () => {
    const { weights, issues } = read(
      weighed('before', 22.9, '2026-11-10T08:00:00+01:00'),
      weighed('pounds', 50.5, '2026-11-24T08:00:00+01:00'),
    );
    expect(weights).toEqual([
      ['22.9', '22.9'],
      ['22.9', '50.5'],
    ]);
    expect(issues).toEqual([
      expect.stringMatching(/50\.5 kg is .*more than twice the 22\.9 kg .*Weigh again/),
    ]);
  });

  it('C10: a second weight that agrees settles it; a month later, or by less than twice, nothing is asked', () => {
    const settled = read(
      weighed('before', 22.9, '2026-11-10T08:00:00+01:00'),
      weighed('jump', 10.4, '2026-11-20T08:00:00+01:00'),
      weighed('again', 10.5, '2026-11-24T08:00:00+01:00'),
    );
    expect(settled.weights).toEqual([
      ['22.9', '22.9'],
      ['10.4', '22.9'],
      ['10.5', '10.5'],
    ]);
    const month = read(
      weighed('before', 22.9, '2026-10-25T08:00:00+01:00'),
      weighed('later', 50.5, '2026-11-25T08:00:00+01:00'),
    );
    expect(month.weights[1]).toEqual(['50.5', '50.5']);
    const grown = read(
      weighed('before', 22.9, '2026-11-10T08:00:00+01:00'),
      weighed('more', 45.8, '2026-11-24T08:00:00+01:00'),
    );
    expect([grown.weights[1], grown.issues.filter((text) => /twice/.test(text))]).toEqual([
      ['45.8', '45.8'],
      [],
    ]);
  });

  it('C10: no dose is worked out from a weight that jumped', () => {
    const doseBy = (...weights: readonly object[]) => {
      const line = [
        ...lineOf({ birthDate: '2019-05-05', primingMl: { red: 0.8 } }),
        ...weights,
        finding('none', 'blood-return', at('08:00:00'), 'none', 'red'),
        event('looked', 'blockage-response', at('08:20:00'), 'red'),
      ] as Resources;
      const care = dueCare(recordOf(line), policy, { asOf: at('08:25:00'), zone });
      return itemOf(care, 'occlusion-treatment', 'red')?.work.find(
        ({ kind }) => kind === 'thrombolytic-dose',
      );
    };
    const pounds = weighed('pounds', 50.5, '2026-11-24T08:00:00+01:00');
    expect(doseBy(pounds)?.value).toBe('2');
    expect(doseBy(weighed('before', 22.9, '2026-11-10T08:00:00+01:00'), pounds)).toBeUndefined();
  });
});
