// What a network and a server do to the adapter: it must end with the right Tasks, each once, or say what is wrong.
import { FhirServer } from '@dwellward/adapter';
import { loadBundle, startDemoServer, startRawServer } from '@dwellward/demo-server';
import type { Bundle, Task } from 'fhir/r4.js';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  adapterOver as anyAdapterOver,
  base,
  demoUpdateInstant,
  doubled,
  hurried,
  search,
  unitOf,
  updateOf,
  wrote,
} from '../interop/support.js';
import { answer, startFaultyProxy, type Answer } from './proxy.js';

/** The faults here name single reads; `batches.test.ts` has those of a batch. */
const adapterOver: typeof anyAdapterOver = (baseUrl, more) =>
  anyAdapterOver(baseUrl, { batches: false, ...more });

const dueItem = `${base}/due-item`;
const some = ['hemlock-heron', 'buckthorn-bittern'];
let demo: Awaited<ReturnType<typeof startDemoServer>>;
let proxy: Awaited<ReturnType<typeof startFaultyProxy>>;
/** What the server should hold in the end: the identities of the Tasks of a run that nothing disturbed. */
let expected: string[];

const identities = (tasks: Task[]) =>
  tasks.map(({ identifier }) => identifier!.find(({ system }) => system === dueItem)!.value!).sort();
const onServer = async () => search<Task>(demo.baseUrl, 'Task?_count=1000');
const isTransaction = ({ method }: { method: string }) => method === 'POST';
const changed = (got: Answer, change: (bundle: Bundle) => void): Answer => {
  const bundle = JSON.parse(got.body) as Bundle;
  change(bundle);
  return { ...got, body: JSON.stringify(bundle) };
};

beforeAll(async () => {
  const calm = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: calm.baseUrl }), unitOf(...some));
  await (await adapterOver(calm.baseUrl)).round();
  expected = identities(await search<Task>(calm.baseUrl, 'Task?_count=1000'));
  expect(expected.length).toBeGreaterThan(10);
  await calm.close();
});
beforeEach(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(...some));
  proxy = await startFaultyProxy(demo.baseUrl);
});
afterEach(async () => {
  await proxy.close();
  await demo.close();
});

/** The server holds what it should, and an adapter that nothing disturbs finds nothing to do. */
const inStep = async () => {
  expect(identities(await onServer())).toEqual(expected);
  expect(wrote(await (await adapterOver(demo.baseUrl)).round())).toBe(0);
};

