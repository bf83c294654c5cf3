// How the adapter behaves to a server that is busy, refuses, hangs, has another clock or is another server altogether,
// and what it says of itself meanwhile.
import { createApp, FhirServer, main, type Poller } from '@dwellward/adapter';
import { listen, loadBundle, startDemoServer } from '@dwellward/demo-server';
import { pino } from 'pino';
import type { CapabilityStatement, Task } from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  adapterOver as anyAdapterOver,
  clockwork,
  demoInstant,
  demoUpdateInstant,
  hurried,
  search,
  send,
  unitOf,
  updateOf,
  wrote,
} from '../interop/support.js';
import { answer, startFaultyProxy, type Fault } from './proxy.js';

/** The faults here name single reads; `batches.test.ts` has those of a batch. */
const adapterOver: typeof anyAdapterOver = (baseUrl, more) =>
  anyAdapterOver(baseUrl, { batches: false, ...more });

const some = ['hemlock-heron', 'buckthorn-bittern', 'tamarisk-turnstone'];
let demo: Awaited<ReturnType<typeof startDemoServer>>;
let proxy: Awaited<ReturnType<typeof startFaultyProxy>>;
const closing: (() => Promise<void>)[] = [];
beforeEach(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(...some));
  proxy = await startFaultyProxy(demo.baseUrl);
});
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
  await proxy.close();
  await demo.close();
});

const calm: Fault = (passing) => passing.forward();
const isTransaction = ({ method, url }: { method: string; url: string }) =>
  method === 'POST' && /^\/fhir\/?$/.test(url);
const tasks = () => search<Task>(demo.baseUrl, 'Task?_count=1000');
const ask = async (adapter: Poller) => {
  const running = await listen(createApp(adapter, 600_000), 0);
  closing.push(running.close);
  return async (path: string) => {
    const response = await fetch(new URL(path, running.baseUrl));
    const body = (await response.json()) as { ready?: boolean; because: string[]; warnings: string[] };
    return { code: response.status, ...body };
  };
};
/** The command for one round over the proxy, with what it says. */
const once = async (more: Record<string, string> = {}) => {
  const said: string[] = [];
  const code = await main(['--once'], {
    environment: {
      DWELLWARD_FHIR_URL: proxy.baseUrl,
      DWELLWARD_ZONE: 'Europe/Berlin',
      DWELLWARD_LOG_LEVEL: 'silent',
      ...more,
    },
    print: () => undefined,
    printError: (text) => void said.push(text),
    interrupted: Promise.resolve(),
  });
  return { code, said: said.join('\n') };
};

describe('a server that asks to be left alone', () => {
  it.each([
    ['in seconds', () => '120'],
    ['by a date', () => new Date(Date.now() + 120_000).toUTCString()],
  ])('A16: no request goes out until the time is over, given %s', async (_, retryAfter) => {
    const machine = clockwork();
    const adapter = await adapterOver(proxy.baseUrl, { machine });
    await adapter.checkServer();
    proxy.setFault(async () => answer(429, '', { 'retry-after': retryAfter() }));
    const before = proxy.seen.length;
    await expect(adapter.round()).rejects.toMatchObject({ code: 'throttled' });
    await expect(adapter.round()).rejects.toMatchObject({ code: 'throttled' });
    expect(proxy.seen.length - before).toBe(1);
    expect(adapter.failing).toEqual([]);
    expect((await (await ask(adapter))('/readyz')).because.join()).toMatch(
      /left alone for another 1[12]\d s/,
    );

    proxy.setFault(calm);
    machine.pass(121_000);
    expect((await adapter.round()).failed).toBe(0);
    expect((await tasks()).length).toBeGreaterThan(10);
  });

  it('A16: one patient’s refusal stops the requests for all patients of the round', async () => {
    const machine = clockwork();
    const adapter = await adapterOver(proxy.baseUrl, { machine, patientsAtOnce: 1 });
    await adapter.checkServer();
    let refused = 0;
    proxy.setFault(async (passing) => {
      if (!passing.url.includes('patient=')) return passing.forward();
      refused += 1;
      return answer(503, '', { 'retry-after': '300' });
    });
    await expect(adapter.round()).rejects.toMatchObject({ code: 'throttled' });
    // The searches of the first patient were on their way; none of the others was looked at.
    expect(new Set(proxy.seen.map(({ url }) => /patient=[^&]*/.exec(url)?.[0]).filter(Boolean)).size).toBe(1);
    expect(refused).toBeLessThan(15);
    proxy.setFault(calm);
    machine.pass(301_000);
    expect(await adapter.round()).toMatchObject({ failed: 0, patients: 3 });
  });
});

