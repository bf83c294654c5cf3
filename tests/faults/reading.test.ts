// What a server leaves out, holds back, repeats or answers from yesterday must close no Task and lose no change.
import { dueCareBy, FhirServer, healthOf, type Poller } from '@dwellward/adapter';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import { bundledPlan, readPolicy, type Policy } from '@dwellward/policy';
import { pino } from 'pino';
import type { Bundle, BundleEntry, OperationOutcome, Task } from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  adapterOver as anyAdapterOver,
  clockwork,
  demoZone,
  search,
  send,
  unitOf,
  wrote,
} from '../interop/support.js';
import { answer, startFaultyProxy, type Answer, type Fault } from './proxy.js';

/** The faults here name single reads; `batches.test.ts` has those of a batch. */
const adapterOver: typeof anyAdapterOver = (baseUrl, more) =>
  anyAdapterOver(baseUrl, { batches: false, ...more });

const heron = 'hemlock-heron';
const some = [heron, 'buckthorn-bittern', 'tamarisk-turnstone'];
let demo: Awaited<ReturnType<typeof startDemoServer>>;
let proxy: Awaited<ReturnType<typeof startFaultyProxy>>;
beforeEach(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(...some));
  proxy = await startFaultyProxy(demo.baseUrl);
});
afterEach(async () => {
  await proxy.close();
  await demo.close();
});

const statuses = async () =>
  (await search<Task>(demo.baseUrl, 'Task?_count=1000')).map(({ id, status }) => `${id} ${status}`).sort();
const open = async (patient: string) =>
  (await search<Task>(demo.baseUrl, `Task?patient=Patient/${patient}&_count=1000`)).filter(
    ({ status }) => status === 'requested',
  ).length;
const nothing = { resourceType: 'Bundle', type: 'searchset', total: 0 };
const isSearchOf = (url: string, type: string) => new RegExp(`/${type}\\?(?!_lastUpdated)`).test(url);
const isReadOf = (url: string, type: string) => new RegExp(`/${type}/[^?/]+$`).test(url);
const ofHeron = (url: string) => decodeURIComponent(url).includes(`patient=Patient/${heron}`);
const health = (adapter: Poller) => healthOf(adapter.status, 600_000);
const calm: Fault = (passing) => passing.forward();
const logOf = (lines: string[]) =>
  pino({ level: 'warn' }, { write: (text: string) => void lines.push(text) });

/** As a server answers once a scope is lost: nothing is found, and nothing is there. */
const lost =
  (types: readonly string[], whose: (url: string) => boolean = () => true): Fault =>
  async (passing) => {
    const { url } = passing;
    if (passing.method === 'GET' && types.some((type) => isReadOf(url, type)) && whose(''))
      return answer(404);
    return types.some((type) => isSearchOf(url, type)) && whose(url)
      ? answer(200, nothing)
      : passing.forward();
  };

