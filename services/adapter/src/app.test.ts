import { pino } from 'pino';
import { afterEach, expect, it } from 'vitest';
import { createApp } from './app.js';
import { listen, type RunningServer } from '@dwellward/demo-server';
import { FhirServer } from './fhir-server/index.js';
import { Poller } from './poll.js';
import { newCounters, type Status } from './status.js';
import { countingCare } from './testing/care.js';
import { testMachine } from './testing/machine.js';

let running: RunningServer;
afterEach(() => running.close());
const get = async (path: string) => {
  const response = await fetch(new URL(path, running.baseUrl));
  return { status: response.status, body: (await response.json()) as Record<string, unknown> };
};
const limitMs = 600_000;

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
  running = await listen(createApp(poller, limitMs), 0);
  expect(await get('/healthz')).toMatchObject({ status: 200, body: { up: true } });
  expect(await get('/readyz')).toMatchObject({ status: 503, body: { ready: false, lastRound: null } });
  await poller.round().catch(() => undefined);
  expect(await get('/readyz')).toMatchObject({
    status: 503,
    body: { ready: false, counters: { roundsFailed: 1 }, lastRound: { code: 'unreachable' } },
  });
  expect((await get('/other')).status).toBe(404);
});

const good: Status = {
  nowMs: 1_000_000,
  lastRound: { at: '1970-01-01T00:16:00.000Z', ok: true, failed: 0, writes: { done: 0, refused: 0 } },
  completedMs: 960_000,
  patients: 99,
  openTasks: 400,
  failing: [],
  held: [],
  gaps: [],
  fit: { fhirVersion: '4.0.1', enforcesReferences: false, warnings: [] },
  clockSkewMs: 0,
  closedForMs: 0,
  writesOneByOne: false,
  callsTimedOut: 0,
  counters: newCounters(),
};
const failing = (count: number) =>
  Array.from({ length: count }, (_, n) => ({
    patient: `Patient/${n}`,
    since: '2026-11-25T07:30:00.000Z',
    code: 'refused',
    message: 'refused',
    times: 1,
  }));
const readyz = async (status: Partial<Status>) => {
  running = await listen(createApp({ status: { ...good, ...status } }, limitMs), 0);
  return get('/readyz');
};

it('lists failing patients by reference at /readyz, the first 50 of them, and stays ready for the others', async () => {
  const { status, body } = await readyz({ failing: failing(60), patients: 999 });
  expect([status, body.failing, body.patients]).toEqual([200, 60, 999]);
  expect(body.failingPatients).toHaveLength(50);
  expect((body.failingPatients as unknown[])[0]).toMatchObject({ patient: 'Patient/0', code: 'refused' });
});

it.each<[string, Partial<Status>, RegExp, string]>([
  [
    'more than a tenth of the patients fail',
    { failing: failing(10) },
    /10 of 99 patients could not/,
    'many-failing',
  ],
  [
    'the last completed round is too old',
    { completedMs: 399_000 },
    /601 s old; 600 s are allowed/,
    'round-too-old',
  ],
  [
    'the server asks to be left alone',
    { closedForMs: 90_000 },
    /left alone for another 90 s/,
    'server-asks-to-wait',
  ],
  [
    'every write was refused, though of few patients',
    { lastRound: { ...good.lastRound!, writes: { done: 0, refused: 2 } } },
    /refused every write of the last round \(2\)/,
    'writes-refused',
  ],
  [
    'the list of lines may not be whole',
    { gaps: ['The search for Device names 9 matches.'] },
    /may not be the whole/,
    'list-incomplete',
  ],
  ['the clocks are far apart', { clockSkewMs: -700_000 }, /clock is 700 s behind/, 'clocks-apart'],
])('A6: /readyz says no and why where %s', async (_, status, why, word) => {
  const { status: code, body } = await readyz(status);
  expect([code, body.ready, body.codes]).toEqual([503, false, [word]]);
  expect((body.because as string[]).join()).toMatch(why);
  expect((await get('/healthz')).status).toBe(200);
});

it('gives the same numbers to a monitor at /metrics', async () => {
  await readyz({ clockSkewMs: 2000, counters: { ...newCounters(), closingsHeld: 12 } });
  const response = await fetch(new URL('/metrics', running.baseUrl));
  expect(response.headers.get('content-type')).toContain('text/plain');
  const text = await response.text();
  for (const line of [
    '# TYPE dwellward_closings_held_total counter',
    'dwellward_closings_held_total 12',
    'dwellward_ready 1',
    'dwellward_last_round_age_seconds 40',
    'dwellward_clock_skew_seconds 2',
  ])
    expect(text.split('\n')).toContain(line);
});
