import type { FhirResource, Task } from 'fhir/r4.js';
import { coding } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { dueCare } from '../due/due-care.js';
import {
  berlin,
  days,
  event,
  every,
  line,
  patient,
  policyOf,
  read,
  rule,
  type Resource,
} from '../record.kit.js';
import { transactionFor, type Reconciliation } from './transaction.js';

// A line whose dressing is changed every two days, and what is written of it.

export const policy = policyOf(rule('gauze', every(days(2))));
export const when = berlin('2026-11-25T12:00:00+01:00');
export const later = berlin('2026-11-26T12:00:00+01:00');
export const inserted = event('insertion', '2026-11-01T10:00:00+01:00');
export const changed = event('dressing-change', '2026-11-24T08:00:00+01:00', { id: 'first' });
export const record = [patient(), line(), inserted, changed];
/** Done again: what the Task of `record` asked for is met. */
export const done = event('dressing-change', '2026-11-25T09:00:00+01:00', { id: 'second' });

export function sync(
  resources: readonly Resource[],
  existing: readonly FhirResource[],
  at = when,
  by: Policy = policy,
  contested: Reconciliation['contested'] = undefined,
) {
  const records = read(...resources);
  const cares = records.lines.map((one) => dueCare(one, by, at));
  return transactionFor({
    records,
    cares,
    policy: by,
    when: at,
    existing,
    ...(contested ? { contested } : {}),
  });
}

export function tasksOf(
  resources: readonly Resource[],
  existing: readonly FhirResource[],
  at = when,
  by: Policy = policy,
) {
  return (sync(resources, existing, at, by)?.entry ?? []).flatMap(({ resource, request }) =>
    resource?.resourceType === 'Task' ? [{ task: resource as Task, request }] : [],
  );
}

/** The Task of `record` as the server holds it. */
export function held(more: Partial<Task> = {}, resources: readonly Resource[] = record): Task {
  const [created] = tasksOf(resources, []);
  if (!created) throw new Error('no Task is asked for');
  return { ...created.task, id: 't1', meta: { versionId: '4' }, ...more };
}

export const metBy = (reference: string): Partial<Task> => ({
  status: 'completed',
  output: [{ type: { coding: [coding('taskOutput', 'met-by')] }, valueReference: { reference } }],
});
export const closedAs = (reason: Parameters<typeof coding>[1]): Partial<Task> => ({
  status: 'cancelled',
  statusReason: { coding: [coding('closingReason', reason)] },
});
export const reasonOf = (task: Task | undefined) => task?.statusReason?.coding?.[0]?.code;
export const outputOf = (task: Task | undefined) =>
  task?.output?.map(({ valueReference }) => valueReference?.reference);

/** What is written of the Task t1, and of any other. */
export function outcome(
  resources: readonly Resource[],
  existing: readonly Task[],
  at = when,
  by: Policy = policy,
) {
  const written = tasksOf(resources, existing, at, by);
  return {
    t1: written.find(({ task }) => task.id === 't1')?.task,
    others: written.filter(({ task }) => task.id !== 't1').map(({ task }) => task),
    written,
  };
}
