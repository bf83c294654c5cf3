// What other servers do than the embedded one, made by a proxy before it: no versions, references that bind, no search
// without a patient.
import { FhirServer, listedPatients, type Poller } from '@dwellward/adapter';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startDemoServer } from '@dwellward/demo-server';
import { demoInstant } from '@dwellward/fixtures';
import { codeSystem } from '@dwellward/profiles';
import type { Device, FhirResource, Group, Procedure, Task } from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  adapterOver as anyAdapterOver,
  clockwork,
  loadBundle,
  search,
  send,
  unitOf,
  wrote,
} from '../interop/support.js';
import { answer, startFaultyProxy, type Passing } from './proxy.js';

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
    const open = await openTasks();
    expect(open.length).toBeGreaterThan(3);
    let read = false;
    proxy.setFault(async (passing) => {
      const got = await unversioned(passing);
      if (!read && passing.method === 'GET' && passing.url.includes('/Task?patient=')) {
        read = true;
        for (const task of open) {
          const taken = { ...task, status: 'accepted', owner: { display: 'nurse on duty' } };
          expect(await send(demo.baseUrl, 'PUT', `Task/${task.id}`, taken)).toBe(200);
        }
      }
      return got;
    });
    const { failed, written } = await round(twoDaysLater);
    expect(failed).toBe(0);
    expect(written.updated).toBeGreaterThan(0);
    expect(read).toBe(true);
    const now = (await tasks()).filter(({ id }) => open.some((task) => task.id === id));
    expect(now.map(({ status, owner }) => [status, owner?.display])).toEqual(
      open.map(() => ['accepted', 'nurse on duty']),
    );
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

describe('A22: a server that takes no search without a patient', () => {
  const bittern = 'buckthorn-bittern';
  const demanding = async (passing: Passing) => {
    const { pathname, searchParams } = new URL(passing.url, proxy.baseUrl);
    const type = pathname.split('/').slice(2).join('/');
    const search = passing.method === 'GET' && type !== '' && !type.includes('/') && type !== 'metadata';
    const free = ['Location', 'Medication'].includes(type);
    if (!search || free || searchParams.has('patient')) return passing.forward();
    return answer(403, {
      resourceType: 'OperationOutcome',
      issue: [{ severity: 'error', code: 'forbidden' }],
    });
  };
  const listedRound = async (source: string, asOf = demoInstant) => {
    const listed = listedPatients(source, new FhirServer({ baseUrl: proxy.baseUrl }))!;
    return (await anyAdapterOver(proxy.baseUrl, { batches: false, asOf, listed })).round();
  };
  const group = (ids: readonly string[], more: object = {}): Group => ({
    resourceType: 'Group',
    id: 'ward',
    type: 'person',
    actual: true,
    member: ids.map((id) => ({ entity: { reference: `Patient/${id}` } })),
    ...more,
  });
  const put = async (resource: FhirResource) =>
    expect(await send(demo.baseUrl, 'PUT', `${resource.resourceType}/${resource.id}`, resource)).toBeLessThan(
      300,
    );
  const asks = async (baseUrl: string) =>
    (await search<Task>(baseUrl, 'Task?_count=1000'))
      .map(({ identifier, status }) => `${identifier?.[0]?.value} ${status}`)
      .sort();

  beforeEach(async () => {
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(bittern));
    proxy.setFault(demanding);
  });

  it('A22: is worked with by a Group, a List or a file of ids: the same Tasks as where all may be searched', async () => {
    await expect(round()).rejects.toThrow(/403/);
    const free = await startDemoServer();
    try {
      await loadBundle(new FhirServer({ baseUrl: free.baseUrl }), unitOf(heron, bittern));
      await (await anyAdapterOver(free.baseUrl)).round();
      const wanted = await asks(free.baseUrl);
      expect(wanted.length).toBeGreaterThan(5);
      await put(group([heron, bittern]));
      expect((await listedRound('Group/ward')).failed).toBe(0);
      expect(await asks(demo.baseUrl)).toEqual(wanted);
      const again = async (source: string) => {
        const { patients, written } = await listedRound(source);
        expect([patients, written.created, written.updated]).toEqual([2, 0, 0]);
      };
      await put({
        resourceType: 'List',
        id: 'ward',
        status: 'current',
        mode: 'working',
        entry: [heron, bittern].map((id) => ({ item: { reference: `Patient/${id}` } })),
      });
      await again('List/ward');
      const folder = await mkdtemp(join(tmpdir(), 'dwellward-listed-'));
      await writeFile(join(folder, 'ward.txt'), `# the ward\n${heron}\nPatient/${bittern}\n\n`);
      await again(join(folder, 'ward.txt'));
      await rm(folder, { recursive: true });
    } finally {
      await free.close();
    }
  });

  it('A22: reads each of them in every round: nothing tells who has changed', async () => {
    await put(group([heron]));
    const listed = listedPatients('Group/ward', new FhirServer({ baseUrl: proxy.baseUrl }))!;
    const adapter = await anyAdapterOver(proxy.baseUrl, { batches: false, fullEvery: 1000, listed });
    await adapter.round();
    const [task] = await openTasks();
    await put({ ...task!, status: 'cancelled', statusReason: { text: 'by mistake' } });
    const { patients, full } = await adapter.round();
    expect([patients, full]).toEqual([1, true]);
    expect((await tasks()).length).toBeGreaterThan(0);
  });

  it('A22: leaves the Tasks of who is no longer listed as they are', async () => {
    await put(group([heron, bittern]));
    const listed = listedPatients('Group/ward', new FhirServer({ baseUrl: proxy.baseUrl }))!;
    const adapter = await anyAdapterOver(proxy.baseUrl, { batches: false, listed });
    await adapter.round();
    const before = await asks(demo.baseUrl);
    await put(group([bittern], { member: [{ entity: { reference: `Patient/${bittern}` } }] }));
    expect((await adapter.round()).patients).toBe(1);
    expect(await asks(demo.baseUrl)).toEqual(before);
  });

  it.each([
    ['Group/none', /Group\/none is not on the server/],
    ['/nowhere/ward.txt', /The list of patients \/nowhere\/ward.txt can’t be read/],
    ['Group/ward', /names what is no patient of the server: Practitioner\/x/],
  ])('A22: does nothing by %s, and says why', async (source, said) => {
    await put(group([], { member: [{ entity: { reference: 'Practitioner/x' } }] }));
    await expect(listedRound(source)).rejects.toThrow(said);
    expect(await tasks()).toEqual([]);
  });
});

