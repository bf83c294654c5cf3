import { CoreError } from '@dwellward/core';
import { pino } from 'pino';
import type { Device, Task } from 'fhir/r4.js';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { NoToken, type Authorization } from './auth/index.js';
import type { Care, Difference } from './care.js';
import { startDemoServer } from '@dwellward/demo-server';
import { FhirServer, FhirServerError } from './fhir-server/index.js';
import { realMachine } from './machine.js';
import { Poller, type PollerOptions } from './poll.js';
import { countingCare } from './testing/care.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
beforeAll(async () => {
  demo = await startDemoServer();
});
afterAll(() => demo.close());
beforeEach(() => demo.repository.clear());

const put = async (resource: { resourceType: string; id: string }) => {
  const response = await fetch(`${demo.baseUrl}/${resource.resourceType}/${resource.id}`, {
    method: 'PUT',
    headers: { 'content-type': 'application/fhir+json' },
    body: JSON.stringify(resource),
  });
  expect(response.status).toBe(200);
};
const line = (id: string, patient?: string, more: Partial<Device> = {}): Device & { id: string } => ({
  resourceType: 'Device' as const,
  type: { coding: [{ code: 'picc' }] },
  ...(patient === undefined ? {} : { patient: { reference: patient } }),
  ...more,
  id,
});
const procedure = (id: string, patient: string) => ({
  resourceType: 'Procedure',
  id,
  status: 'completed',
  subject: { reference: patient },
});
const ward = async () => {
  for (const id of ['p1', 'p2', 'p3']) {
    await put({ resourceType: 'Patient', id });
    await put(line(`line-${id}`, `Patient/${id}`));
  }
  await put({ resourceType: 'Patient', id: 'lineless' });
};
const logged: Record<string, unknown>[] = [];
const log = pino({ level: 'info' }, { write: (text: string) => void logged.push(JSON.parse(text) as never) });
beforeEach(() => void (logged.length = 0));

const watched = (care: Care = countingCare) => {
  const looks: string[] = [];
  const spy: Care = {
    difference: (slice, asOf) => (looks.push(slice.patient), care.difference(slice, asOf)),
  };
  return { looks, spy };
};
const poller = (care: Care, more: Partial<PollerOptions> = {}) =>
  new Poller({
    server: new FhirServer({ baseUrl: demo.baseUrl, retry: { maxAttempts: 1 } }),
    care,
    machine: { ...realMachine, sleep: async () => undefined },
    log,
    asOf: () => '2026-11-25T07:30:00+01:00',
    fullEvery: 1000,
    overlapMs: 60_000,
    patientsAtOnce: 2,
    maxEntries: 500,
    ...more,
  });
const tasks = async () => {
  const response = await fetch(`${demo.baseUrl}/Task?_count=1000`);
  const { entry } = (await response.json()) as { entry?: { resource: Task }[] };
  return (entry ?? []).map(({ resource }) => resource);
};

const planned = (id: string, patient: string, code: string) => ({
  resourceType: 'ServiceRequest',
  id,
  status: 'active',
  intent: 'order',
  code: { coding: [{ code }] },
  subject: { reference: patient },
});

it('looks at patients who are to have a line, and not at every request', async () => {
  await ward();
  await put(planned('plan', 'Patient/lineless', 'insertion'));
  const { looks, spy } = watched();
  const own = poller(spy);
  await own.round();
  expect(looks.sort()).toEqual(['Patient/lineless', 'Patient/p1', 'Patient/p2', 'Patient/p3']);

  // What was written within the overlap is looked at once more.
  await own.round();
  looks.length = 0;
  await put({ resourceType: 'Patient', id: 'next' });
  await put(planned('other', 'Patient/next', 'chest-x-ray'));
  await own.round();
  expect(looks).toEqual([]);

  await put({
    resourceType: 'Appointment',
    id: 'booked',
    ...{ start: '2026-11-27T09:00:00+01:00', end: '2026-11-27T10:00:00+01:00' },
    ...{ status: 'booked', reasonCode: [{ coding: [{ code: 'insertion' }] }] },
    ...{ participant: [{ actor: { reference: 'Patient/next' }, status: 'accepted' }] },
  });
  await own.round();
  expect(looks).toEqual(['Patient/next']);
});

it('writes the difference for every patient with a line, and nothing the second time', async () => {
  await ward();
  const { looks, spy } = watched();
  const first = await poller(spy).round();
  expect(first).toMatchObject({
    full: true,
    patients: 3,
    failed: 0,
    written: { created: 3, updated: 0, transactions: 3 },
  });
  expect(looks.sort()).toEqual(['Patient/p1', 'Patient/p2', 'Patient/p3']);
  const second = await poller(countingCare).round();
  expect(second).toMatchObject({ patients: 3, written: { created: 0, updated: 0, transactions: 0 } });
  expect(await tasks()).toHaveLength(3);
});

