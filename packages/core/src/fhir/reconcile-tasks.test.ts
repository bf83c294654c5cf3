import type { FhirResource, Task } from 'fhir/r4.js';
import { codeSystem, identifierSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  berlin,
  days,
  event,
  every,
  finding,
  forbidAfter,
  line,
  lumen,
  onFinding,
  patient,
  policyOf,
  type Resource,
  rule,
} from '../record.kit.js';
import {
  when,
  later,
  inserted,
  changed,
  record,
  done,
  sync,
  tasksOf,
  held,
  metBy,
  closedAs,
  reasonOf,
  outputOf,
  outcome,
} from './sync.kit.js';

// What becomes of a Task, by what it is now and by what the record says.

const codesIn = ({ businessStatus }: Task) =>
  businessStatus?.coding?.filter(({ system }) => system === codeSystem.dueState).map(({ code }) => code);

describe('a Task that is not there yet', () => {
  it('is created as requested, by a condition on its identity, with its Provenance', () => {
    const entries = sync(record, [])?.entry ?? [];
    expect(entries.map(({ resource }) => resource?.resourceType)).toEqual(['Task', 'Provenance']);
    const [task, provenance] = entries;
    expect(task?.resource).toMatchObject({
      status: 'requested',
      intent: 'plan',
      restriction: { period: { start: '2026-11-25T20:00:00+01:00', end: '2026-11-26T08:00:00+01:00' } },
      focus: { reference: 'Device/line' },
      for: { reference: 'Patient/p' },
      authoredOn: when.asOf,
    });
    const identity = (task?.resource as Task).identifier?.[0];
    expect(task?.request?.ifNoneExist).toBe(
      `identifier=${encodeURIComponent(`${identity?.system}|${identity?.value}`)}`,
    );
    expect(provenance?.resource).toMatchObject({ target: [{ reference: task?.fullUrl }] });
  });
});