describe('a record that is suddenly empty', () => {
  it.each([
    ['Devices and Procedures', ['Device', 'Procedure']],
    ['Devices', ['Device']],
    ['Procedures', ['Procedure']],
  ])('A5: a scope lost for %s closes nothing, however long it lasts, and says so', async (_, types) => {
    const lines: string[] = [];
    const adapter = await adapterOver(proxy.baseUrl, { log: logOf(lines) });
    await adapter.round();
    expect(health(adapter).ready).toBe(true);
    const before = await statuses();

    proxy.setFault(lost(types));
    for (let round = 0; round < 3; round++) expect(wrote(await adapter.round())).toBe(0);
    expect(await statuses()).toEqual(before);
    expect(health(adapter).ready).toBe(false);
    expect(health(adapter).because.join()).toMatch(/closings of 3 patients are held back.*person’s word/);
    expect(adapter.counters.closingsHeld).toBeGreaterThan(10);
    expect(lines.join()).toContain('may not be the whole');

    proxy.setFault(calm);
    expect(wrote(await adapter.round())).toBe(0);
    expect(health(adapter)).toMatchObject({ ready: true, because: [] });
  });

  it('A5: with a person’s word the same closings are done', async () => {
    await (await adapterOver(proxy.baseUrl)).round();
    proxy.setFault(lost(['Procedure']));
    const adapter = await adapterOver(proxy.baseUrl, { massClosing: true });
    expect(wrote(await adapter.round())).toBeGreaterThan(10);
  });

  it('A5: one patient’s empty record needs a second look that agrees', async () => {
    const adapter = await adapterOver(proxy.baseUrl, { fullEvery: 100 });
    await adapter.round();
    const before = await open(heron);
    expect(before).toBeGreaterThan(3);
    await send(demo.baseUrl, 'PUT', `Patient/${heron}`, { resourceType: 'Patient', id: heron });
    const empty: Fault = (passing) =>
      isReadOf(passing.url, 'Device')
        ? Promise.resolve(answer(404))
        : isSearchOf(passing.url, 'Device') && ofHeron(passing.url)
          ? Promise.resolve(answer(200, nothing))
          : passing.forward();
    proxy.setFault(empty);
    expect(await adapter.round()).toMatchObject({ held: 1 });
    expect(await open(heron)).toBe(before);
    expect(health(adapter).because.join()).toContain('A second look has to agree');
    expect(await adapter.round()).toMatchObject({ held: 0 });
    expect(await open(heron)).toBe(0);
    expect(health(adapter).ready).toBe(true);
  });

  it('A5: a Device that a search leaves out is found by its id, and its care goes on', async () => {
    const adapter = await adapterOver(proxy.baseUrl);
    await adapter.round();
    const before = await statuses();
    proxy.setFault((passing) =>
      isSearchOf(passing.url, 'Device') ? Promise.resolve(answer(200, nothing)) : passing.forward(),
    );
    await adapter.round();
    expect(await statuses()).toEqual(before);
    expect(health(adapter).because.join()).toContain('leaves it out');
  });

  it('A5: a Device that was deleted (410) is gone, and its Tasks are closed at once', async () => {
    const adapter = await adapterOver(proxy.baseUrl);
    await adapter.round();
    for (const type of ['Device']) {
      const theirs = await search(demo.baseUrl, `${type}?patient=Patient/${heron}`);
      for (const { id } of theirs)
        await fetch(`${demo.baseUrl}/${type}/${id}`, { method: 'DELETE' }).then((got) => got.text());
    }
    expect(await adapter.round()).toMatchObject({ held: 0 });
    expect(await open(heron)).toBe(0);
  });
});

describe('many closings at once', () => {
  /** The base with one rule left: nearly all Tasks are no longer asked for. */
  const oneRule = (): Policy => {
    const plan = structuredClone(bundledPlan('base')) as { action: unknown[] };
    plan.action = plan.action.slice(0, 1);
    const reading = readPolicy([plan]);
    if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
    return reading.policy;
  };

  it('A5: more than a fifth of the unit’s open Tasks are closed only once a second look agrees', async () => {
    await (await adapterOver(proxy.baseUrl)).round();
    const before = await statuses();
    const adapter = await adapterOver(proxy.baseUrl, { care: dueCareBy(oneRule(), demoZone) });
    expect(await adapter.round()).toMatchObject({ held: 3 });
    expect(await statuses()).toEqual(before);
    expect(health(adapter).because.join()).toMatch(
      /\d+ of the unit’s \d+ open Tasks would be closed in one round/,
    );
    const second = await adapter.round();
    expect(second).toMatchObject({ held: 0, failed: 0 });
    expect(second.written.updated).toBeGreaterThan(10);
    expect(health(adapter).ready).toBe(true);
  });
});