describe('is in step after', () => {
  it('throttling: every second request is sent away once with Retry-After', async () => {
    const waits: number[] = [];
    const machine = { ...hurried, sleep: async (milliseconds: number) => void waits.push(milliseconds) };
    const sentAway = new Set<string>();
    proxy.setFault(async (passing) => {
      const key = passing.method + passing.url + passing.body.length;
      if (passing.nth % 2 === 0 && !sentAway.has(key)) {
        sentAway.add(key);
        return answer(429, '', { 'retry-after': '3' });
      }
      return passing.forward();
    });
    expect((await (await adapterOver(proxy.baseUrl, { machine })).round()).failed).toBe(0);
    expect(waits.length).toBeGreaterThan(5);
    // One gate for all calls: whoever comes to it later waits for what is left.
    expect(Math.max(...waits)).toBe(3000);
    expect(Math.min(...waits)).toBeGreaterThan(0);
    await inStep();
  });

  it.each([502, 503, 504])('reads that fail with %i three times each', async (status) => {
    const tries = new Map<string, number>();
    proxy.setFault(async (passing) => {
      const n = (tries.get(passing.url) ?? 0) + 1;
      tries.set(passing.url, n);
      return isTransaction(passing) || n > 3 ? passing.forward() : answer(status, '<html>bad gateway</html>');
    });
    const adapter = await adapterOver(proxy.baseUrl);
    await adapter.round();
    expect(adapter.failing).toEqual([]);
    await inStep();
  });

  it('a write whose answer is lost: it reads again instead of writing again', async () => {
    proxy.setFault(async (passing) => {
      const got = await passing.forward();
      return isTransaction(passing) && passing.nth === 1 ? 'cut' : got;
    });
    const round = await (await adapterOver(proxy.baseUrl)).round();
    expect(round.failed).toBe(0);
    expect(proxy.seen.filter(isTransaction)).toHaveLength(2);
    await inStep();
  });

  it.each([500, 502, 504])('a write that was done though the answer says %i', async (status) => {
    proxy.setFault(async (passing) => {
      const got = await passing.forward();
      return isTransaction(passing) && passing.nth === 1 ? answer(status) : got;
    });
    expect((await (await adapterOver(proxy.baseUrl)).round()).failed).toBe(0);
    expect(proxy.seen.filter(isTransaction)).toHaveLength(2);
    await inStep();
  });

  it('a write that was not done and got no answer within the time limit', async () => {
    let expire: AbortController | undefined;
    const machine = { ...hurried, timeLimit: () => (expire = new AbortController()).signal };
    proxy.setFault(async (passing) => {
      if (!isTransaction(passing) || passing.nth > 1) return passing.forward();
      expire!.abort();
      return 'silence';
    });
    // One patient at a time, so that the limit that expires is the write’s.
    const adapter = await adapterOver(proxy.baseUrl, { machine, patientsAtOnce: 1 });
    expect((await adapter.round()).failed).toBe(0);
    await inStep();
  });

  it('versions and ETags that get lost on the way', async () => {
    const strip = (bundle: Bundle) => {
      for (const entry of bundle.entry ?? []) {
        delete entry.resource?.meta;
        delete entry.response?.etag;
        delete entry.response?.location;
      }
    };
    proxy.setFault(async (passing) => {
      const got = await passing.forward();
      return got.body.includes('"resourceType":"Bundle"') ? changed(got, strip) : got;
    });
    expect((await (await adapterOver(proxy.baseUrl)).round()).failed).toBe(0);
    await inStep();
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), updateOf());
    expect((await (await adapterOver(proxy.baseUrl, { asOf: demoUpdateInstant })).round()).failed).toBe(0);
    expect(doubled(await onServer(), dueItem)).toEqual([]);
    expect(wrote(await (await adapterOver(demo.baseUrl, { asOf: demoUpdateInstant })).round())).toBe(0);
  });

  it('another writer between read and write: the conflict is read anew', async () => {
    await (await adapterOver(demo.baseUrl)).round();
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), updateOf());
    let met = false;
    proxy.setFault(async (passing) => {
      if (isTransaction(passing) && !met) {
        met = true;
        expect((await (await adapterOver(demo.baseUrl, { asOf: demoUpdateInstant })).round()).failed).toBe(0);
      }
      return passing.forward();
    });
    const adapter = await adapterOver(proxy.baseUrl, { asOf: demoUpdateInstant });
    expect((await adapter.round()).failed).toBe(0);
    expect(adapter.counters.conflicts).toBeGreaterThan(0);
    expect(doubled(await onServer(), dueItem)).toEqual([]);
    expect(wrote(await (await adapterOver(demo.baseUrl, { asOf: demoUpdateInstant })).round())).toBe(0);
  });

  it.each(['before the server has it', 'after the server has done it'])(
    'being killed at the first write, %s',
    async (when) => {
      const kill = new AbortController();
      proxy.setFault(async (passing) => {
        if (!isTransaction(passing)) return passing.forward();
        if (when.startsWith('after')) await passing.forward();
        kill.abort();
        return 'silence';
      });
      const killed = await adapterOver(proxy.baseUrl, { stop: kill.signal, drain: kill.signal });
      await killed.round();
      const half = identities(await onServer());
      expect(half.length).toBeLessThan(expected.length);
      expect(half.length > 0).toBe(when.startsWith('after'));
      expect((await (await adapterOver(demo.baseUrl)).round()).failed).toBe(0);
      await inStep();
    },
  );
});