describe('a Task whose care is still open', () => {
  it.each(['requested', 'draft', 'received', 'accepted', 'ready', 'in-progress', 'on-hold'] as const)(
    'that is %s and says what it should is left alone',
    (status) => {
      expect(sync(record, [held({ status })])).toBeUndefined();
    },
  );

  it.each(['requested', 'draft', 'received', 'accepted', 'ready', 'in-progress', 'on-hold'] as const)(
    'A19: that is %s says a day later that it is overdue, and nothing else',
    (status) => {
      const task = held({ status });
      expect(codesIn(task)).toEqual(['upcoming']);
      const entries = sync(record, [task], later)?.entry ?? [];
      expect(entries.map(({ resource }) => resource?.resourceType)).toEqual(['Task']);
      const next = entries[0]?.resource as Task;
      expect(codesIn(next)).toEqual(['overdue']);
      expect({ ...next, businessStatus: 0, lastModified: 0 }).toEqual({
        ...task,
        businessStatus: 0,
        lastModified: 0,
      });
      expect(sync(record, [next], later)).toBeUndefined();
    },
  );

  it('A19: says when it may be done', () => {
    const opened = berlin('2026-11-25T21:00:00+01:00');
    expect(codesIn(tasksOf(record, [held()], opened)[0]!.task)).toEqual(['due']);
  });

  it('A19: keeps what the hospital’s own steps of work say of it', () => {
    const businessStatus = { coding: [{ system: 'https://hospital.example/steps', code: 'asked-for-help' }] };
    expect(sync(record, [held({ businessStatus })], later)).toBeUndefined();
  });

  it('A19: says where the patient is, and goes along to the next bed', () => {
    const bed = (id: string) => ({
      resourceType: 'Location' as const,
      id,
      physicalType: {
        coding: [{ system: 'http://terminology.hl7.org/CodeSystem/location-physical-type', code: 'bd' }],
      },
      name: id,
    });
    const stay = (id: string) => ({
      resourceType: 'Encounter' as const,
      id: 'stay',
      status: 'in-progress' as const,
      class: { code: 'IMP' },
      subject: { reference: 'Patient/p' },
      location: [{ location: { reference: `Location/${id}` } }],
    });
    const beds = [bed('bed-1'), bed('bed-2')];
    const [first] = tasksOf([...record, ...beds, stay('bed-1')], []);
    expect(first?.task.location).toEqual({ reference: 'Location/bed-1' });
    const standing = { ...first!.task, id: 't1', priority: 'urgent' as const };
    const [moved] = tasksOf([...record, ...beds, stay('bed-2')], [standing]);
    expect(moved?.task).toEqual({ ...standing, location: { reference: 'Location/bed-2' } });
    // Nobody says where the patient is: the last place that was known stands.
    expect(tasksOf(record, [standing])).toEqual([]);
  });

  it.each(['requested', 'accepted', 'in-progress', 'on-hold'] as const)(
    'that is %s keeps its status, owner and notes when its window moves, by the version it has',
    (status) => {
      const daily = policyOf(rule('gauze', every(days(1))));
      const mine: Partial<Task> = {
        status,
        owner: { display: 'a nurse' },
        note: [...(held().note ?? []), { authorString: 'a nurse', text: 'after lunch' }],
      };
      const { t1, written } = outcome(record, [held(mine)], when, daily);
      expect(t1).toMatchObject({
        status,
        owner: { display: 'a nurse' },
        restriction: { period: { end: '2026-11-25T08:00:00+01:00' } },
        lastModified: when.asOf,
        authoredOn: when.asOf,
      });
      expect(t1?.note?.map(({ text }) => text).at(-1)).toBe('after lunch');
      expect(t1?.note).toHaveLength(2);
      expect(written[0]?.request).toEqual({ method: 'PUT', url: 'Task/t1', ifMatch: 'W/"4"' });
    },
  );

  it.each(['completed', 'rejected', 'cancelled', 'failed', 'entered-in-error'] as const)(
    'that a person made %s keeps that word, also when its window moves',
    (status) => {
      const daily = policyOf(rule('gauze', every(days(1))));
      const reasoned = held({ status, statusReason: { text: 'patient away' } });
      expect(outcome(record, [held({ status })]).t1).toBeUndefined();
      expect(outcome(record, [held({ status })], when, daily).t1).toBeUndefined();
      expect(outcome(record, [reasoned], later).t1).toBeUndefined();
    },
  );

  it.each([
    ['completed here by an event that no longer counts', metBy('Procedure/second')],
    ['cancelled here', closedAs('no-longer-asked-for')],
    ['cancelled here for a removal that was an error', closedAs('line-removed')],
  ])('that was %s is opened again', (_, closed) => {
    const { t1, others } = outcome(record, [held(closed)]);
    expect(t1?.status).toBe('requested');
    expect(t1).not.toHaveProperty('statusReason');
    expect(t1).not.toHaveProperty('output');
    expect(others).toEqual([]);
  });
});

describe('a Task whose care was done', () => {
  it.each(['requested', 'accepted', 'in-progress', 'on-hold'] as const)(
    'that was %s is completed by the event, and the next one is created',
    (status) => {
      const { t1, others } = outcome([...record, done], [held({ status, owner: { display: 'a nurse' } })]);
      expect(t1).toMatchObject({
        status: 'completed',
        owner: { display: 'a nurse' },
        executionPeriod: { end: '2026-11-25T09:00:00+01:00' },
      });
      expect(outputOf(t1)).toEqual(['Procedure/second']);
      expect(others).toHaveLength(1);
      expect(others[0]).toMatchObject({
        status: 'requested',
        restriction: { period: { end: '2026-11-27T09:00:00+01:00' } },
      });
      expect(others[0]?.identifier).not.toEqual(t1?.identifier);
    },
  );

  it.each(['completed', 'rejected', 'cancelled', 'failed'] as const)(
    'that a person made %s keeps that word; the next one is created',
    (status) => {
      const { t1, others } = outcome([...record, done], [held({ status })]);
      expect(t1).toBeUndefined();
      expect(others.map((task) => task.status)).toEqual(['requested']);
    },
  );

  it('and is completed here already is left alone', () => {
    const first = outcome([...record, done], [held()]);
    const server = [first.t1!, { ...first.others[0]!, id: 't2', meta: { versionId: '1' } }];
    expect(sync([...record, done], server)).toBeUndefined();
  });

  it('and was cancelled here is completed after all', () => {
    const { t1 } = outcome([...record, done], [held(closedAs('no-longer-asked-for'))]);
    expect(t1?.status).toBe('completed');
    expect(outputOf(t1)).toEqual(['Procedure/second']);
    expect(t1).not.toHaveProperty('statusReason');
  });
});