describe('an answer that is not the whole', () => {
  const suppressed: BundleEntry<OperationOutcome> = {
    search: { mode: 'outcome' },
    resource: {
      resourceType: 'OperationOutcome',
      issue: [{ severity: 'warning', code: 'suppressed', diagnostics: 'no scope for this' }],
    },
  };

  it.each([
    ['total names more than came', 7, []],
    ['the server says that it held something back', 0, [suppressed]],
  ])('A5: closes nothing where %s', async (_, total, entry) => {
    const adapter = await adapterOver(proxy.baseUrl);
    await adapter.round();
    const before = await open(heron);
    proxy.setFault((passing) =>
      isSearchOf(passing.url, 'Device') && ofHeron(passing.url)
        ? Promise.resolve(answer(200, { ...nothing, total, entry }))
        : isReadOf(passing.url, 'Device')
          ? Promise.resolve(answer(404))
          : passing.forward(),
    );
    for (let round = 0; round < 3; round++) await adapter.round();
    expect(await open(heron)).toBe(before);
    expect(health(adapter).because.join()).toContain('may not be the whole');
    expect(adapter.counters.incompleteReadings).toBe(3);
  });

  it.each([401, 403])('A5: %i on one type is a failure and not an empty type', async (status) => {
    const adapter = await adapterOver(proxy.baseUrl);
    await adapter.round();
    const before = await statuses();
    proxy.setFault((passing) =>
      isSearchOf(passing.url, 'Procedure') ? Promise.resolve(answer(status)) : passing.forward(),
    );
    expect(await adapter.round()).toMatchObject({ failed: 3 });
    expect(await statuses()).toEqual(before);
    expect(health(adapter).because.join()).toContain('3 of 3 patients could not be brought in step');
  });
});

describe('a chain of next links without an end', () => {
  const endless =
    (entries: (bundle: Bundle, page: number) => void): Fault =>
    async (passing): Promise<Answer> => {
      if (!isSearchOf(passing.url, 'Procedure') || !ofHeron(passing.url)) return passing.forward();
      const url = new URL(passing.url, 'http://x');
      const page = Number(url.searchParams.get('page') ?? '1');
      url.searchParams.delete('page');
      const got: Response = await fetch(`${demo.baseUrl}${url.pathname.replace(/^\/fhir/, '')}${url.search}`);
      const bundle = (await got.json()) as Bundle;
      entries(bundle, page);
      url.searchParams.set('page', String(page + 1));
      bundle.link = [{ relation: 'next', url: `${url.pathname}${url.search}` }];
      return answer(200, bundle);
    };

  it.each([
    ['that repeat what was read', () => undefined, 'next-link-loop', 3],
    [
      'that are empty',
      (bundle: Bundle, page: number) => {
        if (page > 1) bundle.entry = [];
      },
      'next-link-loop',
      15,
    ],
    [
      'that bring something new for ever',
      (bundle: Bundle, page: number) => {
        for (const { resource } of bundle.entry ?? []) resource!.id = `${resource!.id}-${page}`;
      },
      'too-many-pages',
      21,
    ],
  ] as const)('A13: pages %s end as an incomplete reading', async (_, entries, code, most) => {
    proxy.setFault(endless(entries));
    const adapter = await adapterOver(proxy.baseUrl, { maxPages: 20 });
    expect(await adapter.round()).toMatchObject({ failed: 1 });
    expect(adapter.failing).toMatchObject([{ patient: `Patient/${heron}`, code }]);
    expect(
      proxy.seen.filter(({ url }) => isSearchOf(url, 'Procedure') && ofHeron(url)).length,
    ).toBeLessThanOrEqual(most);
    expect(await open(heron)).toBe(0);
  });
});

