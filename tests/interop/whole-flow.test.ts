// The whole flow against a FHIR server that nobody here wrote: the router of @medplum/fhir-router 5.2.13. Raw, without
// anything of ours around it, and within the demo server. A part of the unit because raw it gives one page per search;
// then the whole unit on the demo server.
import { loadBundle, startDemoServer, startRawServer } from '@dwellward/demo-server';
import type { DetectedIssue, Flag, Provenance, Task } from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  adapterOver,
  base,
  demoUpdateInstant,
  doubled,
  search,
  send,
  unitOf,
  updateOf,
  wrote,
} from './support.js';
import { FhirServer } from '@dwellward/adapter';

const dueItem = `${base}/due-item`;
const activity = `${base}/CodeSystem/line-care-activity`;
const some = ['hemlock-heron', 'buckthorn-bittern', 'hornbeam-curlew', 'cypress-corncrake'];

describe.each([
  ['the raw router', startRawServer, some],
  ['the demo server', startDemoServer, some],
] as const)('against %s', (_, start, patients) => {
  let running: Awaited<ReturnType<typeof startRawServer>>;
  let baseUrl: string;
  beforeEach(async () => {
    running = await start();
    baseUrl = running.baseUrl;
    await loadBundle(new FhirServer({ baseUrl }), unitOf(...patients));
  });
  afterEach(() => running.close());

  it('Tasks are read back by identifier, patient, code and status', async () => {
    const round = await (await adapterOver(baseUrl)).round();
    expect(round.failed).toBe(0);
    const open = await search<Task>(baseUrl, 'Task?status=requested');
    expect(open.length).toBeGreaterThan(20);
    expect(round.written.created).toBeGreaterThanOrEqual(open.length);

    const hers = await search<Task>(baseUrl, 'Task?patient=Patient/hemlock-heron');
    expect(hers.length).toBeGreaterThan(3);
    expect(hers.map((task) => task.for!.reference)).toEqual(hers.map(() => 'Patient/hemlock-heron'));

    const [dressing, ...others] = await search<Task>(
      baseUrl,
      `Task?patient=hemlock-heron&status=requested&code=${activity}|dressing-change`,
    );
    expect(others).toEqual([]);
    expect(dressing).toMatchObject({ intent: 'plan', focus: { reference: 'Device/hemlock-tunneled' } });

    const { value } = dressing!.identifier!.find(({ system }) => system === dueItem)!;
    const same = await search<Task>(baseUrl, `Task?identifier=${dueItem}|${value}`);
    expect(same.map(({ id }) => id)).toEqual([dressing!.id]);
  });

  it('Flags, DetectedIssues and Provenance are there and lead to what they are about', async () => {
    await (await adapterOver(baseUrl)).round();
    const [flag] = await search<Flag>(baseUrl, 'Flag?patient=Patient/hornbeam-curlew');
    expect(flag).toMatchObject({ status: 'active', subject: { reference: 'Patient/hornbeam-curlew' } });
    const issues = await search<DetectedIssue>(baseUrl, 'DetectedIssue?patient=Patient/cypress-corncrake');
    expect(issues.flatMap(({ code }) => code!.coding!.map((one) => one.code))).toContain('no-insertion');
    const tasks = new Set((await search<Task>(baseUrl, 'Task')).map(({ id }) => `Task/${id}`));
    const targets = (await search<Provenance>(baseUrl, 'Provenance')).flatMap(({ target }) => target);
    expect(targets.length).toBe(tasks.size);
    expect(targets.filter(({ reference }) => !tasks.has(reference!))).toEqual([]);
  });

  it('a second run writes nothing', async () => {
    expect(wrote(await (await adapterOver(baseUrl)).round())).toBeGreaterThan(0);
    const second = await (await adapterOver(baseUrl)).round();
    expect(second.written).toMatchObject({ created: 0, updated: 0, deleted: 0, found: 0, transactions: 0 });
  });

  it('a low count moves the Task, a dressing change completes it and opens the next, and then nothing more', async () => {
    await (await adapterOver(baseUrl)).round();
    const dressing = `status=requested&code=${activity}|dressing-change`;
    const [before] = await search<Task>(baseUrl, `Task?patient=hemlock-heron&${dressing}`);
    const [overdue] = await search<Task>(
      baseUrl,
      `Task?patient=buckthorn-bittern&focus=Device/buckthorn-jugular&${dressing}`,
    );

    await loadBundle(new FhirServer({ baseUrl }), updateOf());
    expect((await (await adapterOver(baseUrl, { asOf: demoUpdateInstant })).round()).failed).toBe(0);

    const [moved] = await search<Task>(baseUrl, `Task?patient=hemlock-heron&${dressing}`);
    expect(moved!.id).toBe(before!.id);
    const endOf = (task: Task | undefined) => Date.parse(task!.restriction!.period!.end!);
    expect(endOf(moved)).toBeLessThan(endOf(before));
    expect(JSON.stringify(moved)).toContain('Observation/hemlock-heron-751-8-1125-0740');

    const [done] = await search<Task>(baseUrl, `Task?_id=${overdue!.id}`);
    expect(done!.status).toBe('completed');
    expect(JSON.stringify(done!.output)).toContain('Procedure/buckthorn-jugular-dressing-change-1125-0805');
    const next = await search<Task>(
      baseUrl,
      `Task?patient=buckthorn-bittern&focus=Device/buckthorn-jugular&${dressing}`,
    );
    expect(next).toHaveLength(1);
    expect(endOf(next[0])).toBeGreaterThan(endOf(overdue));

    expect(wrote(await (await adapterOver(baseUrl, { asOf: demoUpdateInstant })).round())).toBe(0);
  });

  it('two adapters at once leave no duplicate, and nothing to write', async () => {
    const pair = [await adapterOver(baseUrl), await adapterOver(baseUrl)];
    const rounds = await Promise.all(pair.map((adapter) => adapter.round()));
    expect(rounds.map(({ failed }) => failed)).toEqual([0, 0]);
    expect(doubled(await search<Task>(baseUrl, 'Task'), dueItem)).toEqual([]);
    expect(doubled(await search<Flag>(baseUrl, 'Flag'), `${base}/hold`)).toEqual([]);
    expect(doubled(await search<DetectedIssue>(baseUrl, 'DetectedIssue'), `${base}/record-issue`)).toEqual(
      [],
    );
    await loadBundle(new FhirServer({ baseUrl }), updateOf());
    const later = [
      await adapterOver(baseUrl, { asOf: demoUpdateInstant }),
      await adapterOver(baseUrl, { asOf: demoUpdateInstant }),
    ];
    expect((await Promise.all(later.map((adapter) => adapter.round()))).map(({ failed }) => failed)).toEqual([
      0, 0,
    ]);
    expect(doubled(await search<Task>(baseUrl, 'Task'), dueItem)).toEqual([]);
    expect(wrote(await later[0]!.round())).toBe(0);
  });

  it('a Task that a nurse has taken or turned down keeps its word', async () => {
    await (await adapterOver(baseUrl)).round();
    const [taken, turnedDown] = await search<Task>(baseUrl, 'Task?patient=hemlock-heron&status=requested');
    const nurse = { reference: 'Practitioner/n1' };
    const accepted = { ...taken!, status: 'accepted', owner: nurse };
    const rejected = { ...turnedDown!, status: 'rejected', statusReason: { text: 'asleep' } };
    expect(await send(baseUrl, 'PUT', `Task/${taken!.id}`, accepted)).toBe(200);
    expect(await send(baseUrl, 'PUT', `Task/${turnedDown!.id}`, rejected)).toBe(200);
    // Only the next one after the one that was turned down, with its Provenance.
    expect((await (await adapterOver(baseUrl)).round()).written).toMatchObject({ created: 2, updated: 0 });
    expect(wrote(await (await adapterOver(baseUrl)).round())).toBe(0);
    expect((await search<Task>(baseUrl, `Task?_id=${taken!.id}`))[0]).toMatchObject({
      status: 'accepted',
      owner: nurse,
    });
    expect((await search<Task>(baseUrl, `Task?_id=${turnedDown!.id}`))[0]).toMatchObject({
      status: 'rejected',
    });
  });

  it('of two Tasks with one identity, as parallel creates leave them on some servers, one is closed', async () => {
    await (await adapterOver(baseUrl)).round();
    const [original] = await search<Task>(baseUrl, 'Task?patient=hemlock-heron&status=requested');
    const { id, meta, ...copy } = original!;
    expect([id, meta?.versionId]).not.toContain(undefined);
    expect(await send(baseUrl, 'POST', 'Task', copy)).toBe(201);
    expect((await (await adapterOver(baseUrl)).round()).failed).toBe(0);
    const value = original!.identifier!.find(({ system }) => system === dueItem)!.value;
    const both = await search<Task>(baseUrl, `Task?identifier=${dueItem}|${value}`);
    expect(both.map(({ status }) => status).sort()).toEqual(['cancelled', 'requested']);
    expect(wrote(await (await adapterOver(baseUrl)).round())).toBe(0);
  });
});

describe('the whole unit on the demo server', () => {
  it('is written by two adapters at once without a duplicate, and then there is nothing to write', async () => {
    const demo = await startDemoServer();
    try {
      await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf());
      const pair = [await adapterOver(demo.baseUrl), await adapterOver(demo.baseUrl)];
      const rounds = await Promise.all(pair.map((adapter) => adapter.round()));
      expect(rounds).toMatchObject([
        { patients: 16, failed: 0 },
        { patients: 16, failed: 0 },
      ]);
      const tasks = await search<Task>(demo.baseUrl, 'Task');
      expect(tasks.length).toBeGreaterThan(100);
      expect(doubled(tasks, dueItem)).toEqual([]);
      const again = await (await adapterOver(demo.baseUrl)).round();
      expect(again.written).toMatchObject({ created: 0, updated: 0, deleted: 0, transactions: 0 });
    } finally {
      await demo.close();
    }
  });
});
