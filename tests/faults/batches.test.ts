// One batch a patient instead of a call for every type: how many calls that takes, that what is read is the same, and
// that a batch that fails, whole or in a part, costs calls and no care.
import { FhirServer } from '@dwellward/adapter';
import { dueBundle, dueCareOfEach, readRecords } from '@dwellward/core';
import { loadPolicy } from '@dwellward/adapter';
import { demoPolicyLayers } from '@dwellward/fixtures';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import type { Bundle, BundleEntry, CapabilityStatement, FhirResource, Task } from 'fhir/r4.js';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { adapterOver, base, demoInstant, demoZone, search, unitOf, wrote } from '../interop/support.js';
import { answer, startFaultyProxy, type Answer, type Fault, type Passing } from './proxy.js';

const dueItem = `${base}/due-item`;
let demo: Awaited<ReturnType<typeof startDemoServer>>;
let proxy: Awaited<ReturnType<typeof startFaultyProxy>>;

const isBatch = ({ method, body }: Passing) => method === 'POST' && body.includes('"type":"batch"');
const identities = async (baseUrl: string) =>
  (await search<Task>(baseUrl, 'Task?_count=1000'))
    .flatMap(({ identifier = [], status, restriction, priority }) =>
      identifier
        .filter(({ system }) => system === dueItem)
        .map(({ value }) => `${value} ${status} ${priority} ${JSON.stringify(restriction)}`),
    )
    .sort();
const start = async (bundle: Bundle) => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), bundle);
  proxy = await startFaultyProxy(demo.baseUrl);
};
const stop = async () => {
  await proxy.close();
  await demo.close();
};

describe('the whole unit', () => {
  beforeAll(() => start(unitOf()));
  afterAll(stop);

  it('takes at most six calls a patient the first time, two where nothing has changed, and holds what the library computes', async () => {
    const adapter = await adapterOver(proxy.baseUrl);
    const first = await adapter.round();
    expect(first.failed).toBe(0);
    const filled = proxy.seen.length;
    expect(filled / first.patients).toBeLessThanOrEqual(6);
    const second = await adapter.round();
    expect(wrote(second)).toBe(0);
    expect((proxy.seen.length - filled) / second.patients).toBeLessThanOrEqual(2);

    // The same resources, given to the library at once.
    const records = readRecords(unitOf().entry!);
    const policy = await loadPolicy(demoPolicyLayers);
    const when = { asOf: demoInstant, zone: demoZone };
    const bundle = dueBundle(records, dueCareOfEach(records.lines, policy, when), policy, when);
    const computed = (bundle.entry ?? [])
      .map(({ resource }) => resource as FhirResource)
      .filter((resource) => resource.resourceType === 'Task')
      .flatMap(({ identifier = [], status, restriction, priority }) =>
        identifier
          .filter(({ system }) => system === dueItem)
          .map(({ value }) => `${value} ${status} ${priority} ${JSON.stringify(restriction)}`),
      )
      .sort();
    expect(computed.length).toBeGreaterThan(100);
    expect(await identities(demo.baseUrl)).toEqual(computed);
  });
});

