import type { Resource } from 'fhir/r4.js';
import { expect, it } from 'vitest';
import { idIn, patientIdOf } from './references.js';

const base = 'http://fhir.test/r4';

it.each([
  ['Patient/p1', 'p1'],
  ['Patient/p1/_history/3', 'p1'],
  [`${base}/Patient/p1`, 'p1'],
  [`${base}/Patient/p1/_history/3`, 'p1'],
  ['http://other.test/r4/Patient/p1', undefined],
  ['http://fhir.test/r4x/Patient/p1', undefined],
  ['Group/p1', undefined],
  ['urn:uuid:00000000-0000-4000-8000-000000000000', undefined],
  ['#p1', undefined],
  ['Patient/', undefined],
  ['Patient/a b', undefined],
  [undefined, undefined],
  [7, undefined],
])('%s names %s', (reference, id) => {
  expect(idIn(reference, 'Patient', base)).toBe(id);
});

it.each([
  [{ resourceType: 'Patient', id: 'p1' }, 'p1'],
  [{ resourceType: 'Procedure', subject: { reference: 'Patient/p1' } }, 'p1'],
  [{ resourceType: 'Device', patient: { reference: 'Patient/p1' } }, 'p1'],
  [{ resourceType: 'Task', for: { reference: 'Patient/p1' } }, 'p1'],
  [{ resourceType: 'Observation', subject: { reference: 'Location/l1' } }, undefined],
  [{ resourceType: 'Observation', subject: null }, undefined],
])('%j is about %s', (resource, id) => {
  expect(patientIdOf(resource as unknown as Resource, base)).toBe(id);
});