describe('between full rounds', () => {
  it('looks only at patients with something new, and not at its own writes', async () => {
    await ward();
    const { looks, spy } = watched();
    const running = poller(spy);
    await running.round();
    await running.round();
    looks.length = 0;
    expect(await running.round()).toMatchObject({ full: false, patients: 0 });
    await put(procedure('e1', 'Patient/p2'));
    expect(await running.round()).toMatchObject({ patients: 1, written: { updated: 1 } });
    expect(looks).toEqual(['Patient/p2']);
    expect(await running.round()).toMatchObject({ patients: 0, written: { transactions: 0 } });
  });

  it('sees a change that became visible only after a later one was seen', async () => {
    await ward();
    const running = poller(countingCare);
    await running.round();
    await put(procedure('late', 'Patient/p1'));
    await put(procedure('e2', 'Patient/p2'));
    // What a slow transaction does: it is stored after others that carry a later time.
    const rows = (
      demo.repository as unknown as { resources: Map<string, Map<string, unknown>> }
    ).resources.get('Procedure')!;
    const late = rows.get('late');
    rows.delete('late');
    expect(await running.round()).toMatchObject({ written: { updated: 1 } });
    rows.set('late', late);
    expect(await running.round()).toMatchObject({ written: { updated: 1 } });
  });

  it('takes up a patient who gets a first line, and leaves alone one who has none', async () => {
    await ward();
    const running = poller(countingCare);
    await running.round();
    await put(procedure('e3', 'Patient/lineless'));
    expect(await running.round()).toMatchObject({ written: { transactions: 0 } });
    await put(line('first', 'Patient/lineless'));
    expect((await running.round()).written.created).toBe(1);
  });

  it('looks again at a patient whose item changes its state as time passes', async () => {
    await ward();
    let asOf = '2026-11-25T07:30:00Z';
    const { looks, spy } = watched({
      difference: ({ patient }): Difference =>
        patient === 'Patient/p2'
          ? { bundle: undefined, nextChangeMs: Date.parse('2026-11-25T08:00:00Z') }
          : { bundle: undefined },
    });
    const running = poller(spy, { asOf: () => asOf });
    await running.round();
    await running.round();
    looks.length = 0;
    expect((await running.round()).patients).toBe(0);
    asOf = '2026-11-25T08:00:00Z';
    expect((await running.round()).patients).toBe(1);
    expect(looks).toEqual(['Patient/p2']);
  });

  it('works everybody out anew every so many rounds', async () => {
    await ward();
    const running = poller(countingCare, { fullEvery: 3 });
    const full: boolean[] = [];
    for (let round = 0; round < 7; round++) full.push((await running.round()).full);
    expect(full).toEqual([true, false, false, true, false, false, true]);
  });
});

describe('a patient who fails', () => {
  const failing = (patient: string, times = Infinity): Care => ({
    difference(slice, asOf) {
      if (slice.patient === patient && times-- > 0) throw new CoreError('no-zone', 'can’t');
      return countingCare.difference(slice, asOf);
    },
  });

  it('stops nobody else, is reported, and is tried again in the next round', async () => {
    await ward();
    await put({ resourceType: 'Patient', id: 'p2', name: [{ family: 'Secretname' }] } as never);
    const running = poller(failing('Patient/p2', 1));
    expect(await running.round()).toMatchObject({ patients: 3, failed: 1, written: { created: 2 } });
    expect(running.failing).toMatchObject([
      { patient: 'Patient/p2', times: 1, code: 'no-zone', message: 'can’t' },
    ]);
    expect(running.counters.patientsFailed).toBe(1);
    expect(logged.filter(({ level }) => level === 50)).toMatchObject([
      { patient: 'Patient/p2', code: 'no-zone' },
    ]);
    expect(JSON.stringify(logged)).not.toContain('Secretname');
    expect((await running.round()).written.created).toBe(1);
    expect(running.failing).toEqual([]);
  });

  it('keeps the time since when', async () => {
    await ward();
    const running = poller(failing('Patient/p2'));
    await running.round();
    const since = running.failing[0]!.since;
    await running.round();
    expect(running.failing).toMatchObject([{ since, times: 2 }]);
  });
});