describe('a Task whose event is corrected', () => {
  const wrong = { ...done, status: 'entered-in-error' };

  it('is opened again, and the one that counted from the error is cancelled', () => {
    const first = outcome([...record, done], [held()]);
    const next: Task = { ...first.others[0]!, id: 't2', meta: { versionId: '1' } };
    const after = outcome([...record, wrong], [first.t1!, next]);
    expect(after.t1?.status).toBe('requested');
    expect(after.others).toMatchObject([{ id: 't2', status: 'cancelled' }]);
    expect(reasonOf(after.others[0])).toBe('event-corrected');
  });

  it('so that a new time moves it is met by the event at its new time', () => {
    const first = outcome([...record, done], [held()]);
    const next: Task = { ...first.others[0]!, id: 't2', meta: { versionId: '1' } };
    const moved = { ...done, performedDateTime: '2026-11-25T10:30:00+01:00' };
    const after = outcome([...record, moved], [first.t1!, next]);
    expect(after.t1).toMatchObject({
      status: 'completed',
      executionPeriod: { end: '2026-11-25T10:30:00+01:00' },
    });
    expect(after.others).toMatchObject([
      { id: 't2', status: 'requested', restriction: { period: { end: '2026-11-27T10:30:00+01:00' } } },
    ]);
  });
});

describe('an event that is charted late', () => {
  it('meets the Task that counted from the event before it, and the later one stands', () => {
    const early = event('dressing-change', '2026-11-24T20:00:00+01:00', { id: 'late-charted' });
    const first = outcome([...record, done], [held()]);
    const next: Task = { ...first.others[0]!, id: 't2', meta: { versionId: '1' } };
    const after = outcome([...record, early, done], [first.t1!, next]);
    expect(after.t1?.status).toBe('completed');
    expect(outputOf(after.t1)).toEqual(['Procedure/late-charted']);
    expect(after.others).toEqual([]);
  });
});

describe('an event that is charted twice', () => {
  // `a` comes before `first` and `second` by its text, so the pair takes its name whichever was charted first.
  const twinOf = (one: Resource, performedDateTime: string): Resource => ({
    ...one,
    id: 'a',
    performedDateTime,
  });

  it('starts no new Task: the one that counts from either record stands', () => {
    const twin = twinOf(changed, '2026-11-24T08:05:00+01:00');
    const open = held();
    const { t1, others } = outcome([...record, twin], [open]);
    expect(others).toEqual([]);
    expect(t1 === undefined || (t1.status === 'requested' && t1.id === 't1')).toBe(true);
    const fromTwin = held({}, [patient(), line(), inserted, twin]);
    expect(outcome([...record, twin], [fromTwin]).others).toEqual([]);
  });

  it('leaves a Task that the other record completed as it stands', () => {
    const completed = outcome([...record, done], [held()]).t1!;
    const next = outcome([...record, done], [completed]).others[0]!;
    const stored = [
      { ...completed, id: 't1' },
      { ...next, id: 't2' },
    ];
    const { written } = outcome([...record, done, twinOf(done, '2026-11-25T09:06:00+01:00')], stored);
    expect(written.filter(({ task }) => task.id === 't1')).toEqual([]);
    expect(written.filter(({ task }) => task.id === undefined)).toEqual([]);
  });
});

