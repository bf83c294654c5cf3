// What is written where people, other adapters and servers do what is not expected: each care is asked for once, and by
// those who are asked nothing is lost.
import { FhirServer, Lacking } from '@dwellward/adapter';
import { startDemoServer } from '@dwellward/demo-server';
import { demoInstant } from '@dwellward/fixtures';
import { codeSystem } from '@dwellward/profiles';
import type {
  Bundle,
  DetectedIssue,
  Device,
  FhirResource,
  Flag,
  Procedure,
  Provenance,
  Task,
} from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  adapterOver as anyAdapterOver,
  base,
  doubled,
  loadBundle,
  search,
  send,
  unitOf,
  wrote,
} from '../interop/support.js';
import { answer, startFaultyProxy } from './proxy.js';

/** The faults here name single reads; `batches.test.ts` has those of a batch. */
const adapterOver: typeof anyAdapterOver = (baseUrl, more) =>
  anyAdapterOver(baseUrl, { batches: false, ...more });

const dueItem = `${base}/due-item`;
const heron = 'hemlock-heron';
/** Her neutrophils are very low: only some policies have her dressing changed daily. */
const wagtail = 'spindle-wagtail';
let demo: Awaited<ReturnType<typeof startDemoServer>>;
let proxy: Awaited<ReturnType<typeof startFaultyProxy>>;

beforeEach(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(heron, 'buckthorn-bittern'));
  proxy = await startFaultyProxy(demo.baseUrl);
});
afterEach(async () => {
  await proxy.close();
  await demo.close();
});

const tasksOf = (patient: string) =>
  search<Task>(demo.baseUrl, `Task?patient=Patient/${patient}&_count=1000`);
const over = new Set(['completed', 'cancelled', 'rejected', 'failed', 'entered-in-error']);
const openOf = async (patient: string) => (await tasksOf(patient)).filter(({ status }) => !over.has(status));
const activityOf = (task: Task) => task.code!.coding![0]!.code!;
const asks = (tasks: readonly Task[]) =>
  tasks.map((task) =>
    [activityOf(task), task.focus!.reference, JSON.stringify(task.input?.[0] ?? '')].join(),
  );
const expectOnce = (tasks: readonly Task[]) => expect(new Set(asks(tasks)).size).toBe(tasks.length);
const put = async (resource: FhirResource) =>
  expect(await send(demo.baseUrl, 'PUT', `${resource.resourceType}/${resource.id}`, resource)).toBe(200);
const round = async (more: Parameters<typeof adapterOver>[1] = {}) => {
  const done = await (await adapterOver(demo.baseUrl, more)).round();
  expect(done.failed).toBe(0);
  return done;
};

describe('a line that was charted for the wrong patient', () => {
  it('A1: asks for its care again once it is charted for the right one', async () => {
    await round();
    const herons = await openOf(heron);
    const lines = (await search<Device>(demo.baseUrl, `Device?patient=Patient/${heron}`)).map(
      (device) => device.id!,
    );
    const bittern = { reference: 'Patient/buckthorn-bittern' };
    const move = async (to: { reference: string }) => {
      for (const id of lines) {
        const [device] = await search<Device>(demo.baseUrl, `Device?_id=${id}`);
        await put({ ...device!, patient: to });
      }
      const events = await search<Procedure>(demo.baseUrl, 'Procedure?_count=1000');
      for (const one of events)
        if (one.focalDevice?.some(({ manipulated }) => lines.includes(manipulated.reference!.slice(7))))
          await put({ ...one, subject: to });
    };
    await move(bittern);
    for (let i = 0; i < 3; i++) await round();
    expect(await openOf(heron)).toEqual([]);
    await move({ reference: `Patient/${heron}` });
    for (let i = 0; i < 3; i++) await round();
    const again = await openOf(heron);
    expect(asks(again).sort()).toEqual(asks(herons).sort());
    expect(doubled(await search<Task>(demo.baseUrl, 'Task?_count=1000'), dueItem)).toEqual([]);
  });

  it('A1: a match that the slice did not hold is read and decided on', async () => {
    await round();
    const [task] = await openOf(heron);
    // Somebody has given the Task to another patient: no search for this one finds it.
    await put({ ...task!, for: { reference: 'Patient/buckthorn-bittern' } });
    await round();
    const [after] = await search<Task>(demo.baseUrl, `Task?_id=${task!.id}`);
    expect(after).toMatchObject({ status: 'requested', for: { reference: `Patient/${heron}` } });
    expectOnce(await openOf(heron));
  });
});