describe('says what is wrong and loses nobody else where', () => {
  const failingWith = async (adapter: Awaited<ReturnType<typeof adapterOver>>) => {
    const round = await adapter.round();
    expect(round).toMatchObject({ patients: 2, failed: 1 });
    return adapter.failing[0]!;
  };
  const heronsProcedures = (url: string) => url.includes('/Procedure?') && url.includes('hemlock-heron');

  it.each([
    ['another origin', 'http://127.0.0.1:9/fhir/Procedure?page=2', 'foreign-next-link'],
    ['itself', undefined, 'next-link-loop'],
  ])('a next link leads to %s', async (_, link, code) => {
    proxy.setFault(async (passing) => {
      const got = await passing.forward();
      if (!heronsProcedures(passing.url)) return got;
      return changed(got, (bundle) => (bundle.link = [{ relation: 'next', url: link ?? passing.url }]));
    });
    const adapter = await adapterOver(proxy.baseUrl);
    expect(await failingWith(adapter)).toMatchObject({ patient: 'Patient/hemlock-heron', code });
    expect(identities(await onServer()).length).toBeGreaterThan(5);
    proxy.setFault((passing) => passing.forward());
    expect((await adapter.round()).failed).toBe(0);
    expect(adapter.failing).toEqual([]);
    await inStep();
  });

  it('the server ignores the patient parameter and answers with everybody', async () => {
    proxy.setFault(async (passing) => {
      if (!heronsProcedures(passing.url)) return passing.forward();
      const everybody = await fetch(`${demo.baseUrl}/Procedure?_count=500`);
      return answer(200, await everybody.text());
    });
    const adapter = await adapterOver(proxy.baseUrl);
    expect(await failingWith(adapter)).toMatchObject({
      patient: 'Patient/hemlock-heron',
      code: 'foreign-patient',
    });
    const herons = await search<Task>(demo.baseUrl, 'Task?patient=Patient/hemlock-heron');
    expect(herons).toEqual([]);
  });

  it('the server is overloaded for one patient for longer than the tries last', async () => {
    proxy.setFault(async (passing) => (heronsProcedures(passing.url) ? answer(503) : passing.forward()));
    const failing = await failingWith(await adapterOver(proxy.baseUrl));
    expect(failing).toMatchObject({ code: 'throttled' });
    expect(failing.message).toContain('status 503');
  });

  it('the server refuses every write of one patient', async () => {
    proxy.setFault(async (passing) =>
      passing.body.includes('Patient/hemlock-heron')
        ? answer(403, { resourceType: 'OperationOutcome', issue: [] })
        : passing.forward(),
    );
    expect(await failingWith(await adapterOver(proxy.baseUrl))).toMatchObject({ code: 'refused' });
  });

  it('the server can’t be reached at all: the round fails, the next one catches up', async () => {
    proxy.setFault(async () => 'cut');
    const adapter = await adapterOver(proxy.baseUrl);
    await expect(adapter.round()).rejects.toMatchObject({ code: 'unreachable' });
    expect(adapter.lastRound).toMatchObject({ ok: false });
    proxy.setFault((passing) => passing.forward());
    expect((await adapter.round()).failed).toBe(0);
    await inStep();
  });
});

describe('a server that does half of a transaction', () => {
  it('has what is missing written by the next try', async () => {
    proxy.setFault(async (passing) => {
      if (!isTransaction(passing) || passing.nth > 1) return passing.forward();
      const bundle = JSON.parse(passing.body) as Bundle;
      const half = (bundle.entry ?? []).slice(0, Math.floor(bundle.entry!.length / 2));
      await passing.forward(JSON.stringify({ ...bundle, entry: half }));
      return answer(500);
    });
    expect((await (await adapterOver(proxy.baseUrl)).round()).failed).toBe(0);
    await inStep();
  });

  it('is found out where it says success for the whole and failure for an entry', async () => {
    proxy.setFault(async (passing) => {
      if (!isTransaction(passing) || passing.nth > 1) return passing.forward();
      const bundle = JSON.parse(passing.body) as Bundle;
      const [first, ...rest] = bundle.entry!;
      expect(first).toBeDefined();
      const got = await passing.forward(JSON.stringify({ ...bundle, entry: rest }));
      return changed(got, (answers) => answers.entry!.unshift({ response: { status: '500' } }));
    });
    expect((await (await adapterOver(proxy.baseUrl)).round()).failed).toBe(0);
    await inStep();
  });
});

it('a server that refuses large transactions gets small ones (the raw router takes eight conditional creates)', async () => {
  const raw = await startRawServer();
  try {
    await loadBundle(new FhirServer({ baseUrl: raw.baseUrl }), unitOf(...some));
    const round = await (await adapterOver(raw.baseUrl)).round();
    expect(round.failed).toBe(0);
    expect(round.written.transactions).toBeGreaterThan(2);
    expect(identities(await search<Task>(raw.baseUrl, 'Task'))).toEqual(expected);
  } finally {
    await raw.close();
  }
});
