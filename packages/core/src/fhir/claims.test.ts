import type { Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { event, line, patient, policyOf, rule, every, days } from '../record.kit.js';
import {
  done,
  held,
  inserted,
  changed,
  outcome,
  outputOf,
  reasonOf,
  record,
  sync,
  when,
} from './sync.kit.js';

// Whose a Task is: what a person has taken goes with the care, and no care is asked for twice.

const nurse = { status: 'accepted', owner: { display: 'a nurse' } } as const;
const word = { authorString: 'a nurse', text: 'after lunch' };
const stored = (task: Task | undefined, id: string, more: Partial<Task> = {}): Task => ({
  ...task!,
  id,
  meta: { versionId: '1' },
  ...more,
});

describe('a Task of the patient for whom the line was charted', () => {
  const other = [patient({ id: 'q' }), line('tunneled-cvc', { patient: { reference: 'Patient/q' } })];
  const events = [inserted, changed].map((one) => ({ ...one, subject: { reference: 'Patient/q' } }));

  it('A1: has another identity than that of another patient of the same line', () => {
    const mine = outcome(record, []).others[0];
    const theirs = outcome([...other, ...events], []).others[0];
    expect(theirs?.for).toEqual({ reference: 'Patient/q' });
    expect(theirs?.identifier?.[0]?.value).not.toBe(mine?.identifier?.[0]?.value);
  });

  it('A1: written under an identity of another making is taken over and not doubled', () => {
    const old = held({
      identifier: [{ system: held().identifier![0]!.system!, value: 'of an earlier version' }],
    });
    const { t1, others } = outcome(record, [old]);
    expect(t1?.identifier).toEqual(held().identifier);
    expect(others).toEqual([]);
    expect(outcome(record, [stored(t1, 't1')]).written).toEqual([]);
  });

  it('A1: completed under an identity of another making keeps its event', () => {
    const completed = outcome([...record, done], [held()]).t1;
    const identifier = [{ system: held().identifier![0]!.system!, value: 'of an earlier version' }];
    const { t1, others } = outcome([...record, done], [stored(completed, 't1', { identifier })]);
    expect(t1?.status).toBe('completed');
    expect(t1?.identifier).toEqual(held().identifier);
    expect(outputOf(t1)).toEqual(['Procedure/second']);
    expect(others).toHaveLength(1);
  });
});

describe('a Task that a person has taken', () => {
  it('A3: takes the new identity when the event that it counted from is withdrawn', () => {
    const first = outcome([...record, done], [held()]);
    const next = stored(first.others[0], 't2', { ...nurse, note: [...first.others[0]!.note!, word] });
    const wrong = { ...done, status: 'entered-in-error' };
    const after = outcome([...record, wrong], [stored(first.t1, 't1'), next]);
    expect([after.t1?.status, reasonOf(after.t1)]).toEqual(['cancelled', 'event-corrected']);
    expect(after.others).toMatchObject([
      { id: 't2', ...nurse, identifier: held().identifier, restriction: held().restriction },
    ]);
    expect(after.others[0]?.note?.at(-1)).toEqual(word);
    expect(outcome([...record, wrong], [after.t1!, stored(after.others[0], 't2')]).written).toEqual([]);
  });

  it('A3: stays the only one when every event is written anew under another id', () => {
    const again = record.map((one) =>
      one.resourceType === 'Procedure' ? { ...one, id: `new-${one.id}` } : one,
    );
    const { t1, others } = outcome(again, [held(nurse)]);
    expect(others).toEqual([]);
    expect(t1).toMatchObject(nurse);
    expect(t1?.identifier).not.toEqual(held().identifier);
    expect(outcome(again, [stored(t1, 't1')]).written).toEqual([]);
  });

  it('A3: what was completed by an event that is written anew under another id stays completed', () => {
    const completed = outcome([...record, done], [held()]);
    const next = stored(completed.others[0], 't2');
    const again = [...record, done].map((one) =>
      one.resourceType === 'Procedure' ? { ...one, id: `new-${one.id}` } : one,
    );
    const { t1, others } = outcome(again, [stored(completed.t1, 't1'), next]);
    expect(t1?.status).toBe('completed');
    expect(outputOf(t1)).toEqual(['Procedure/new-second']);
    expect(others).toMatchObject([{ id: 't2', status: 'requested' }]);
  });

  it('A3: of two that people have taken the one that is further stands, with the notes of both', () => {
    const both = [
      held({ ...nurse, note: [...held().note!, word] }),
      held({ id: 't2', status: 'in-progress', owner: { display: 'another nurse' } }),
    ];
    const { t1, others } = outcome(record, both);
    expect([t1?.status, reasonOf(t1)]).toEqual(['cancelled', 'duplicate']);
    expect(t1?.note?.at(-1)).toEqual(word);
    expect(others).toMatchObject([{ id: 't2', status: 'in-progress', owner: { display: 'another nurse' } }]);
    expect(others[0]?.note?.at(-1)).toEqual(word);
    expect(sync(record, [stored(t1, 't1'), stored(others[0], 't2')])).toBeUndefined();
  });

  it.each(['accepted', 'in-progress', 'on-hold'] as const)(
    'A3: %s: that nothing asks for any more says so, once, and is left to its taker',
    (status) => {
      const none = policyOf();
      const { t1 } = outcome(record, [held({ ...nurse, status })], when, none);
      expect(t1).toMatchObject({ status, owner: nurse.owner });
      expect(t1?.note?.map(({ text }) => text)).toEqual([expect.stringContaining('No longer asked for')]);
      expect(sync(record, [stored(t1, 't1')], when, none)).toBeUndefined();
      // Asked for again, it says again why.
      const again = outcome(record, [stored(t1, 't1')]).t1;
      expect(again?.note).toEqual(held().note);
      expect(again?.status).toBe(status);
    },
  );

  it('A3: of a line that is out is closed: there is nothing left to do it to', () => {
    const removal = event('removal', '2026-11-25T10:00:00+01:00');
    const { t1 } = outcome([...record, removal], [held(nurse)]);
    expect([t1?.status, reasonOf(t1)]).toEqual(['cancelled', 'line-removed']);
    expect(t1?.owner).toEqual(nurse.owner);
  });
});

describe('the Tasks of a line that is not on record any more', () => {
  const nobody = [patient()];

  it.each(['requested', 'accepted'] as const)('A4: that is %s is closed, with the reason', (status) => {
    const { t1 } = outcome(nobody, [held({ status })]);
    expect([t1?.status, reasonOf(t1)]).toEqual(['cancelled', 'line-not-on-record']);
    expect(sync([], [stored(t1, 't1')])).toBeUndefined();
  });

  it('A4: what was done on it stays done', () => {
    const completed = stored(outcome([...record, done], [held()]).t1, 't1');
    expect(sync(nobody, [completed])).toBeUndefined();
  });

  it('A4: a line that was entered in error is none either', () => {
    const mistaken = [patient(), line('tunneled-cvc', { status: 'entered-in-error' }), inserted, changed];
    const { t1 } = outcome(mistaken, [held(nurse)]);
    expect([t1?.status, reasonOf(t1)]).toEqual(['cancelled', 'line-not-on-record']);
  });
});

describe('a Task that is opened again', () => {
  it('A20: has not ended', () => {
    const begun = held({ executionPeriod: { start: '2026-11-25T08:50:00+01:00' } });
    const completed = stored(outcome([...record, done], [begun]).t1, 't1');
    expect(completed.executionPeriod?.end).toBe('2026-11-25T09:00:00+01:00');
    const wrong = { ...done, status: 'entered-in-error' };
    const { t1 } = outcome([...record, wrong], [completed]);
    expect(t1?.status).toBe('requested');
    expect(t1?.executionPeriod).toEqual({ start: '2026-11-25T08:50:00+01:00' });
    const plain = stored(outcome([...record, done], [held()]).t1, 't1');
    expect(outcome([...record, wrong], [plain]).t1).not.toHaveProperty('executionPeriod');
  });
});

describe('two policies that keep one Task', () => {
  const daily = policyOf(rule('gauze', every(days(1))));
  const other = 'https://test.example/PlanDefinition/other|2';
  const contested = new Set([other]);
  const theirs = (task: Task): Task => ({
    ...task,
    extension: task.extension!.map((one) => (one.valueCanonical ? { ...one, valueCanonical: other } : one)),
  });

  it('A11: the Task says by which plans and versions it was worked out', () => {
    expect(held().extension?.flatMap(({ valueCanonical }) => valueCanonical ?? [])).toEqual([
      'https://test.example/PlanDefinition/test|1',
    ]);
  });

  it('A11: what asks for more is written, what asks for less is not, and an issue says why', () => {
    const earlier = sync(record, [theirs(held())], when, daily, contested)?.entry ?? [];
    expect(earlier.map(({ resource }) => resource?.resourceType)).toEqual([
      'Task',
      'Provenance',
      'DetectedIssue',
    ]);
    const issue = earlier.at(-1)?.resource;
    expect(issue).toMatchObject({ code: { coding: [{ code: 'two-policies' }] }, severity: 'high' });
    const there = [
      { ...theirs(earlier[0]!.resource as Task), id: 't1', meta: { versionId: '5' } },
      { ...issue!, id: 'i', meta: { versionId: '1' } },
    ] as Parameters<typeof sync>[1];
    // The other adapter, which would have it later, or not at all, keeps its hands off.
    const writtenBy = (by: typeof daily) =>
      (sync(record, there, when, by, contested)?.entry ?? []).filter(
        ({ resource }) => resource?.resourceType === 'Task',
      );
    expect(writtenBy(policyOf(rule('gauze', every(days(2)))))).toEqual([]);
    expect(writtenBy(policyOf())).toEqual([]);
  });
});
