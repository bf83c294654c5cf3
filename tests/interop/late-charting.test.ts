// Care charted late, and charted twice, against the router of @medplum/fhir-router, raw and within the demo server: the
// Task that was open is closed by it, and the next has the period that counts from when it was done. A transparent
// dressing every 7 days: CDC 2011 and INS 2021, from memory; ten minutes: common practice, no source.
import { dueCareBy, FhirServer, loadPolicy, Poller } from '@dwellward/adapter';
import { startDemoServer, startRawServer } from '@dwellward/demo-server';
import type { DetectedIssue, Task } from 'fhir/r4.js';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { base, demoZone, hurried, search, send, wrote } from './support.js';

const coded = (system: string, code: string) => ({
  coding: [{ system: `${base}/CodeSystem/${system}`, code }],
});
const subject = { reference: 'Patient/sorrel' };
const line = {
  resourceType: 'Device',
  id: 'sorrel-line',
  status: 'active',
  type: coded('line-type', 'nontunneled-cvc'),
  patient: subject,
};
const event = (id: string, activity: string, at: string, more: object = {}) => ({
  resourceType: 'Procedure',
  id,
  status: 'completed',
  code: coded('line-care-activity', activity),
  subject,
  performedDateTime: at,
  focalDevice: [{ manipulated: { reference: 'Device/sorrel-line' } }],
  ...more,
});
const changed = (id: string, at: string, more: object = {}) =>
  event(id, 'dressing-change', at, { usedCode: [coded('dressing-type', 'transparent-dressing')], ...more });

const last = changed('last', '2026-11-18T09:00:00+01:00');
const late = changed('late', '2026-11-25T08:30:00+01:00');
const again = changed('again', '2026-11-25T08:36:00+01:00');
const beforeCharting = '2026-11-25T12:00:00+01:00';
const afterCharting = '2026-11-25T13:05:00+01:00';

describe.each([
  ['the raw router', startRawServer],
  ['the demo server', startDemoServer],
] as const)('against %s', (_, start) => {
  let running: Awaited<ReturnType<typeof startRawServer>>;
  beforeEach(async () => {
    running = await start();
    await put({ resourceType: 'Patient', id: 'sorrel' });
    await put(line);
    await put(event('in', 'insertion', '2026-11-10T10:00:00+01:00'));
    await put(last);
    await roundAt(beforeCharting);
  });
  afterEach(() => running.close());

  const put = async (resource: { resourceType: string; id: string; status?: string }) =>
    expect(
      await send(running.baseUrl, 'PUT', `${resource.resourceType}/${resource.id}`, resource),
    ).toBeLessThan(300);
  const roundAt = async (asOf: string) => {
    const poller = new Poller({
      server: new FhirServer({ baseUrl: running.baseUrl, machine: hurried }),
      care: dueCareBy(await loadPolicy(['base']), demoZone),
      machine: hurried,
      log: pino({ level: 'silent' }),
      asOf: () => asOf,
      fullEvery: 1,
      overlapMs: 60_000,
      patientsAtOnce: 1,
      maxEntries: 500,
    });
    const round = await poller.round();
    expect(round.failed).toBe(0);
    return wrote(round);
  };
  const dressings = (status: string) =>
    search<Task>(
      running.baseUrl,
      `Task?patient=Patient/sorrel&status=${status}&code=${base}/CodeSystem/line-care-activity|dressing-change`,
    );
  /** The one open Task, and the end of its period as an instant. */
  const open = async () => {
    const tasks = await dressings('requested');
    expect(tasks).toHaveLength(1);
    return { id: tasks[0]!.id, end: new Date(tasks[0]!.restriction!.period!.end!).toISOString() };
  };
  const chartedTwice = async () =>
    (await search<DetectedIssue>(running.baseUrl, 'DetectedIssue?patient=Patient/sorrel')).filter(
      ({ code }) => code?.coding?.some((one) => one.code === 'charted-twice'),
    );

  it('an event charted hours later closes the Task that was open, and the next counts from when it was done', async () => {
    const before = await open();
    expect(before.end).toBe('2026-11-25T08:00:00.000Z');

    await put(late);
    await roundAt(afterCharting);
    const completed = await dressings('completed');
    expect(completed.map(({ id }) => id)).toEqual([before.id]);
    expect(JSON.stringify(completed[0]!.output)).toContain('Procedure/late');
    const next = await open();
    expect(next.id).not.toBe(before.id);
    // Seven days from 08:30, not from when it was charted.
    expect(next.end).toBe('2026-12-02T07:30:00.000Z');
    expect(await roundAt(afterCharting)).toBe(0);
  });

  it('an event charted late, but done before the last one on record, moves no Task', async () => {
    const before = await open();
    await put(changed('older', '2026-11-17T20:00:00+01:00'));
    await roundAt(afterCharting);
    expect(await open()).toEqual(before);
    expect(await dressings('completed')).toEqual([]);
  });

  it('the same event charted again within ten minutes closes nothing more, and is reported', async () => {
    const before = await open();
    await put(late);
    await roundAt(afterCharting);
    const next = await open();
    await put(again);
    await roundAt(afterCharting);
    expect((await dressings('completed')).map(({ id }) => id)).toEqual([before.id]);
    expect(await open()).toEqual(next);
    expect(await chartedTwice()).toHaveLength(1);
    expect(await roundAt(afterCharting)).toBe(0);
  });

  it('one of the two entered in error leaves the other, and one Task that counts from it', async () => {
    const before = await open();
    await put(late);
    await put(again);
    await roundAt(afterCharting);
    await put({ ...late, status: 'entered-in-error' });
    await roundAt(afterCharting);
    expect((await open()).end).toBe('2026-12-02T07:36:00.000Z');
    expect((await dressings('completed')).map(({ id }) => id)).toEqual([before.id]);
    expect(await roundAt(afterCharting)).toBe(0);
  });

  it('both entered in error leave the dressing as it was: to be changed by the time it was due', async () => {
    const before = await open();
    await put(late);
    await put(again);
    await roundAt(afterCharting);
    await put({ ...late, status: 'entered-in-error' });
    await put({ ...again, status: 'entered-in-error' });
    await roundAt(afterCharting);
    expect((await open()).end).toBe(before.end);
    expect(await roundAt(afterCharting)).toBe(0);
  });
});