describe('a change', () => {
  const dressing = {
    resourceType: 'Procedure',
    status: 'completed',
    code: {
      coding: [
        { system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity', code: 'dressing-change' },
      ],
    },
    subject: { reference: `Patient/${heron}` },
    performedDateTime: '2026-11-25T07:20:00+01:00',
  };
  const chart = async () => {
    const [device] = await search<{ resourceType: 'Device'; id: string; parent?: unknown }>(
      demo.baseUrl,
      `Device?patient=Patient/${heron}`,
    ).then((all) => all.filter(({ parent }) => parent === undefined));
    const focalDevice = [{ manipulated: { reference: `Device/${device!.id}` } }];
    expect(
      await send(demo.baseUrl, 'PUT', 'Procedure/new-dressing', {
        ...dressing,
        id: 'new-dressing',
        focalDevice,
      }),
    ).toBe(200);
  };
  const metByIt = async () =>
    (await search<Task>(demo.baseUrl, `Task?patient=Patient/${heron}&status=completed`)).filter((task) =>
      JSON.stringify(task.output).includes('Procedure/new-dressing'),
    ).length;

  /** A cache between us and the server, that a request may or may not be able to refuse. */
  const cached = (obeys: boolean, until: () => boolean): Fault => {
    const kept = new Map<string, Answer>();
    return async (passing) => {
      if (!isSearchOf(passing.url, 'Procedure')) return passing.forward();
      const refuses = obeys && passing.headers['cache-control'] === 'no-cache';
      const old = kept.get(passing.url);
      if (old !== undefined && !refuses && !until()) return old;
      const got = await passing.forward();
      kept.set(passing.url, got);
      return got;
    };
  };

  it('A15: every read asks that no cache answers', async () => {
    proxy.setFault(cached(true, () => false));
    const adapter = await adapterOver(proxy.baseUrl, { fullEvery: 100 });
    await adapter.round();
    await adapter.round();
    await chart();
    await adapter.round();
    expect(await metByIt()).toBeGreaterThan(0);
    const reads = proxy.seen.filter(({ method }) => method === 'GET');
    expect(new Set(reads.map(({ headers }) => headers['cache-control']))).toEqual(new Set(['no-cache']));
  });

  it('A15: it counts as seen only once its version was in what was read', async () => {
    let over = false;
    proxy.setFault(cached(false, () => over));
    const adapter = await adapterOver(proxy.baseUrl, { fullEvery: 100 });
    await adapter.round();
    await adapter.round();
    await chart();
    expect(await adapter.round()).toMatchObject({ patients: 1 });
    expect(await metByIt()).toBe(0);
    expect(await adapter.round()).toMatchObject({ patients: 1 });
    over = true;
    await adapter.round();
    expect(await metByIt()).toBeGreaterThan(0);
    expect(await adapter.round()).toMatchObject({ patients: 0 });
  });

  it('A10: it is not lost where the look that found it fails half way', async () => {
    const machine = clockwork();
    const adapter = await adapterOver(proxy.baseUrl, { fullEvery: 100, machine });
    await adapter.round();
    await adapter.round();
    await chart();
    // A new line makes the look go through all patients once more, and that fails.
    await send(demo.baseUrl, 'PUT', 'Device/spare', { resourceType: 'Device', id: 'spare' });
    proxy.setFault((passing) =>
      passing.url.includes('/Device?type=') ? Promise.resolve(answer(500)) : passing.forward(),
    );
    await expect(adapter.round()).rejects.toMatchObject({ code: 'server-failed' });
    proxy.setFault(calm);
    await adapter.round();
    expect(await metByIt()).toBeGreaterThan(0);
  });
});

it('A7: an appointment with two patients leaves both in step, with what each has to be prepared for', async () => {
  const [first, second] = ['buckthorn-bittern', heron];
  await send(demo.baseUrl, 'PUT', 'Appointment/both', {
    ...{ resourceType: 'Appointment', id: 'both', status: 'booked' },
    ...{ start: '2026-11-27T09:00:00+01:00', end: '2026-11-27T10:00:00+01:00' },
    reasonCode: [
      {
        coding: [
          { system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity', code: 'insertion' },
        ],
      },
    ],
    participant: [first, second].map((id) => ({
      actor: { reference: `Patient/${id}` },
      status: 'accepted',
    })),
  });
  const adapter = await adapterOver(proxy.baseUrl, { policy: ['base', 'preparation'] });
  expect(await adapter.round()).toMatchObject({ patients: 3, failed: 0 });
  for (const id of [first, second]) {
    const theirs = await search<Task>(demo.baseUrl, `Task?patient=Patient/${id}&_count=500`);
    const forIt = theirs.filter(({ focus }) => focus?.reference === 'Appointment/both');
    expect(forIt.length).toBeGreaterThan(1);
    expect(theirs.length).toBeGreaterThan(forIt.length);
  }
  expect(wrote(await adapter.round())).toBe(0);
});
