import { expect, it } from 'vitest';
import { line, patient, readLine, type Resource } from '../record.kit.js';

const order = (status: string): Resource => ({
  resourceType: 'ServiceRequest',
  id: 'o',
  status,
  intent: 'order',
  code: { coding: [{ code: 'flush' }] },
  subject: { reference: 'Patient/p' },
  occurrenceTiming: { repeat: { frequency: 1, period: 6, periodUnit: 'h' } },
});

it.each(['draft', 'revoked', 'on-hold', 'completed', 'entered-in-error'])(
  'T8: an order with the status %s is nobody’s order: counted, it would ask for what the clinician never signed',
  (status) => {
    expect(readLine(patient(), line(), order('active')).orders).toHaveLength(1);
    expect(readLine(patient(), line(), order(status)).orders).toEqual([]);
  },
);

it('T8: blood on a specimen that was entered in error was not drawn: counted, a child’s needed sample is held back', () => {
  const specimen = (status: string): Resource => ({
    resourceType: 'Specimen',
    id: 's',
    status,
    type: { coding: [{ system: 'http://snomed.info/sct', code: '119297000' }] },
    subject: { reference: 'Patient/p' },
    collection: { collectedDateTime: '2026-11-24T08:00:00+01:00', quantity: { value: 5, unit: 'mL' } },
  });
  expect(readLine(patient(), line(), specimen('available')).patient.drawn).toHaveLength(1);
  expect(readLine(patient(), line(), specimen('entered-in-error')).patient.drawn).toEqual([]);
});
