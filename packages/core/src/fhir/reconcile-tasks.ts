import type { Task } from 'fhir/r4.js';
import { codeSystem, coding, identifierSystem, type ClosingReason } from '@dwellward/profiles';
import type { AsOf, DueItem, LineCare, MetItem } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import type { Say } from '../words/say.js';
import { referenceTo } from './references.js';
import { saysTheSame } from './same.js';

/** What is to become of a Task: written anew, or as it is with changes. */
export interface TaskChange {
  readonly task: Task;
  readonly existing?: Task;
  /** The open item behind it, where there is one. */
  readonly item?: DueItem;
}

interface Wanted {
  readonly item: DueItem;
  readonly task: Task;
}

/** Elements that are computed; all others of a Task are left as they are found. */
const computed = [
  'instantiatesUri',
  'basedOn',
  'groupIdentifier',
  'businessStatus',
  'intent',
  'priority',
  'code',
  'description',
  'focus',
  'for',
  'reasonCode',
  'reasonReference',
  'restriction',
  'input',
] as const;

/**
 * The changes that bring the Tasks of a patient in step with due care.
 *
 * A Task that a person has taken, done or turned down keeps its status and everything the person wrote; only a Task
 * that was closed here is opened here again.
 */
export function reconcileTasks(
  wanted: readonly Wanted[],
  cares: readonly LineCare[],
  existing: readonly Task[],
  when: AsOf,
  lines: readonly LineRecord[],
  say: Say,
): TaskChange[] {
  const byId = new Map<string, Task[]>();
  for (const task of existing) {
    const id = ownIdentity(task);
    if (id !== undefined) byId.set(id, [...(byId.get(id) ?? []), task]);
  }
  const met = new Map(
    cares
      .flatMap((care) => care.met)
      .flatMap((one) => [one.id, ...(one.otherIds ?? [])].map((id) => [id, one] as const)),
  );
  const changes: TaskChange[] = [];
  for (const { item, task } of wanted) {
    // Where the last time was charted twice the Task may have been written when only the other was on record.
    const ids = [item.id, ...(item.otherIds ?? [])];
    const [found, ...twins] = ids.flatMap((one) => byId.get(one) ?? []).sort(byClaim);
    for (const one of ids) byId.delete(one);
    const change = found ? updated(found, task, item, when) : { task, item };
    if (change) changes.push(change);
    changes.push(...twins.flatMap((twin) => closed(twin, 'duplicate', when)));
  }
  for (const [id, tasks] of [...byId].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const [found, ...twins] = tasks.sort(byClaim) as [Task, ...Task[]];
    const done = met.get(id);
    changes.push(
      ...(done ? metBy(found, done, when) : closed(found, reasonFor(found, cares, lines, say), when)),
    );
    changes.push(...twins.flatMap((twin) => closed(twin, 'duplicate', when)));
  }
  return changes;
}

/** The identity under which a Task of ours was written. */
export function ownIdentity(task: Task): string | undefined {
  return task.identifier?.find(({ system }) => system === identifierSystem.dueItem)?.value;
}

/** Statuses in which nobody has taken the Task yet. */
const untaken = new Set<Task['status']>(['requested', 'draft']);
const taken = new Set<Task['status']>(['received', 'accepted', 'ready', 'in-progress', 'on-hold']);

function closedHere(task: Task): boolean {
  const cancelledHere =
    task.status === 'cancelled' &&
    task.statusReason?.coding?.some(({ system }) => system === codeSystem.closingReason);
  return cancelledHere === true || completedHere(task);
}

function completedHere(task: Task): boolean {
  return task.status === 'completed' && metOutput(task) !== undefined;
}

function metOutput(task: Task): string | undefined {
  return task.output?.find(({ type }) =>
    type.coding?.some(({ system, code }) => system === codeSystem.taskOutput && code === 'met-by'),
  )?.valueReference?.reference;
}

// Of several Tasks of one identity the one that a person has dealt with stands; else the open one; else the first.
function byClaim(a: Task, b: Task): number {
  const rank = (task: Task) => (untaken.has(task.status) ? 1 : closedHere(task) ? 2 : 0);
  return rank(a) - rank(b) || ((a.id ?? '') < (b.id ?? '') ? -1 : 1);
}