describe('a Task that nothing asks for any more', () => {
  const none = policyOf();

  it.each(['requested', 'draft'] as const)('and that is %s is cancelled with the reason', (status) => {
    const { t1 } = outcome(record, [held({ status })], when, none);
    expect(t1?.status).toBe('cancelled');
    expect(reasonOf(t1)).toBe('no-longer-asked-for');
  });

  it.each(['completed', 'rejected', 'cancelled', 'failed'] as const)(
    'and that a person made %s is left alone',
    (status) => {
      expect(sync(record, [held({ status })], when, none)).toBeUndefined();
    },
  );

  it('of the incision says so although the same is still asked for at the exit site', () => {
    const incision = rule('incision', every(days(1)), { scope: 'incision' });
    const tasks = tasksOf(record, [], when, policyOf(rule('gauze', every(days(2))), incision));
    const stored = tasks.map(({ task }, i): Task => ({ ...task, id: `t${i}`, meta: { versionId: '1' } }));
    const written = tasksOf(record, stored, when);
    expect(written.map(({ task }) => [task.description, task.status, reasonOf(task)])).toEqual([
      [expect.stringContaining('the vein incision'), 'cancelled', 'no-longer-asked-for'],
    ]);
  });

  it('because the line was removed says so of the Task of a lumen, on which nothing was ever done', () => {
    const flush = policyOf(rule('flush', every(days(1)), { activity: 'flush', scope: 'lumen' }));
    const resources = [patient(), line(), lumen('a'), inserted];
    const [created] = tasksOf(resources, [], when, flush);
    const task: Task = { ...created!.task, id: 't1', meta: { versionId: '1' } };
    expect(task.focus?.reference).toBe('Device/a');
    const { t1 } = outcome(
      [...resources, event('removal', '2026-11-25T10:00:00+01:00')],
      [task],
      when,
      flush,
    );
    expect(reasonOf(t1)).toBe('line-removed');
  });

  it('because the line was removed says so', () => {
    const removal = event('removal', '2026-11-25T10:00:00+01:00');
    const { t1, others } = outcome([...record, removal], [held()]);
    expect(t1?.status).toBe('cancelled');
    expect(reasonOf(t1)).toBe('line-removed');
    expect(others).toEqual([]);
  });

  it('is opened again when the removal turns out to be an error', () => {
    const removal = event('removal', '2026-11-25T10:00:00+01:00');
    const { t1 } = outcome([...record, removal], [held()]);
    const again = outcome([...record, { ...removal, status: 'entered-in-error' }], [t1!]);
    expect(again.t1?.status).toBe('requested');
  });
});

describe('two Tasks of one identity', () => {
  it('become one: the taken one stands, the other is cancelled as a duplicate', () => {
    const taken = held({ id: 't2', status: 'accepted' });
    const { t1, others } = outcome(record, [held(), taken]);
    expect(t1?.status).toBe('cancelled');
    expect(reasonOf(t1)).toBe('duplicate');
    expect(others).toEqual([]);
  });

  it('that are both untaken become one, the same whichever comes first', () => {
    const twin = held({ id: 't2' });
    for (const both of [
      [held(), twin],
      [twin, held()],
    ]) {
      const { t1, others } = outcome(record, both);
      expect(t1).toBeUndefined();
      expect(others).toMatchObject([{ id: 't2', status: 'cancelled' }]);
      expect(reasonOf(others[0])).toBe('duplicate');
    }
  });

  it('of which one is closed as a duplicate stay as they are', () => {
    expect(sync(record, [held(), held({ id: 't2', ...closedAs('duplicate') })])).toBeUndefined();
  });
});