describe('a patient who fails', () => {
  const isHerons = ({ url }: { url: string }) =>
    url.includes('/Procedure?patient') && url.includes('hemlock-heron');

  it('A16: is tried again with growing waits, at most a quarter of an hour apart', async () => {
    const machine = clockwork();
    const adapter = await adapterOver(proxy.baseUrl, { machine, fullEvery: 10 });
    proxy.setFault((passing) => (isHerons(passing) ? Promise.resolve(answer(400)) : passing.forward()));
    for (let round = 0; round < 60; round++) {
      await adapter.round();
      machine.pass(30_000);
    }
    const tries = proxy.seen.filter(isHerons).length;
    // Half an hour: at 0, 30, 60, 120, 240, 480 and 960 s, to the round that comes next.
    expect(tries).toBeGreaterThanOrEqual(6);
    expect(tries).toBeLessThanOrEqual(8);
  });

  it('T8: is retried though nothing of the patient changes any more, and is in step then', async () => {
    const machine = clockwork();
    const adapter = await adapterOver(proxy.baseUrl, { machine, fullEvery: 1000, overlapMs: 0 });
    await adapter.round();
    machine.pass(3600_000);
    // A round that finds nothing new: from here on only the failure itself can bring the patient back.
    expect(await adapter.round()).toMatchObject({ full: false });
    expect(await adapter.round()).toMatchObject({ patients: 0 });
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), updateOf('hemlock-heron'));
    proxy.setFault((passing) => (isHerons(passing) ? Promise.resolve(answer(400)) : passing.forward()));
    const failed = await adapter.round();
    expect(failed).toMatchObject({ failed: 1 });
    machine.pass(3600_000);
    proxy.setFault(calm);
    const before = proxy.seen.filter(isHerons).length;
    // On a busy machine the server may show another change of that second to this look, too.
    expect(await adapter.round()).toMatchObject({ failed: 0 });
    expect(proxy.seen.filter(isHerons).length).toBeGreaterThan(before);
    expect(adapter.failing).toEqual([]);
  });
});

describe('a server that takes no transactions', () => {
  const statement = (interaction: { code: 'batch' }[]): CapabilityStatement => ({
    resourceType: 'CapabilityStatement',
    status: 'active',
    date: '2026-01-01',
    kind: 'instance',
    fhirVersion: '4.0.1',
    format: ['json'],
    rest: [{ mode: 'server', interaction }],
  });

  it.each([
    [405, undefined],
    [501, undefined],
    [400, statement([{ code: 'batch' }])],
  ])('A16: %i is asked once, and from then on gets its writes one by one', async (status, metadata) => {
    proxy.setFault((passing) => {
      if (metadata && passing.url.endsWith('/metadata')) return Promise.resolve(answer(200, metadata));
      return isTransaction(passing) ? Promise.resolve(answer(status)) : passing.forward();
    });
    const adapter = await adapterOver(proxy.baseUrl, { patientsAtOnce: 1 });
    expect(await adapter.round()).toMatchObject({ failed: 0 });
    expect(proxy.seen.filter(isTransaction)).toHaveLength(1);
    expect(wrote(await adapter.round())).toBe(0);
    expect((await (await ask(adapter))('/readyz')).warnings.join()).toContain('takes no transactions');

    const calmServer = await startDemoServer();
    closing.push(calmServer.close);
    await loadBundle(new FhirServer({ baseUrl: calmServer.baseUrl }), unitOf(...some));
    await (await adapterOver(calmServer.baseUrl)).round();
    const names = (all: Task[]) => all.map(({ identifier }) => identifier![0]!.value!).sort();
    expect(names(await tasks())).toEqual(names(await search<Task>(calmServer.baseUrl, 'Task?_count=1000')));
    // Every Provenance points to the Task that was made, not to a name within a transaction.
    const provenances = await search<{ resourceType: 'Provenance'; target: { reference: string }[] }>(
      demo.baseUrl,
      'Provenance?_count=1000',
    );
    const ids = new Set((await tasks()).map(({ id }) => `Task/${id}`));
    expect(provenances.length).toBeGreaterThan(10);
    expect(provenances.filter(({ target }) => !ids.has(target[0]!.reference))).toEqual([]);
  });
});

describe('what it says of itself', () => {
  it('A6: not ready while every write is refused, and alive all the same', async () => {
    proxy.setFault((passing) =>
      passing.method === 'GET' ? passing.forward() : Promise.resolve(answer(403)),
    );
    const adapter = await adapterOver(proxy.baseUrl);
    const get = await ask(adapter);
    await adapter.round();
    const { code, because } = await get('/readyz');
    expect(code).toBe(503);
    expect(because.join()).toMatch(/3 of 3 patients could not be brought in step.*refused every write/);
    expect((await get('/healthz')).code).toBe(200);
    proxy.setFault(calm);
    await adapter.round();
    expect(await get('/readyz')).toMatchObject({ code: 200, ready: true, because: [] });
  });

  it('A6: not ready while reads hang: every call has its time limit', async () => {
    let hang = false;
    const machine = {
      ...hurried,
      timeLimit: () => (hang ? AbortSignal.timeout(20) : new AbortController().signal),
    };
    const adapter = await adapterOver(proxy.baseUrl, { machine });
    const get = await ask(adapter);
    await adapter.round();
    expect((await get('/readyz')).code).toBe(200);
    hang = true;
    proxy.setFault(async (passing) => (passing.url.includes('patient=') ? 'silence' : passing.forward()));
    await adapter.round();
    expect(adapter.status.callsTimedOut).toBeGreaterThan(0);
    expect((await get('/readyz')).because.join()).toContain('3 of 3 patients could not be brought in step');
    expect(adapter.failing[0]).toMatchObject({ code: 'timed-out' });
  });

  it('A6: not ready once the last completed round is too old', async () => {
    const machine = clockwork();
    const adapter = await adapterOver(proxy.baseUrl, { machine });
    const get = await ask(adapter);
    await adapter.round();
    expect((await get('/readyz')).code).toBe(200);
    machine.pass(601_000);
    expect((await get('/readyz')).because).toEqual([
      expect.stringMatching(/^The last completed round is 60\d s old; 600 s are allowed\.$/),
    ]);
  });
});