describe('A18: a server that deletes nothing that something refers to', () => {
  const written = ['Task', 'Flag', 'DetectedIssue', 'Provenance'];
  const read =
    'Device Procedure Observation MedicationAdministration Encounter DeviceUseStatement ServiceRequest Appointment AllergyIntolerance Condition Patient Location'.split(
      ' ',
    );
  const enforcing = async (passing: Passing) => {
    const got = await passing.forward();
    if (!passing.url.endsWith('/metadata')) return got;
    const statement = JSON.parse(got.body) as { rest: { resource?: object[] }[] };
    for (const rest of statement.rest)
      rest.resource = [...read, ...written].map((type) => ({
        type,
        referencePolicy: ['literal', 'enforced'],
      }));
    return { ...got, body: JSON.stringify(statement) };
  };
  /** The resources of the hospital that could not be deleted any more for what was written. */
  const bound = async () => {
    const names = new Set<string>();
    for (const type of written)
      for (const one of await search(demo.baseUrl, `${type}?_count=1000`))
        for (const [, name] of JSON.stringify(one).matchAll(/"reference":"([A-Za-z]+\/[^"]+)"/g))
          names.add(name!);
    return [...names].filter((name) => !/^(Patient|Device|Task)\//.test(name)).sort();
  };

  it('A18: keeps every result, event and place free to be deleted, and writes nothing in a second round', async () => {
    await round();
    expect((await bound()).length).toBeGreaterThan(3);
    const enforced = await startDemoServer();
    await proxy.close();
    await demo.close();
    demo = enforced;
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(heron));
    proxy = await startFaultyProxy(demo.baseUrl);
    proxy.setFault(enforcing);
    const adapter = await anyAdapterOver(proxy.baseUrl, { fullEvery: 1 });
    expect((await adapter.round()).written.created).toBeGreaterThan(5);
    expect(await bound()).toEqual([]);
    const named = JSON.stringify(await search(demo.baseUrl, 'Provenance?_count=1000'));
    expect(named).toMatch(/"identifier":\{"system":"urn:ietf:rfc:3986","value":"http[^"]+\/Procedure\//);
    expect(wrote(await adapter.round())).toBe(0);
    // Another adapter, which takes its references as they come, finds the same and leaves it.
    const other = await anyAdapterOver(proxy.baseUrl, { fullEvery: 1, references: 'literal' });
    expect(wrote(await other.round())).toBe(0);
  });
});

describe('A21: a round over everybody', () => {
  const oriole = 'old-oriole';
  const picc = (id: string): Device => ({
    resourceType: 'Device',
    id,
    status: 'active',
    type: { coding: [{ system: codeSystem.lineType, code: 'picc' }] },
    patient: { reference: `Patient/${oriole}` },
  });
  const done = (activity: string, at: string): Procedure => ({
    resourceType: 'Procedure',
    id: `oriole-${activity}`,
    status: 'completed',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
    subject: { reference: `Patient/${oriole}` },
    performedDateTime: at,
    focalDevice: [{ manipulated: { reference: 'Device/oriole-line' } }],
  });
  const monthsLater = '2027-02-25T12:00:00+01:00';
  /** The requests of a round that name the patient. */
  const askedFor = async (adapter: Poller, patient: string) => {
    proxy.seen.splice(0);
    expect((await adapter.round()).failed).toBe(0);
    return proxy.seen.filter(({ url, body }) => `${url} ${body}`.includes(patient)).length;
  };
  const put = async (resource: FhirResource) =>
    expect(await send(demo.baseUrl, 'PUT', `${resource.resourceType}/${resource.id}`, resource)).toBeLessThan(
      300,
    );
  /** An adapter over a line that is long out, and whose last care is over. */
  const afterRemoval = async () => {
    await put({ resourceType: 'Patient', id: oriole, birthDate: '1970-02-03' });
    await put(picc('oriole-line'));
    await put(done('insertion', '2026-10-01T09:00:00+02:00'));
    await put(done('removal', '2026-10-20T09:00:00+02:00'));
    const machine = clockwork();
    const adapter = await anyAdapterOver(proxy.baseUrl, { asOf: monthsLater, fullEvery: 1, machine });
    for (let i = 0; i < 3; i++) await adapter.round();
    return { adapter, machine };
  };

  it('A21: leaves out whose lines are long out and who has nothing open, until something of theirs changes', async () => {
    const { adapter, machine } = await afterRemoval();
    expect(await askedFor(adapter, oriole)).toBe(0);
    expect(await askedFor(adapter, heron)).toBeGreaterThan(0);
    const [device] = await search<Device>(demo.baseUrl, `Device?patient=Patient/${oriole}`);
    await put({ ...device!, note: [{ text: 'seen' }] });
    expect(await askedFor(adapter, oriole)).toBeGreaterThan(0);
    expect(await askedFor(adapter, oriole)).toBe(0);
    machine.pass(25 * 3_600_000);
    expect(await askedFor(adapter, oriole)).toBeGreaterThan(0);
  });

  it('A21: looks at who has a new line at once, though every line before it is long out', async () => {
    const { adapter } = await afterRemoval();
    expect(await askedFor(adapter, oriole)).toBe(0);
    await put(picc('oriole-new-line'));
    expect(await askedFor(adapter, oriole)).toBeGreaterThan(0);
    expect(
      (await search<Task>(demo.baseUrl, `Task?patient=Patient/${oriole}&status=requested`)).length,
    ).toBeGreaterThan(0);
  });

  it('A21: in which nothing has changed asks at most twice for a patient', async () => {
    const patients = [heron, 'buckthorn-bittern', 'cypress-corncrake', 'hornbeam-curlew'];
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(...patients.slice(1)));
    const adapter = await anyAdapterOver(proxy.baseUrl, { fullEvery: 1 });
    await adapter.round();
    await adapter.round();
    for (const patient of patients) {
      const asked = await askedFor(adapter, `Patient/${patient}`);
      expect(asked).toBeGreaterThan(0);
      expect(asked).toBeLessThanOrEqual(2);
    }
  });
});