describe('a Task with nothing to count from', () => {
  const bare = [patient(), line()];

  it('is due when it is first looked at, and stays so', () => {
    const task = held({}, bare);
    expect(task.restriction?.period?.end).toBe(when.asOf);
    const { t1 } = outcome(bare, [task], later);
    expect(t1).toBeUndefined();
  });
});

describe('Tasks of others', () => {
  it('without our identity are left alone', () => {
    const foreign: Task = {
      resourceType: 'Task',
      id: 'x',
      status: 'requested',
      intent: 'order',
      identifier: [{ system: 'https://other.example', value: '1' }],
    };
    const written = sync(record, [held(), foreign]);
    expect(written).toBeUndefined();
  });
});

describe('a hold and an issue', () => {
  const holding = policyOf(
    rule('gauze', every(days(2))),
    rule('no-bath', forbidAfter('repair', { value: 2, unit: 'h' }), { activity: 'bath', scope: 'line' }),
  );
  const repaired = event('repair', '2026-11-25T11:00:00+01:00');
  const lost = event('flush', '2026-11-25T10:00:00+01:00', { id: 'lost', focalDevice: [] });
  const write = (resources: readonly Resource[], existing: readonly FhirResource[], at = when) =>
    sync(resources, existing, at, holding)?.entry ?? [];
  const stored = (entries: ReturnType<typeof write>): FhirResource[] =>
    entries.flatMap(({ resource }, i) =>
      resource && resource.resourceType !== 'Provenance'
        ? [{ ...resource, id: `s${i}`, meta: { versionId: '1' } } as FhirResource]
        : [],
    );

  it('are written as a Flag and a DetectedIssue, stand while they last, and are closed after', () => {
    const first = write([...record, repaired, lost], []);
    expect(first.map(({ resource }) => resource?.resourceType)).toEqual([
      'Task',
      'Provenance',
      'Flag',
      'DetectedIssue',
    ]);
    const server = stored(first);
    expect(write([...record, repaired, lost], server)).toEqual([]);
    const after = write([...record, repaired], server, berlin('2026-11-25T13:00:00+01:00'));
    expect(
      after.map(({ resource, request }) => [
        request?.method,
        resource?.resourceType,
        (resource as Task).status,
      ]),
    ).toEqual([
      ['PUT', 'Flag', 'inactive'],
      ['PUT', 'DetectedIssue', 'cancelled'],
    ]);
    expect(after[0]?.resource).toMatchObject({
      period: { start: '2026-11-25T11:00:00+01:00', end: '2026-11-25T13:00:00+01:00' },
    });
  });

  it('come back when they hold again, as the same resources', () => {
    const server = stored(write([...record, repaired, lost], []));
    const closed = stored(write([...record], server)).map(
      (one, i) => ({ ...one, id: ['s2', 's3'][i] }) as FhirResource,
    );
    const again = write([...record, repaired, lost], [server[0]!, ...closed]);
    expect(again.map(({ resource }) => [(resource as Task).id, (resource as Task).status])).toEqual([
      ['s2', 'active'],
      ['s3', 'final'],
    ]);
  });
});

describe('a finding that moves a Task', () => {
  it('updates the same Task, with the finding as its reason, and is met with it', () => {
    const damp = rule('damp', onFinding('dressing-condition', ['damp']));
    const by = policyOf(rule('gauze', every(days(2))), damp);
    const seen = finding('dressing-condition', 'damp', '2026-11-25T08:30:00+01:00', { id: 'seen' });
    const { t1, others, written } = outcome([...record, seen], [held()], when, by);
    expect(t1).toMatchObject({
      restriction: { period: { end: '2026-11-25T08:30:00+01:00' } },
      reasonReference: { reference: 'Observation/seen' },
      identifier: [{ system: identifierSystem.dueItem }],
    });
    expect(others).toEqual([]);
    expect(written).toHaveLength(1);
    expect(t1?.code?.coding?.[0]?.system).toBe(codeSystem.lineCareActivity);
    const met = outcome([...record, seen, done], [t1!], when, by);
    expect(met.t1?.status).toBe('completed');
  });
});

