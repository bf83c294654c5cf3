// What other servers do than the embedded one, made by a proxy before it: no versions, references that bind, no search
// without a patient.
import { FhirServer } from '@dwellward/adapter';
import { startDemoServer } from '@dwellward/demo-server';
import { demoInstant } from '@dwellward/fixtures';
import type { Task } from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { adapterOver as anyAdapterOver, loadBundle, search, send, unitOf } from '../interop/support.js';
import { startFaultyProxy, type Passing } from './proxy.js';

const heron = 'hemlock-heron';
let demo: Awaited<ReturnType<typeof startDemoServer>>;
let proxy: Awaited<ReturnType<typeof startFaultyProxy>>;

beforeEach(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(heron));
  proxy = await startFaultyProxy(demo.baseUrl);
});
afterEach(async () => {
  await proxy.close();
  await demo.close();
});

const round = async (asOf = demoInstant) =>
  (await anyAdapterOver(proxy.baseUrl, { batches: false, asOf })).round();
const tasks = () => search<Task>(demo.baseUrl, `Task?patient=Patient/${heron}&_count=1000`);
const openTasks = async () => (await tasks()).filter(({ status }) => status === 'requested');

describe('A23: a server without versions', () => {
  const unversioned = async (passing: Passing) => {
    const { status, headers, body } = await passing.forward(
      passing.body.replaceAll(/"ifMatch":"[^"]*",?/g, ''),
    );
    const bare = JSON.parse(body || '{}', (key, value: unknown) =>
      key === 'versionId' || key === 'lastUpdated' || key === 'etag' ? undefined : value,
    ) as object;
    return { status, headers, body: JSON.stringify(bare) };
  };
  const twoDaysLater = '2026-11-27T12:00:00+01:00';

  it('A23: what a person wrote between the reading and the writing stands', async () => {
    proxy.setFault(unversioned);
    expect((await round()).failed).toBe(0);
    const [task] = await openTasks();
    let accepted = 0;
    proxy.setFault(async (passing) => {
      const got = await unversioned(passing);
      if (accepted === 0 && passing.method === 'GET' && passing.url.includes('/Task?patient=')) {
        accepted += 1;
        const taken = { ...task!, status: 'accepted', owner: { display: 'nurse on duty' } };
        expect(await send(demo.baseUrl, 'PUT', `Task/${task!.id}`, taken)).toBe(200);
      }
      return got;
    });
    const { failed, written } = await round(twoDaysLater);
    expect(failed).toBe(0);
    expect(written.updated).toBeGreaterThan(0);
    expect(accepted).toBe(1);
    const [now] = (await tasks()).filter(({ id }) => id === task!.id);
    expect(now).toMatchObject({ status: 'accepted', owner: { display: 'nurse on duty' } });
  });

  it('A23: says at the start that it has none', async () => {
    proxy.setFault(async (passing) => {
      const got = await unversioned(passing);
      if (!passing.url.endsWith('/metadata')) return got;
      const statement = JSON.parse(got.body) as { rest: { resource?: object[] }[] };
      for (const rest of statement.rest)
        rest.resource = ['Task', 'Device', 'Patient', 'Procedure', 'Observation'].map((type) => ({
          type,
          versioning: 'no-version',
        }));
      return { ...got, body: JSON.stringify(statement) };
    });
    const adapter = await anyAdapterOver(proxy.baseUrl, { batches: false });
    await adapter.checkServer();
    expect(adapter.status.fit?.warnings.join()).toContain('keeps no versions of Tasks');
  });
});