function updated(found: Task, wanted: Task, item: DueItem, when: AsOf): TaskChange | undefined {
  const open = untaken.has(found.status) || taken.has(found.status);
  if (!open && !closedHere(found)) return undefined;
  const next: Task = { ...found };
  for (const key of computed) {
    if (wanted[key] === undefined) Reflect.deleteProperty(next, key);
    else Object.assign(next, { [key]: wanted[key] });
  }
  // With nothing to count from the item is due now, whenever it is looked at: the first answer stands.
  if (item.countedFrom.basis === 'nothing' && open && found.restriction) next.restriction = found.restriction;
  next.note = withOwnNote(found, wanted);
  if (!open) {
    next.status = 'requested';
    Reflect.deleteProperty(next, 'statusReason');
    Reflect.deleteProperty(next, 'output');
  }
  return saysTheSame(found, next)
    ? undefined
    : { task: { ...next, lastModified: when.asOf }, existing: found, item };
}

/** Notes by people are kept; ours is the one without an author. */
function withOwnNote(found: Task, wanted: Task): NonNullable<Task['note']> {
  const others = (found.note ?? []).filter(
    (note) =>
      note.authorString !== undefined || note.authorReference !== undefined || note.time !== undefined,
  );
  return [...(wanted.note ?? []), ...others];
}

function metBy(found: Task, met: MetItem, when: AsOf): TaskChange[] {
  const open = untaken.has(found.status) || taken.has(found.status);
  if (!open && !closedHere(found)) return [];
  // Completed by the other of two records of one event: it stands as it is.
  if (completedHere(found) && met.twins?.includes(metOutput(found) ?? '')) return [];
  const next: Task = {
    ...found,
    status: 'completed',
    executionPeriod: { ...found.executionPeriod, end: met.at },
    output: [
      ...(found.output ?? []).filter(
        (output) => !output.type.coding?.some(({ system }) => system === codeSystem.taskOutput),
      ),
      { type: { coding: [coding('taskOutput', 'met-by')] }, valueReference: referenceTo(met.by) },
    ],
  };
  Reflect.deleteProperty(next, 'statusReason');
  Reflect.deleteProperty(next, 'businessStatus');
  return saysTheSame(found, next) ? [] : [{ task: { ...next, lastModified: when.asOf }, existing: found }];
}

function closed(found: Task, reason: ClosingReason, when: AsOf): TaskChange[] {
  if (!untaken.has(found.status) && !completedHere(found)) return [];
  const next: Task = {
    ...found,
    status: 'cancelled',
    statusReason: { coding: [coding('closingReason', reason)] },
    lastModified: when.asOf,
  };
  Reflect.deleteProperty(next, 'output');
  Reflect.deleteProperty(next, 'businessStatus');
  return [{ task: next, existing: found }];
}

function reasonFor(
  task: Task,
  cares: readonly LineCare[],
  lines: readonly LineRecord[],
  say: Say,
): ClosingReason {
  const focus = task.focus?.reference;
  const line = lines.find(
    ({ ref, lumens }) => ref === focus || lumens.some(({ device }) => device === focus),
  );
  const care = cares.find((one) => one.line === line?.ref);
  if (care?.closed === 'patient-deceased') return 'patient-deceased';
  if (care?.closed === 'line-removed') return 'line-removed';
  if (care?.closed === 'inserted') return 'line-inserted';
  if (care?.closed === 'plan-withdrawn') return 'plan-withdrawn';
  // The care is asked for still, but counts from another event: the one that this Task counted from no longer does.
  const activity = task.code?.coding?.find(({ system }) => system === codeSystem.lineCareActivity)?.code;
  const place = placeIn(task);
  const askedFor = care?.items.some(
    ({ activity: other, target }) =>
      other === activity &&
      target.device === focus &&
      (place === undefined || place === placeOf(target, say)),
  );
  return askedFor || completedHere(task) ? 'event-corrected' : 'no-longer-asked-for';
}

/** What tells apart the targets that share one Device: a site, or a lumen that is only counted. */
function placeOf({ scope, name }: DueItem['target'], say: Say): string {
  return scope === 'lumen' ? say(name) : scope;
}

/** The same as a Task's input says it. */
function placeIn({ input }: Task): string | undefined {
  return input
    ?.map(({ valueCodeableConcept, valueString, type }) =>
      type.coding?.some(({ code }) => code === 'lumen')
        ? valueString
        : valueCodeableConcept?.coding?.find(({ system }) => system === codeSystem.lineSite)?.code,
    )
    .find((one) => one !== undefined);
}
