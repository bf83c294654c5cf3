import { codeSystem, identifierSystem } from '@dwellward/profiles';
import type { Bundle, Resource, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { Brake } from './brake.js';
import type { Slice } from './care.js';

const task = (id: string, more: Partial<Task> = {}): Task => ({
  resourceType: 'Task',
  id,
  identifier: [{ system: identifierSystem.dueItem, value: id }],
  status: 'requested',
  intent: 'plan',
  focus: { reference: 'Device/line' },
  ...more,
});
const some = (type: string, count = 1) =>
  Array.from({ length: count }, (_, n) => ({ resource: { resourceType: type, id: `${n}` } as Resource }));
const whole = [...some('Device'), ...some('Procedure', 3)];
const ids = (patient: string, count: number) => Array.from({ length: count }, (_, n) => `${patient}-${n}`);
const slice = (patient: string, tasks: readonly string[], more: Partial<Slice> = {}): Slice => ({
  patient: `Patient/${patient}`,
  record: whole,
  existing: tasks.map((id) => task(id)),
  ...more,
});
const closing = (tasks: readonly string[], reason = 'no-longer-asked-for'): Bundle => ({
  resourceType: 'Bundle',
  type: 'transaction',
  entry: tasks.map((id) => ({
    resource: task(id, {
      status: 'cancelled',
      statusReason: { coding: [{ system: codeSystem.closingReason, code: reason }] },
    }),
    request: { method: 'PUT', url: `Task/${id}` },
  })),
});
/** A unit of ten patients with ten open Tasks each, of whom some have so many closed. */
const round = (brake: Brake, closings: Readonly<Record<string, number>>, more: Partial<Slice> = {}) => {
  brake.begin();
  for (let n = 0; n < 10; n++) {
    const patient = `p${n}`;
    const tasks = ids(patient, 10);
    const count = closings[patient] ?? 0;
    const bundle = count === 0 ? undefined : closing(tasks.slice(0, count));
    brake.review(slice(patient, tasks, count === 0 ? {} : more), bundle, false);
  }
  return brake.decide();
};
const brakeOf = (accepted: string[] = [], word = false) => new Brake(accepted, word);

describe('a fifth of the unit’s open Tasks', () => {
  it('may be closed in one round, one more may not', () => {
    expect(round(brakeOf(), { p1: 10, p2: 10 })).toEqual(['p1', 'p2']);
    const brake = brakeOf();
    expect(round(brake, { p1: 10, p2: 10, p3: 1 })).toEqual([]);
    expect(brake.held.map(({ because, needsWord }) => [because, needsWord])).toEqual(
      Array.from({ length: 3 }, () => ['mass-closing', false]),
    );
  });

  it('is counted without the closings that the record shows a reason for', () => {
    const brake = brakeOf();
    const tasks = ids('p', 10);
    for (const reason of ['line-removed', 'line-inserted', 'plan-withdrawn', 'duplicate'])
      expect(brake.review(slice('p', tasks), closing(tasks, reason), false).aside).toBe(false);
    for (const reason of ['no-longer-asked-for', 'event-corrected'])
      expect(brake.review(slice('p', tasks), closing(tasks, reason), false).aside).toBe(true);
  });

  it('is settled by a later look that asks for the same or for less, not by one that asks for more', () => {
    const closings = { p1: 10, p2: 10, p3: 5 };
    const same = brakeOf();
    round(same, closings);
    expect(round(same, { ...closings, p3: 4 })).toEqual(['p1', 'p2', 'p3']);
    expect(same.held).toEqual([]);
    const other = brakeOf();
    round(other, closings);
    expect(round(other, { ...closings, p3: 9 })).toEqual(['p1', 'p2']);
    expect(other.waiting).toEqual(['p3']);
  });

  it('is no mass where a person has said so', () => {
    const brake = brakeOf([], true);
    expect(brake.review(slice('p', ids('p', 9)), closing(ids('p', 9)), false)).toMatchObject({
      aside: false,
    });
  });
});

describe('an incomplete reading', () => {
  const doubt = {
    code: 'fewer-than-total',
    resourceType: 'Observation',
    detail: 'Nine named, two given.',
  } as const;
  const doubtful = (code: 'fewer-than-total' | 'hint' = 'fewer-than-total') =>
    slice('p', ids('p', 3), { doubts: [{ ...doubt, code }] });
  const mixed: Bundle = {
    ...closing(['p-1']),
    entry: [
      ...closing(['p-1']).entry!,
      { resource: task('new'), request: { method: 'POST', url: 'Task', ifNoneExist: 'identifier=x' } },
      { resource: task('p-2', { status: 'completed' }), request: { method: 'PUT', url: 'Task/p-2' } },
    ],
  };
  const urls = (bundle: Bundle | undefined) => bundle?.entry?.map(({ request }) => request!.url);

  it('closes nothing, even with a person’s word for mass closings, and writes all else', () => {
    const brake = brakeOf([], true);
    expect(urls(brake.review(doubtful(), mixed, true).bundle)).toEqual(['Task', 'Task/p-2']);
    expect(brake.held).toMatchObject([{ because: 'incomplete-reading', closings: 1, needsWord: true }]);
    brake.review(slice('p', ids('p', 3)), undefined, false);
    expect(brake.held).toEqual([]);
  });

  it('is none where the server is known to leave something out of this type, or gives only a hint', () => {
    expect(urls(brakeOf(['Observation']).review(doubtful(), mixed, true).bundle)).toHaveLength(3);
    expect(urls(brakeOf().review(doubtful('hint'), mixed, true).bundle)).toHaveLength(3);
  });
});

describe('an emptied record', () => {
  it('needs a person’s word only where nobody’s record has that type any more', () => {
    const one = brakeOf();
    round(one, {});
    expect(round(one, { p1: 2 }, { record: some('Device') })).toEqual([]);
    expect(one.held).toMatchObject([{ because: 'emptied-record', needsWord: false }]);

    const all = brakeOf();
    round(all, {});
    const everybody = Object.fromEntries(Array.from({ length: 10 }, (_, n) => [`p${n}`, 2]));
    for (let look = 0; look < 3; look++)
      expect(round(all, everybody, { record: some('Device') })).toEqual([]);
    expect(all.held.every(({ needsWord }) => needsWord)).toBe(true);
  });

  it('is known from our own Tasks right after a start', () => {
    const brake = brakeOf();
    brake.begin();
    brake.review(slice('p', ids('p', 2), { record: some('Procedure') }), closing(ids('p', 2)), false);
    expect(brake.decide()).toEqual([]);
    expect(brake.held).toMatchObject([{ because: 'emptied-record', needsWord: true }]);
  });

  it('is no question of a Device that is known to be gone', () => {
    const gone = slice('p', ids('p', 2), { record: [], elsewhere: new Set(['Device/line']) });
    expect(brakeOf().review(gone, closing(ids('p', 2)), false).aside).toBe(false);
  });
});