describe('one patient ahead of the next round', () => {
  it('is brought in step at once, and it is told where that failed', async () => {
    await ward();
    let fails = false;
    const running = poller({
      difference(slice, asOf) {
        if (fails) throw new CoreError('no-zone', 'can’t');
        return countingCare.difference(slice, asOf);
      },
    });
    await running.round();
    await put(procedure('now', 'Patient/p2'));
    expect(await running.lookAt('p2')).toBe(true);
    expect((await tasks()).map(({ description }) => description)).toContain('1 procedures, 1 devices');
    fails = true;
    expect(await running.lookAt('p2')).toBe(false);
    expect(running.failing).toMatchObject([{ patient: 'Patient/p2', times: 1 }]);
  });

  it('closes nothing that only a round can tell to be right', async () => {
    await ward();
    let closes = false;
    const running = poller({
      difference(slice, asOf) {
        const open = slice.existing.filter(({ resourceType }) => resourceType === 'Task');
        if (!closes || open.length === 0) return countingCare.difference(slice, asOf);
        const entry = open.map((task) => ({
          resource: { ...task, status: 'cancelled' } as Task,
          request: { method: 'PUT' as const, url: `Task/${task.id}` },
        }));
        return { bundle: { resourceType: 'Bundle', type: 'transaction', entry } };
      },
    });
    await running.round();
    closes = true;
    expect(await running.lookAt('p1')).toBe(true);
    expect((await tasks()).filter(({ status }) => status === 'cancelled')).toHaveLength(0);
  });

  it('is looked at also after a round that ended because nobody answered', async () => {
    await ward();
    const server = new FhirServer({ baseUrl: demo.baseUrl, retry: { maxAttempts: 1 } });
    Object.defineProperty(server, 'closedForMs', { get: () => 1000 });
    let throttled = false;
    const running = poller(
      {
        difference(slice, asOf) {
          if (throttled)
            throw new FhirServerError('throttled', { method: 'GET', resourceType: 'Procedure', url: 'any' });
          return countingCare.difference(slice, asOf);
        },
      },
      { server },
    );
    await running.round();
    throttled = true;
    expect(await running.lookAt('p1')).toBe(false);
    throttled = false;
    await put(procedure('later', 'Patient/p1'));
    expect(await running.lookAt('p1')).toBe(true);
    expect((await tasks()).map(({ description }) => description)).toContain('1 procedures, 1 devices');
  });
});

it('reads lumens that name only their line, and tells of lines that name no patient', async () => {
  await ward();
  const parent = { reference: 'Device/line-p1' };
  await put(line('lumen-a', undefined, { type: { coding: [{ code: 'lumen' }] }, parent }));
  await put(line('stray'));
  await poller(countingCare).round();
  expect((await tasks()).find(({ focus }) => focus!.reference === 'Device/line-p1')!.description).toContain(
    '2 devices',
  );
  expect(logged.find(({ level }) => level === 40)).toMatchObject({ devices: ['stray'], count: 1 });
});

it('finishes the patient in hand and takes up no other once it drains', async () => {
  await ward();
  const drain = new AbortController();
  const care: Care = {
    difference(slice, asOf) {
      drain.abort();
      return countingCare.difference(slice, asOf);
    },
  };
  const round = await poller(care, { patientsAtOnce: 1, drain: drain.signal }).round();
  expect(round).toMatchObject({ patients: 1, written: { created: 1 } });
  expect(await tasks()).toHaveLength(1);
});

it('reads page after page', async () => {
  await ward();
  for (let n = 0; n < 5; n++) await put(procedure(`e${n}`, 'Patient/p1'));
  const server = new FhirServer({ baseUrl: demo.baseUrl, pageSize: 2 });
  expect((await poller(countingCare, { server }).round()).patients).toBe(3);
  expect((await tasks()).map(({ description }) => description)).toContain('5 procedures, 1 devices');
});

it('fails the round where the server can’t be asked, and goes on with the next', async () => {
  const server = new FhirServer({ baseUrl: 'http://127.0.0.1:9/fhir', retry: { maxAttempts: 1 } });
  const running = poller(countingCare, { server });
  await expect(running.round()).rejects.toMatchObject({ code: 'unreachable' });
  expect(running.lastRound!.ok).toBe(false);
  expect(running.counters.roundsFailed).toBe(1);
});

it('ends the round where no token can be had: it is no patient who fails', async () => {
  await ward();
  let has = true;
  const authorization: Authorization = {
    token: () => (has ? Promise.resolve('t') : Promise.reject(new NoToken('gone'))),
    another: () => Promise.resolve(undefined),
  };
  const server = new FhirServer({ baseUrl: demo.baseUrl, authorization });
  const care: Care = {
    difference: (slice, asOf) => {
      has = false;
      return countingCare.difference(slice, asOf);
    },
  };
  const one = poller(care, { server, patientsAtOnce: 1 });
  await expect(one.round()).rejects.toMatchObject({ code: 'no-token' });
  expect(one.status).toMatchObject({ failing: [], lastRound: { ok: false, code: 'no-token' } });
});

it('asks nothing of a server for the types that it does not have, in full rounds and between them', async () => {
  await ward();
  const asked = new Set<string>();
  const server = new FhirServer({ baseUrl: demo.baseUrl });
  const searchAll = server.searchAll.bind(server);
  server.searchAll = (type, params) => (asked.add(type), searchAll(type, params));
  const running = poller(countingCare, { server, without: ['DeviceUseStatement'] });
  await running.round();
  await running.round();
  expect(asked).toContain('MedicationAdministration');
  expect(asked).not.toContain('DeviceUseStatement');
});