describe('the Task of a line that is out', () => {
  const removed = event('removal', '2026-11-25T08:00:00+01:00');
  const flush = policyOf(rule('flush', every(days(1)), { activity: 'flush', scope: 'lumen' }));
  const resources = [patient(), line(), inserted];
  const stored = (): Task => ({
    ...tasksOf(resources, [], when, flush)[0]!.task,
    id: 't1',
    meta: { versionId: '1' },
  });

  it('is not completed by what was charted for a time after its removal', () => {
    const stray = event('flush', '2026-11-25T10:00:00+01:00');
    const { t1 } = outcome([...resources, removed, stray], [stored()], when, flush);
    expect([t1?.status, reasonOf(t1)]).toEqual(['cancelled', 'line-removed']);
    expect(outcome([...resources, removed, stray], [t1!], when, flush).written).toEqual([]);
  });

  it('is completed by what was done before and charted late', () => {
    const late = event('flush', '2026-11-25T07:30:00+01:00');
    const cancelled = outcome([...resources, removed], [stored()], when, flush).t1!;
    const { t1 } = outcome([...resources, removed, late], [cancelled], when, flush);
    expect([t1?.status, outputOf(t1)]).toEqual(['completed', [`Procedure/${late.id}`]]);
  });
});

describe('the Tasks of a planned line', () => {
  const prepare = policyOf(
    ...(['teaching', 'bath', 'skin-preparation'] as const).map((activity) =>
      rule(activity, { kind: 'before', of: 'insertion', offset: days(1) }, { activity, scope: 'line' }),
    ),
  );
  const coded = (code: string) => ({ coding: [{ system: codeSystem.lineCareActivity, code }] });
  const based = { basedOn: [{ reference: 'ServiceRequest/plan' }] };
  const request: Resource = {
    resourceType: 'ServiceRequest',
    id: 'plan',
    status: 'active',
    code: coded('insertion'),
    subject: { reference: 'Patient/p' },
    authoredOn: '2026-11-20T10:00:00+01:00',
    occurrenceDateTime: '2026-11-26T12:00:00+01:00',
  };
  const taught = event('teaching', '2026-11-25T09:00:00+01:00', { ...based, focalDevice: [] });
  const washed = event('bath', '2026-11-25T11:00:00+01:00', { ...based, focalDevice: [] });
  const underWay = event('insertion', undefined, {
    ...based,
    status: 'in-progress',
    performedPeriod: { start: '2026-11-25T11:30:00+01:00' },
  });
  const store = (resources: readonly Resource[], existing: readonly Task[]) => {
    const next = new Map(existing.map((task) => [task.id, task]));
    for (const { task } of tasksOf(resources, existing, when, prepare)) {
      const id = task.id ?? `t-${task.code?.coding?.[0]?.code ?? ''}`;
      next.set(id, { ...task, id, meta: { versionId: '1' } });
    }
    return [...next.values()];
  };
  const told = (tasks: readonly Task[]) =>
    tasks.map((task) => `${task.code?.coding?.[0]?.code} ${task.status} ${task.focus?.reference}`).sort();

  it('are the same when the line’s Device is named while it is put in', () => {
    const planned = store([patient(), request], []);
    const prepared = store([patient(), request, taught], planned);
    expect(told(prepared)).toEqual([
      'bath requested ServiceRequest/plan',
      'skin-preparation requested ServiceRequest/plan',
      'teaching completed ServiceRequest/plan',
    ]);
    const during = store([patient(), request, taught, washed, line(), underWay], prepared);
    expect(told(during)).toEqual([
      'bath completed ServiceRequest/plan',
      'skin-preparation requested Device/line',
      'teaching completed ServiceRequest/plan',
    ]);
  });
});