describe('what people do to Tasks', () => {
  it('A2: a Task that was done or turned down, with nothing charted, is followed by the next', async () => {
    await round();
    const [done, turned, ...rest] = await openOf(heron);
    await put({ ...done!, status: 'completed' });
    await put({ ...turned!, status: 'rejected', statusReason: { text: 'asleep' } });
    await round();
    const open = await openOf(heron);
    expectOnce(open);
    expect(open).toHaveLength(rest.length + 2);
    const issues = await search<DetectedIssue>(demo.baseUrl, `DetectedIssue?patient=Patient/${heron}`);
    const said = issues.filter(({ code }) => code!.coding![0]!.code === 'done-not-charted');
    expect(said.map(({ implicated }) => implicated![0]!.reference)).toEqual([`Task/${done!.id}`]);
    expect(wrote(await round())).toBe(0);
  });

  it('A3: events that are written anew under other ids leave every Task, taken or not, the only one', async () => {
    await round();
    const before = await openOf(heron);
    for (const task of before.slice(0, 3))
      await put({ ...task, status: 'accepted', owner: { display: 'a nurse' } });
    const events = await search<Procedure>(demo.baseUrl, `Procedure?patient=Patient/${heron}&_count=1000`);
    for (const one of events) {
      const response = await fetch(`${demo.baseUrl}/Procedure/${one.id}`, { method: 'DELETE' });
      expect(response.ok).toBe(true);
      const { id, meta, ...copy } = one;
      expect([id, meta]).not.toContain(undefined);
      await put({ ...copy, id: `again-${id}` });
    }
    await round();
    const after = await openOf(heron);
    expectOnce(after);
    expect(asks(after).sort()).toEqual(asks(before).sort());
    expect(after.filter(({ status }) => status === 'accepted').map(({ owner }) => owner?.display)).toEqual(
      Array.from({ length: 3 }, () => 'a nurse'),
    );
    expect(wrote(await round())).toBe(0);
  });

  it('A12: a Flag that a person closed stays closed', async () => {
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf('hornbeam-curlew'));
    await round();
    const [flag] = await search<Flag>(demo.baseUrl, 'Flag?patient=Patient/hornbeam-curlew');
    await put({ ...flag!, status: 'inactive' });
    expect(wrote(await round())).toBe(0);
  });
});

describe('what is gone from the server while the adapter is down', () => {
  it('A4: the Tasks of a line and a patient that were deleted are found by themselves and closed', async () => {
    await round();
    const types = [
      'Procedure',
      'Observation',
      'MedicationAdministration',
      'DeviceUseStatement',
      'ServiceRequest',
      'Device',
    ];
    for (const type of types) {
      for (const one of await search(demo.baseUrl, `${type}?patient=Patient/${heron}&_count=1000`))
        await fetch(`${demo.baseUrl}/${type}/${one.id}`, { method: 'DELETE' });
    }
    await fetch(`${demo.baseUrl}/Patient/${heron}`, { method: 'DELETE' });
    const adapter = await adapterOver(demo.baseUrl);
    // A second look has to agree where somebody holds mass closings back.
    for (let i = 0; i < 3; i++) expect((await adapter.round()).failed).toBe(0);
    expect(await openOf(heron)).toEqual([]);
    const reasons = (await tasksOf(heron)).map(({ statusReason }) => statusReason?.coding?.[0]?.code);
    expect(reasons).toContain('line-not-on-record');
    expect((await openOf('buckthorn-bittern')).length).toBeGreaterThan(3);
  });
});

describe('a server that does not have', () => {
  it.each([
    ['Provenance', 404],
    ['Flag', 404],
    ['DetectedIssue', 400],
  ] as const)('A17: %s, refused with %i, still gets its Tasks', async (type, status) => {
    const calm = await startDemoServer();
    try {
      await loadBundle(new FhirServer({ baseUrl: calm.baseUrl }), unitOf(heron, 'buckthorn-bittern'));
      await (await adapterOver(calm.baseUrl)).round();
      const outcome = {
        resourceType: 'OperationOutcome',
        issue: [{ severity: 'error', code: 'not-supported' }],
      };
      proxy.setFault(async (passing) => {
        const asks = passing.url.includes(`/${type}?`) || passing.url.endsWith(`/${type}`);
        const writes = passing.method === 'POST' && passing.body.includes(`"resourceType":"${type}"`);
        return asks || writes ? answer(status, outcome) : passing.forward();
      });
      const adapter = await adapterOver(proxy.baseUrl);
      expect((await adapter.round()).failed).toBe(0);
      const values = (tasks: Task[]) => tasks.map(({ identifier }) => identifier![0]!.value).sort();
      expect(values(await search<Task>(demo.baseUrl, 'Task?_count=1000'))).toEqual(
        values(await search<Task>(calm.baseUrl, 'Task?_count=1000')),
      );
      expect(await search(demo.baseUrl, type)).toEqual([]);
      expect(wrote(await adapter.round())).toBe(0);
    } finally {
      await calm.close();
    }
  });

  it('A17: what its CapabilityStatement does not list is neither asked for nor written', async () => {
    const resource = ['Task', 'DetectedIssue', 'Provenance', 'Device'].map((type) => ({ type }));
    const rest = [{ mode: 'server', resource, interaction: [{ code: 'transaction' }] }];
    proxy.setFault(async (passing) =>
      passing.url.endsWith('/metadata')
        ? answer(200, { resourceType: 'CapabilityStatement', fhirVersion: '4.0.1', rest })
        : passing.forward(),
    );
    expect((await (await adapterOver(proxy.baseUrl)).round()).failed).toBe(0);
    expect(proxy.seen.filter(({ url }) => url.includes('/Flag'))).toEqual([]);
    expect(await search<Flag>(demo.baseUrl, 'Flag')).toEqual([]);
    expect((await openOf(heron)).length).toBeGreaterThan(3);
  });

  it('A17: what the settings leave out is neither asked for nor written, and the rest is', async () => {
    const lacking = new Lacking(['Flag', 'Provenance']);
    const adapter = await adapterOver(proxy.baseUrl, { lacking });
    expect((await adapter.round()).failed).toBe(0);
    expect(proxy.seen.filter(({ url }) => /\/(Flag|Provenance)/.test(url))).toEqual([]);
    expect(await search<Provenance>(demo.baseUrl, 'Provenance')).toEqual([]);
    expect((await openOf(heron)).length).toBeGreaterThan(3);
  });
});

