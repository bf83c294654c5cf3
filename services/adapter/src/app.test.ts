import { pino } from 'pino';
import { afterEach, expect, it } from 'vitest';
import { createApp } from './app.js';
import { listen, type RunningServer } from './demo-server/index.js';
import { FhirServer } from './fhir-server/index.js';
import { Poller } from './poll.js';
import { countingCare } from './testing/care.js';
import { testMachine } from './testing/machine.js';

let running: RunningServer;
afterEach(() => running.close());
const get = async (path: string) => {
  const response = await fetch(new URL(path, running.baseUrl));
  return { status: response.status, body: (await response.json()) as Record<string, unknown> };
};

it('answers /healthz at once, and /readyz only after a round in which the FHIR server could be asked', async () => {
  const server = new FhirServer({ baseUrl: 'http://127.0.0.1:9/fhir', machine: testMachine() });
  const poller = new Poller({
    server,
    care: countingCare,
    machine: testMachine(),
    log: pino({ level: 'silent' }),
    asOf: () => '2026-11-25T07:30:00Z',
    fullEvery: 1,
    overlapMs: 0,
    patientsAtOnce: 1,
    maxEntries: 500,
  });
  running = await listen(createApp(poller), 0);
  expect(await get('/healthz')).toEqual({ status: 200, body: { up: true } });
  expect(await get('/readyz')).toMatchObject({ status: 503, body: { ready: false, lastRound: null } });
  await poller.round().catch(() => undefined);
  expect(await get('/readyz')).toMatchObject({
    status: 503,
    body: { ready: false, counters: { roundsFailed: 1 } },
  });
  expect((await get('/other')).status).toBe(404);
});

it('lists failing patients by reference at /readyz, the first 50 of them, and stays ready for the others', async () => {
  const failing = Array.from({ length: 60 }, (_, n) => ({
    patient: `Patient/${n}`,
    code: 'refused',
    times: 1,
  }));
  const lastRound = { at: '2026-11-25T07:30:00.000Z', ok: true };
  running = await listen(
    createApp({ failing, lastRound, patients: 99, counters: {} } as unknown as Poller),
    0,
  );
  const { status, body } = await get('/readyz');
  expect([status, body.failing, body.patients]).toEqual([200, 60, 99]);
  expect(body.failingPatients).toHaveLength(50);
  expect((body.failingPatients as unknown[])[0]).toMatchObject({ patient: 'Patient/0', code: 'refused' });
});
