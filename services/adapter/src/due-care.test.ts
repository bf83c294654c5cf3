import { demoInstant, demoPolicyLayers, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan, readPolicy, type Policy } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import type { DetectedIssue, Resource } from 'fhir/r4.js';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Care, Slice } from './care.js';
import { dueCareBy } from './due-care.js';
import { loadPolicy } from './policy.js';

let care: Care;
beforeAll(async () => {
  care = dueCareBy(await loadPolicy([...demoPolicyLayers]), demoZone);
});

/** What the server holds of a patient before the adapter has written anything. */
const sliceOf = (id: string): Slice => ({
  patient: `Patient/${id}`,
  record: demoUnit().entry!.flatMap(({ resource, fullUrl }) => {
    const { subject, patient } = resource as {
      subject?: { reference?: string };
      patient?: { reference?: string };
    };
    const about = subject?.reference ?? patient?.reference ?? (resource as Resource).id;
    return about?.endsWith(id) ? [{ resource: resource as Resource, fullUrl: fullUrl! }] : [];
  }),
  existing: [],
});

it('looks again when the next item opens or the next hold ends, and once more just after', () => {
  // The infusion ordered for eight is late from then on; the hold on it after the repair has no end on record.
  const repaired = sliceOf('hornbeam-curlew');
  const after = (slice: Slice, asOf: string) =>
    new Date(care.difference(slice, asOf).nextChangeMs!).toISOString();
  expect(after(repaired, demoInstant)).toBe('2026-11-25T07:00:00.000Z');
  // At eight it is due still, and overdue a second later.
  expect(after(repaired, '2026-11-25T08:00:00+01:00')).toBe('2026-11-25T07:00:01.000Z');
  // Removed the day before yesterday at 15:30: its dressing stayed on until 15:30 of yesterday.
  const removed = sliceOf('dogwood-dipper');
  expect(after(removed, '2026-11-24T15:29:00+01:00')).toBe('2026-11-24T14:30:00.000Z');
});

it('writes the same whatever the order in which the server gave the resources', () => {
  const slice = sliceOf('buckthorn-bittern');
  const turned = { ...slice, record: [...slice.record].reverse() };
  expect(JSON.stringify(care.difference(turned, demoInstant))).toBe(
    JSON.stringify(care.difference(slice, demoInstant)),
  );
});

it('says of every issue which patient it is about, so that it is found again', () => {
  const slice = sliceOf('cypress-corncrake');
  const broken = { resource: { resourceType: 'Observation', id: 'x', status: 7 } as unknown as Resource };
  const { bundle } = care.difference({ ...slice, record: [...slice.record, broken] }, demoInstant);
  const issues = bundle!.entry!.flatMap(({ resource }) =>
    resource!.resourceType === 'DetectedIssue' ? [resource as DetectedIssue] : [],
  );
  expect(issues.length).toBeGreaterThan(1);
  expect(issues.map(({ patient }) => patient)).toEqual(
    issues.map(() => ({ reference: 'Patient/cypress-corncrake' })),
  );
});

it('looks again when a version of the policy comes into force', async () => {
  const next = { ...bundledPlan('neutropenia'), version: '2', effectivePeriod: { start: '2026-12-01' } };
  const reading = readPolicy([bundledPlan('base'), next]);
  expect(reading.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  const { nextChangeMs } = dueCareBy((reading as { policy: Policy }).policy, demoZone).difference(
    { patient: 'Patient/nobody', record: [], existing: [] },
    demoInstant,
  );
  // Midnight in Berlin.
  expect(new Date(nextChangeMs!).toISOString()).toBe('2026-11-30T23:00:00.000Z');
});

it('looks again when an infusion ends whose end is on record', async () => {
  const reading = readPolicy([bundledPlan('base')]);
  const device = { reference: 'Device/line' };
  const record = [
    {
      resourceType: 'Device',
      id: 'line',
      status: 'active',
      type: { coding: [{ system: codeSystem.lineType, code: 'picc' }] },
      patient: { reference: 'Patient/nobody' },
    },
    {
      resourceType: 'MedicationAdministration',
      id: 'drip',
      status: 'completed',
      subject: { reference: 'Patient/nobody' },
      device: [device],
      effectivePeriod: { start: '2026-11-25T06:30:00+01:00', end: '2026-11-25T07:40:00+01:00' },
    },
  ].map((resource) => ({ resource: resource as unknown as Resource, fullUrl: `urn:x:${resource.id}` }));
  const { nextChangeMs } = dueCareBy((reading as { policy: Policy }).policy, demoZone).difference(
    { patient: 'Patient/nobody', record, existing: [] },
    demoInstant,
  );
  expect(new Date(nextChangeMs!).toISOString()).toBe('2026-11-25T06:40:00.000Z');
});

describe('looks again when', () => {
  const reading = readPolicy([bundledPlan('base')]);
  const subject = { reference: 'Patient/nobody' };
  const line = {
    resourceType: 'Device',
    id: 'line',
    status: 'active',
    type: { coding: [{ system: codeSystem.lineType, code: 'picc' }] },
    patient: subject,
  };
  const focalDevice = [{ manipulated: { reference: 'Device/line' } }];
  // Nothing of it opens or falls due between half past seven and noon.
  const inserted = {
    resourceType: 'Procedure',
    id: 'inserted',
    status: 'completed',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: 'insertion' }] },
    subject,
    focalDevice,
    performedDateTime: '2026-11-24T12:00:00+01:00',
  };
  const next = (more: object, by = reading) => {
    const record = [line, inserted, { id: 'more', subject, ...more }].map((resource) => ({
      resource: resource as unknown as Resource,
      fullUrl: `urn:x:${resource.id}`,
    }));
    const slice = { patient: 'Patient/nobody', record, existing: [] };
    const { nextChangeMs } = dueCareBy((by as { policy: Policy }).policy, demoZone).difference(
      slice,
      demoInstant,
    );
    return nextChangeMs === undefined ? undefined : new Date(nextChangeMs).toISOString();
  };
  const code = { coding: [{ system: codeSystem.lineCareActivity, code: 'flush' }] };

  it('care that was charted ahead begins to count', () => {
    expect(
      next({
        resourceType: 'Procedure',
        status: 'completed',
        code,
        focalDevice,
        performedDateTime: '2026-11-25T07:35:00+01:00',
      }),
    ).toBe('2026-11-25T06:35:00.000Z');
  });

  it('an order begins', () => {
    expect(
      next({
        resourceType: 'ServiceRequest',
        status: 'active',
        intent: 'order',
        code,
        occurrenceTiming: {
          repeat: {
            frequency: 1,
            period: 2,
            periodUnit: 'd',
            boundsPeriod: { start: '2026-11-25T07:36:00+01:00' },
          },
        },
      }),
    ).toBe('2026-11-25T06:36:00.000Z');
  });

  it('a result goes stale, seven days after its collection, where a rule of the policy asks for it', () => {
    const count = {
      resourceType: 'Observation',
      status: 'final',
      code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
      effectiveDateTime: '2026-11-18T07:37:00+01:00',
      valueQuantity: { value: 2, unit: '10*9/L' },
    };
    const low = readPolicy([bundledPlan('base'), bundledPlan('neutropenia')]);
    expect(next(count, low)).toBe('2026-11-25T06:37:00.000Z');
    // The base asks for no count: what comes next is care that falls due at noon.
    expect(next(count)).toBe('2026-11-25T11:00:00.000Z');
  });
});