describe('two adapters with two policies', () => {
  it('A11: come to rest with the care that protects most, say so, and go on when one is switched off', async () => {
    await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(wagtail));
    let nowMs = Date.now();
    const machine = {
      now: () => nowMs,
      random: () => 0.5,
      sleep: async () => undefined,
      timeLimit: () => new AbortController().signal,
    };
    const one = await adapterOver(demo.baseUrl, { machine });
    const other = await adapterOver(demo.baseUrl, { machine, policy: ['home-care'] });
    const writes: number[] = [];
    for (let i = 0; i < 10; i++) {
      nowMs += 30_000;
      writes.push(wrote(await one.round()) + wrote(await other.round()));
    }
    expect(writes[1]).toBeGreaterThan(0);
    expect(writes.slice(-3)).toEqual([0, 0, 0]);
    expect([one.counters.policyFights, other.counters.policyFights]).toEqual([1, 1]);
    const issues = await search<DetectedIssue>(demo.baseUrl, `DetectedIssue?patient=Patient/${wagtail}`);
    const said = issues.filter(({ code }) => code!.coding![0]!.code === 'two-policies');
    expect(said.map(({ status, severity }) => [status, severity])).toEqual([['final', 'high']]);
    expect(said[0]!.detail).toContain('home-care');
    // Whatever either asks for is asked for.
    const alone = await startDemoServer();
    try {
      await loadBundle(new FhirServer({ baseUrl: alone.baseUrl }), unitOf(wagtail));
      await (await adapterOver(alone.baseUrl)).round();
      const wanted = await search<Task>(
        alone.baseUrl,
        `Task?patient=Patient/${wagtail}&status=requested&_count=1000`,
      );
      const open = await openOf(wagtail);
      expectOnce(open);
      const dueOf = new Map(
        open.map((task) => [asks([task])[0], Date.parse(task.restriction!.period!.end!)]),
      );
      for (const task of wanted)
        expect(dueOf.get(asks([task])[0])).toBeLessThanOrEqual(Date.parse(task.restriction!.period!.end!));
      // The other is switched off: after an hour without a sign of it what it wrote is put right.
      nowMs += 2 * 3_600_000;
      await one.round();
      const left = await openOf(wagtail);
      expect(asks(left).sort()).toEqual(asks(wanted).sort());
      expect(wrote(await one.round())).toBe(0);
    } finally {
      await alone.close();
    }
  });
});

it('A9: a server that takes few entries at once never has a Task closed without the one that follows it', async () => {
  await round();
  const [task] = (await openOf(heron)).filter((one) => activityOf(one) === 'dressing-change');
  const [before] = await search<Procedure>(demo.baseUrl, `Procedure?patient=Patient/${heron}&_count=1`);
  const charted: Procedure = {
    ...before!,
    id: 'charted-now',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: 'dressing-change' }] },
    focalDevice: [{ manipulated: { reference: task!.focus!.reference! } }],
    performedDateTime: demoInstant,
  };
  Reflect.deleteProperty(charted, 'performedPeriod');
  await put(charted);
  // It refuses whatever creates a Task, and more than two entries at once.
  const outcome = { resourceType: 'OperationOutcome', issue: [{ severity: 'error', code: 'too-costly' }] };
  proxy.setFault(async (passing) => {
    if (passing.method !== 'POST') return passing.forward();
    const entries = (JSON.parse(passing.body) as Bundle).entry ?? [];
    const creates = entries.some(({ request }) => request?.url === 'Task' && request.method === 'POST');
    if (creates)
      return answer(422, {
        resourceType: 'OperationOutcome',
        issue: [{ severity: 'error', code: 'invalid' }],
      });
    return entries.length > 2 ? answer(413, outcome) : passing.forward();
  });
  await (await adapterOver(proxy.baseUrl)).round();
  expect((await search<Task>(demo.baseUrl, `Task?_id=${task!.id}`))[0]!.status).toBe('requested');
  proxy.setFault((passing) => passing.forward());
  expect((await (await adapterOver(proxy.baseUrl)).round()).failed).toBe(0);
  expect((await search<Task>(demo.baseUrl, `Task?_id=${task!.id}`))[0]!.status).toBe('completed');
});
