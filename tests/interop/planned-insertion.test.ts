// A planned insertion against the router of @medplum/fhir-router, raw and within the demo server: its preparation as
// Tasks, done, closed when the line is in, and opened again when the insertion was entered in error.
import { startDemoServer, startRawServer } from '@dwellward/demo-server';
import { dueCareBy, FhirServer, loadPolicy, Poller } from '@dwellward/adapter';
import { pino } from 'pino';
import type { Task } from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { base, demoZone, hurried, search, send, wrote } from './support.js';

const code = (value: string) => ({
  coding: [{ system: `${base}/CodeSystem/line-care-activity`, code: value }],
});
const subject = { reference: 'Patient/yarrow' };
const request = {
  resourceType: 'ServiceRequest',
  id: 'yarrow-plan',
  status: 'active',
  intent: 'order',
  code: code('insertion'),
  subject,
  authoredOn: '2026-11-20T10:00:00+01:00',
  occurrenceDateTime: '2026-11-26T09:00:00+01:00',
};
const teaching = {
  resourceType: 'Procedure',
  id: 'yarrow-teaching',
  status: 'completed',
  code: code('teaching'),
  subject,
  basedOn: [{ reference: 'ServiceRequest/yarrow-plan' }],
  performedDateTime: '2026-11-24T14:00:00+01:00',
};
const line = {
  resourceType: 'Device',
  id: 'yarrow-line',
  status: 'active',
  type: { coding: [{ system: `${base}/CodeSystem/line-type`, code: 'tunneled-cvc' }] },
  patient: subject,
};
const insertion = {
  ...teaching,
  id: 'yarrow-insertion',
  code: code('insertion'),
  focalDevice: [{ manipulated: { reference: 'Device/yarrow-line' } }],
  performedDateTime: '2026-11-26T09:40:00+01:00',
};

describe.each([
  ['the raw router', startRawServer],
  ['the demo server', startDemoServer],
] as const)('against %s', (_, start) => {
  let running: Awaited<ReturnType<typeof startRawServer>>;
  beforeEach(async () => {
    running = await start();
    await put({ resourceType: 'Patient', id: 'yarrow' });
    await put(request);
  });
  afterEach(() => running.close());

  const put = async (resource: { resourceType: string; id: string; [element: string]: unknown }) =>
    expect(
      await send(running.baseUrl, 'PUT', `${resource.resourceType}/${resource.id}`, resource),
    ).toBeLessThan(300);
  const roundAt = async (asOf: string) => {
    const policy = await loadPolicy(['base', 'preparation']);
    const poller = new Poller({
      server: new FhirServer({ baseUrl: running.baseUrl, machine: hurried }),
      care: dueCareBy(policy, demoZone),
      machine: hurried,
      log: pino({ level: 'silent' }),
      asOf: () => asOf,
      fullEvery: 1,
      overlapMs: 60_000,
      patientsAtOnce: 1,
      maxEntries: 500,
    });
    const round = await poller.round();
    expect(round.failed).toBe(0);
    return wrote(round);
  };
  const tasks = () =>
    search<Task>(running.baseUrl, 'Task?patient=Patient/yarrow&focus=ServiceRequest/yarrow-plan');
  const states = async () =>
    (await tasks())
      .map(
        ({ code: of, status, statusReason }) =>
          `${of!.coding![0]!.code} ${status}${statusReason ? ` ${statusReason.coding![0]!.code}` : ''}`,
      )
      .sort();

  it('is prepared, done, and closed with its reason', async () => {
    await roundAt('2026-11-23T08:00:00+01:00');
    expect(await states()).toEqual([
      'bath requested',
      'insertion-preparation requested',
      'laboratory-review requested',
      'skin-preparation requested',
      'teaching requested',
    ]);
    const bath = (await tasks()).find(({ code: of }) => of!.coding![0]!.code === 'bath');
    expect(bath).toMatchObject({
      focus: { reference: 'ServiceRequest/yarrow-plan' },
      restriction: { period: { end: '2026-11-25T20:00:00+01:00' } },
    });
    expect(await roundAt('2026-11-23T08:00:00+01:00')).toBe(0);

    await put(teaching);
    await roundAt('2026-11-24T15:00:00+01:00');
    expect(await states()).toContain('teaching completed');

    await put(line);
    await put(insertion);
    await roundAt('2026-11-26T10:00:00+01:00');
    expect(await states()).toEqual([
      'bath cancelled line-inserted',
      'insertion-preparation cancelled line-inserted',
      'laboratory-review cancelled line-inserted',
      'skin-preparation cancelled line-inserted',
      'teaching completed',
    ]);

    await put({ ...insertion, status: 'entered-in-error' });
    await roundAt('2026-11-26T10:05:00+01:00');
    expect(await states()).toContain('skin-preparation requested');
  });

  it('is closed when the request is revoked', async () => {
    await roundAt('2026-11-23T08:00:00+01:00');
    await put({ ...request, status: 'revoked' });
    await roundAt('2026-11-23T09:00:00+01:00');
    expect(new Set((await states()).map((text) => text.replace(/^\S+ /, '')))).toEqual(
      new Set(['cancelled plan-withdrawn']),
    );
  });
});