describe('a batch that can’t be used', () => {
  const some = ['hemlock-heron', 'buckthorn-bittern'];
  let expected: string[];
  beforeAll(async () => {
    await start(unitOf(...some));
    await (await adapterOver(demo.baseUrl, { batches: false })).round();
    expected = await identities(demo.baseUrl);
    expect(expected.length).toBeGreaterThan(10);
    await stop();
  });
  beforeEach(() => start(unitOf(...some)));
  afterEach(stop);

  const spoil =
    (change: (entries: BundleEntry[], sent: BundleEntry[]) => BundleEntry[]): Fault =>
    async (passing) => {
      const got = await passing.forward();
      if (!isBatch(passing)) return got;
      const bundle = JSON.parse(got.body) as Bundle;
      const sent = (JSON.parse(passing.body) as Bundle).entry!;
      return { ...got, body: JSON.stringify({ ...bundle, entry: change(bundle.entry!, sent) }) };
    };
  const observations = (change: (entry: BundleEntry) => BundleEntry) =>
    spoil((entries, sent) =>
      entries.map((entry, at) => (sent[at]!.request!.url.startsWith('Observation?') ? change(entry) : entry)),
    );
  const without =
    (codes: readonly string[]): Fault =>
    async (passing) => {
      const got: Answer = await passing.forward();
      if (!passing.url.endsWith('/metadata')) return isBatch(passing) ? answer(400) : got;
      const statement = JSON.parse(got.body) as CapabilityStatement;
      for (const rest of statement.rest ?? [])
        rest.interaction = rest.interaction!.filter(({ code }) => !codes.includes(code));
      return { ...got, body: JSON.stringify(statement) };
    };
  const refused = (status: number): Fault => {
    return async (passing) => (isBatch(passing) ? answer(status) : passing.forward());
  };

  const faults: [string, Fault][] = [
    ...[400, 403, 404, 405, 413, 415, 422, 500, 501].map((status): [string, Fault] => [
      `is answered with ${status}`,
      refused(status),
    ]),
    ['is not listed by the server', without(['batch', 'transaction'])],
    ['is listed as transactions and refused', without(['batch'])],
    [
      'is answered with another resource',
      async (passing) =>
        isBatch(passing) ? answer(200, { resourceType: 'OperationOutcome', issue: [] }) : passing.forward(),
    ],
    [
      'is answered with text',
      async (passing) => (isBatch(passing) ? answer(200, '<html>welcome</html>') : passing.forward()),
    ],
    ['lacks an answer', spoil((entries) => entries.slice(1))],
    ['has its answers in another order', spoil((entries) => [...entries].reverse())],
    ['has one search answered with 500', observations(() => ({ response: { status: '500' } }))],
    ['has one search answered with 429', observations(() => ({ response: { status: '429' } }))],
    [
      'has one search answered with an outcome under 200',
      observations(
        ({ response }) =>
          ({
            response,
            resource: { resourceType: 'OperationOutcome', issue: [{ severity: 'error', code: 'exception' }] },
          }) as BundleEntry,
      ),
    ],
    ['has one search answered with nothing', observations(({ response }) => ({ response }) as BundleEntry)],
  ];
  it.each(faults)('costs calls and no care: one that %s', async (_, fault) => {
    proxy.setFault(fault);
    expect((await (await adapterOver(proxy.baseUrl)).round()).failed).toBe(0);
    expect(await identities(demo.baseUrl)).toEqual(expected);
  });

  it('is not sent again to a server that refuses it', async () => {
    proxy.setFault(refused(405));
    const adapter = await adapterOver(proxy.baseUrl, { patientsAtOnce: 1 });
    await adapter.round();
    await adapter.round();
    expect(proxy.seen.filter(isBatch)).toHaveLength(1);
  });

  it('another patient’s resources in it are refused as they are in a search', async () => {
    proxy.setFault(
      observations((entry) => ({
        ...entry,
        resource: {
          resourceType: 'Bundle',
          type: 'searchset',
          entry: [
            {
              resource: {
                resourceType: 'Observation',
                id: 'foreign',
                status: 'final',
                code: { text: 'of somebody else' },
                subject: { reference: 'Patient/somebody-else' },
              },
            },
          ],
        },
      })),
    );
    const adapter = await adapterOver(proxy.baseUrl);
    expect((await adapter.round()).failed).toBe(2);
    expect(adapter.failing.map(({ code }) => code)).toEqual(['foreign-patient', 'foreign-patient']);
    expect(await identities(demo.baseUrl)).toEqual([]);
  });

  it('whose first pages lead on is read to the end', async () => {
    const adapter = await adapterOver(proxy.baseUrl, { pageSize: 3 });
    expect((await adapter.round()).failed).toBe(0);
    expect(proxy.seen.filter(({ url }) => url.includes('_offset=')).length).toBeGreaterThan(5);
    expect(await identities(demo.baseUrl)).toEqual(expected);
  });
});