describe('another clock', () => {
  const ahead =
    (milliseconds: number): Fault =>
    async (passing) => {
      const got = await passing.forward();
      return { ...got, headers: { ...got.headers, date: new Date(Date.now() + milliseconds).toUTCString() } };
    };

  it('A8: more than ten minutes apart are refused at the start', async () => {
    proxy.setFault(ahead(20 * 60_000));
    const { code, said } = await once();
    expect(code).toBe(2);
    expect(said).toMatch(/clock is 1\d\d\d s ahead of this machine’s.*More than 10 minutes are refused/);
    expect(await tasks()).toEqual([]);
  });

  it('A8: more than a minute apart are said', async () => {
    proxy.setFault(ahead(-3 * 60_000));
    const lines: string[] = [];
    const log = pino({ level: 'warn' }, { write: (text: string) => void lines.push(text) });
    const adapter = await adapterOver(proxy.baseUrl, { log });
    expect((await adapter.round()).failed).toBe(0);
    expect(lines.join()).toMatch(/clock is 1\d\d s behind this machine’s/);
    expect((await (await ask(adapter))('/readyz')).warnings.join()).toMatch(/behind this machine’s/);
  });

  it('A8: Tasks written by a clock that was ahead can be closed', async () => {
    /** Some servers hold Tasks to the invariant that they were not changed before they were written. */
    const strict: Fault = (passing) => {
      const { entry = [] } = isTransaction(passing)
        ? (JSON.parse(passing.body) as { entry?: { resource?: Task }[] })
        : {};
      const wrong = entry.some(
        ({ resource }) =>
          resource?.resourceType === 'Task' &&
          Date.parse(resource.lastModified ?? '') < Date.parse(resource.authoredOn ?? ''),
      );
      return wrong ? Promise.resolve(answer(400)) : passing.forward();
    };
    await (await adapterOver(demo.baseUrl, { asOf: demoUpdateInstant })).round();
    const [device] = (
      await search<{ resourceType: 'Device'; id: string; status?: string; parent?: unknown }>(
        demo.baseUrl,
        'Device?patient=Patient/hemlock-heron',
      )
    ).filter(({ parent }) => parent === undefined);
    await send(demo.baseUrl, 'PUT', `Device/${device!.id}`, { ...device, status: 'entered-in-error' });
    proxy.setFault(strict);
    const adapter = await adapterOver(proxy.baseUrl, { asOf: demoInstant });
    expect((await adapter.round()).failed).toBe(0);
    const herons = await search<Task>(demo.baseUrl, 'Task?patient=Patient/hemlock-heron&_count=500');
    expect(herons.filter(({ status }) => status === 'requested')).toEqual([]);
    expect(herons.filter(({ status }) => status === 'cancelled').length).toBeGreaterThan(3);
  });
});

describe('another server', () => {
  const speaking =
    (fhirVersion: string): Fault =>
    async (passing) => {
      const got = await passing.forward();
      if (!passing.url.endsWith('/metadata')) return got;
      return { ...got, body: JSON.stringify({ ...JSON.parse(got.body), fhirVersion }) };
    };

  it('I7: one that speaks R5 is refused in plain words', async () => {
    proxy.setFault(speaking('5.0.0'));
    const { code, said } = await once();
    expect(code).toBe(2);
    expect(said).toMatch(/speaks FHIR 5\.0\.0\. This adapter speaks FHIR R4 \(4\.0\.x\)/);
    expect(await tasks()).toEqual([]);
    expect(proxy.seen).toHaveLength(1);
  });

  it('I7: one that speaks R4B is read, and it is said', async () => {
    proxy.setFault(speaking('4.3.0'));
    const adapter = await adapterOver(proxy.baseUrl);
    expect((await adapter.round()).failed).toBe(0);
    expect((await (await ask(adapter))('/readyz')).warnings.join()).toContain('R4B (4.3.0)');
  });

  it('I7: one with nobody who has a line is a warning, in the status and by the exit code of a single run', async () => {
    demo.repository.clear();
    expect(await once()).toEqual({ code: 3, said: '' });
    const lines: string[] = [];
    const log = pino({ level: 'warn' }, { write: (text: string) => void lines.push(text) });
    const adapter = await adapterOver(proxy.baseUrl, { log });
    await adapter.round();
    expect(lines.join()).toContain('No patient with a line was found');
    expect(await (await ask(adapter))('/readyz')).toMatchObject({
      code: 200,
      warnings: [expect.stringContaining('Nobody with a line was found')],
    });
  });
});
