import type { Annotation, Task } from 'fhir/r4.js';
import { codeSystem, coding, type ClosingReason } from '@dwellward/profiles';
import type { AsOf, DueItem, LineCare, MetItem } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import type { Say } from '../words/say.js';
import { askOfItem, askOfTask, type Ask } from './asks.js';
import type { Met } from './met.js';
import {
  notesOfPeople,
  ourName,
  ownIdentity,
  policiesOf,
  policyKey,
  withIdentity,
  withOwnExtensions,
  withWorkedOut,
  workedOutIn,
} from './own.js';
import { msIn, without } from './parts.js';
import { referenceTo } from './references.js';
import { saysTheSame } from './same.js';
import {
  byClaim,
  byId,
  closedHere,
  completedHere,
  isOpen,
  isTaken,
  isUntaken,
  metOutput,
} from './task-status.js';

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

/** What Tasks are held against. */
export interface TaskFacts {
  readonly cares: readonly LineCare[];
  readonly lines: readonly LineRecord[];
  readonly met: Met;
  readonly when: AsOf;
  readonly say: Say;
  /** Policies by which others keep the same Tasks: nothing is taken back of what they ask for. */
  readonly contested: ReadonlySet<string>;
}

/** Elements that are computed; all others of a Task are left as they are found. */
const computed = [
  'instantiatesUri',
  'basedOn',
  'groupIdentifier',
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
 * What a Task asks for (activity, target) is open once. Of several the one that a person has taken stands: where the
 * event that it counted from was withdrawn or written anew under another id, it takes the new identity, with its status,
 * owner and notes. A Task that nothing asks for any more is cancelled; one that a person has taken says so and is left to
 * that person, but is cancelled, too, where its line is out or gone: there is nothing left to do it to.
 * What a person has done or turned down keeps that word; only what was closed here is opened here again.
 */
export function reconcileTasks(
  wanted: readonly Wanted[],
  existing: readonly Task[],
  facts: TaskFacts,
): TaskChange[] {
  const pool = new Pool(existing);
  const changes: TaskChange[] = [];
  const spokenFor = new Set(wanted.flatMap(({ item }) => [item.id, ...(item.otherIds ?? [])]));
  const isStray = (task: Task) => !spokenFor.has(ownIdentity(task) ?? '') && facts.met.of(task) === undefined;
  for (const one of wanted) changes.push(...settled(one, pool, isStray, facts));
  for (const task of pool.rest()) changes.push(...unasked(task, facts));
  return changes.filter(({ existing: before, task }) => !before || !takesBack(before, task, facts));
}

/** The Tasks of ours on the server, each to be dealt with once. */
class Pool {
  readonly #left = new Set<Task>();
  readonly #byId = new Map<string, Task[]>();
  readonly #byAsk = new Map<Ask, Task[]>();

  constructor(existing: readonly Task[]) {
    for (const task of [...existing].sort(byId)) {
      const id = ownIdentity(task);
      if (id === undefined) continue;
      this.#left.add(task);
      this.#byId.set(id, [...(this.#byId.get(id) ?? []), task]);
      const ask = askOfTask(task);
      this.#byAsk.set(ask, [...(this.#byAsk.get(ask) ?? []), task]);
    }
  }

  /** Takes out those of an identity. */
  take(ids: readonly string[]): Task[] {
    return this.#taken(ids.flatMap((id) => this.#byId.get(id) ?? []));
  }

  /** Takes out the open ones of an ask that pass. */
  takeOpen(ask: Ask, passes: (task: Task) => boolean): Task[] {
    return this.#taken((this.#byAsk.get(ask) ?? []).filter((task) => isOpen(task) && passes(task)));
  }

  #taken(tasks: readonly Task[]): Task[] {
    return tasks.filter((task) => this.#left.delete(task));
  }

  rest(): readonly Task[] {
    const key = (task: Task) => `${ownIdentity(task) ?? ''} ${task.id ?? ''}`;
    return [...this.#left].sort((a, b) => (key(a) < key(b) ? -1 : 1));
  }
}

/** One item: the Task that stands for it, and what becomes of the others that ask for the same. */
function settled(
  { item, task }: Wanted,
  pool: Pool,
  isStray: (task: Task) => boolean,
  facts: TaskFacts,
): TaskChange[] {
  // Where the last time was charted twice the Task may have been written when only the other was on record.
  const exact = pool.take([item.id, ...(item.otherIds ?? [])]);
  const strays = pool.takeOpen(askOfItem(item, facts.say), isStray);
  const taken = [...exact, ...strays].filter(isTaken).sort(byClaim);
  const [stands] = [
    ...taken,
    ...exact.filter(isUntaken),
    ...exact.filter(closedHere),
    ...strays.filter(isUntaken),
  ];
  if (!stands) return [{ task, item }];
  const others = [...exact, ...strays].filter((one) => one !== stands);
  const words = others.filter(isOpen).flatMap(notesOfPeople);
  const change = updated(stands, task, item, words, facts.when);
  return [
    ...(change ? [change] : []),
    ...others.flatMap((one) => {
      const twin = isOpen(one) && (exact.includes(one) || isTaken(one));
      return closed(one, twin ? 'duplicate' : 'event-corrected', facts.when, true);
    }),
  ];
}

function updated(
  found: Task,
  wanted: Task,
  item: DueItem,
  words: readonly Annotation[],
  when: AsOf,
): TaskChange | undefined {
  const reopened = !isOpen(found);
  const moved = ownIdentity(found) !== item.id;
  // The same facts as when it was last written here: what differs was done by others, and stays.
  const same = !reopened && !moved && workedOutIn(found) === workedOutIn(wanted);
  const next: Task = { ...withIdentity(found, item.id) };
  if (!same) {
    for (const key of computed) put(next, key, wanted[key]);
    // With nothing to count from the item is due now, whenever it is looked at: the first answer stands.
    if (item.countedFrom.basis === 'nothing' && !reopened && found.restriction)
      next.restriction = found.restriction;
    Object.assign(next, withOwnExtensions(found.extension, wanted.extension));
  }
  putBusinessStatus(next, wanted.businessStatus);
  // Where nothing says where the patient is, what stands there may be the last that was known.
  if (wanted.location) next.location = wanted.location;
  const kept = same ? (found.note ?? []) : [...(wanted.note ?? []), ...notesOfPeople(found)];
  next.note = [...kept, ...words.filter((word) => !kept.some((one) => saysTheSame(one, word)))];
  if (reopened) {
    next.status = 'requested';
    put(next, 'statusReason', undefined);
    put(next, 'output', undefined);
    put(next, 'executionPeriod', withoutEnd(found.executionPeriod));
  }
  const differs = same ? !saysTheSame(found, next) : !saysTheSame(unmarked(found), unmarked(next));
  if (!differs) return undefined;
  const task = { ...next, lastModified: when.asOf };
  // How far it is and where the patient is are not worked out from the record: nothing new is to be told of that.
  return same ? { task, existing: found } : { task, existing: found, item };
}

/** What was worked out, and by which policy, is written with what it changes and not for its own sake. */
function unmarked(task: Task): Task {
  const { extension } = withOwnExtensions(task.extension, []);
  const bare = { ...task };
  put(bare, 'extension', extension);
  return bare;
}

function put<Key extends keyof Task>(task: Task, key: Key, value: Task[Key] | undefined): void {
  if (value === undefined) Reflect.deleteProperty(task, key);
  else task[key] = value;
}

/** How far the care is, kept in step; what the hospital’s own steps of work say there stays. */
function putBusinessStatus(task: Task, value: Task['businessStatus']): void {
  const { businessStatus: found } = task;
  const ours = found?.coding?.some(({ system }) => system === codeSystem.dueState) ?? false;
  if (found === undefined || ours) put(task, 'businessStatus', value);
}

/** A Task that is open again has not ended; when somebody began it stays. */
function withoutEnd(period: Task['executionPeriod']): Task['executionPeriod'] {
  if (!period) return undefined;
  const rest = without(period, 'end');
  return Object.keys(rest).length > 0 ? rest : undefined;
}

/** A Task that no item stands behind: met by an event, or nothing asks for it any more. */
function unasked(found: Task, facts: TaskFacts): TaskChange[] {
  if (!isOpen(found) && !closedHere(found)) return [];
  const done = facts.met.of(found);
  if (done) return metBy(found, done, facts);
  const line = lineOf(found, facts);
  // What was done on a line that is not on record is history.
  if (line === undefined && completedHere(found)) return [];
  const reason = reasonFor(found, line, facts);
  const gone = reason !== 'no-longer-asked-for' && reason !== 'event-corrected';
  if (isTaken(found) && !gone) return saidToTaker(found, facts);
  return closed(found, reason, facts.when, gone);
}

function metBy(found: Task, met: MetItem, facts: TaskFacts): TaskChange[] {
  // Completed by the other of two records of one event: it stands as it is.
  if (completedHere(found) && met.twins?.includes(metOutput(found) ?? '')) return [];
  const ids = [met.id, ...(met.otherIds ?? [])];
  // One that was completed under an identity of another making takes the event’s, unless another Task bears it.
  const stays = ids.includes(ownIdentity(found) ?? '') || !completedHere(found) || facts.met.isBorne(met.id);
  const next: Task = {
    ...(stays ? found : withIdentity(found, met.id)),
    status: 'completed',
    executionPeriod: { ...found.executionPeriod, end: met.at },
    output: [
      ...(found.output ?? []).filter(
        (output) => !output.type.coding?.some(({ system }) => system === codeSystem.taskOutput),
      ),
      { type: { coding: [coding('taskOutput', 'met-by')] }, valueReference: referenceTo(met.by) },
    ],
  };
  put(next, 'statusReason', undefined);
  putBusinessStatus(next, undefined);
  return saysTheSame(found, next)
    ? []
    : [{ task: { ...next, lastModified: facts.when.asOf }, existing: found }];
}

/** @param evenTaken also where a person has taken it. */
function closed(found: Task, reason: ClosingReason, when: AsOf, evenTaken: boolean): TaskChange[] {
  if (!isUntaken(found) && !completedHere(found) && !(evenTaken && isTaken(found))) return [];
  const next: Task = {
    ...found,
    status: 'cancelled',
    statusReason: { coding: [coding('closingReason', reason)] },
    lastModified: when.asOf,
  };
  put(next, 'output', undefined);
  putBusinessStatus(next, undefined);
  return [{ task: next, existing: found }];
}

/** Whoever has taken a Task that nothing asks for any more is told, once. */
function saidToTaker(found: Task, { say, when }: TaskFacts): TaskChange[] {
  const ours = { authorString: ourName, text: say({ code: 'nobody-asks' }) };
  // Asked for again, it is written anew: by its mark nothing is worked out of it.
  const next = withWorkedOut<Task>({ ...found, note: [ours, ...notesOfPeople(found)] }, 'nobody-asks');
  putBusinessStatus(next, undefined);
  if (saysTheSame(unmarked(found), unmarked(next))) return [];
  return [{ task: { ...next, lastModified: when.asOf }, existing: found }];
}

function lineOf(task: Task, { lines }: TaskFacts): LineRecord | undefined {
  const focus = task.focus?.reference;
  return lines.find(
    ({ ref, lumens, planned }) =>
      ref === focus || planned?.ref === focus || lumens.some(({ device }) => device === focus),
  );
}

function reasonFor(task: Task, line: LineRecord | undefined, { cares, say }: TaskFacts): ClosingReason {
  const care = cares.find((one) => one.line === line?.ref);
  switch (care?.closed) {
    case undefined:
      if (care === undefined) return 'line-not-on-record';
      break;
    case 'patient-deceased':
      return 'patient-deceased';
    case 'line-removed':
      return 'line-removed';
    case 'inserted':
      return 'line-inserted';
    case 'plan-withdrawn':
      return 'plan-withdrawn';
    case 'entered-in-error':
      return 'line-not-on-record';
    case 'not-inserted-yet':
      break;
  }
  // The care is asked for still, but counts from another event: the one that this Task counted from no longer does.
  const ask = askOfTask(task);
  const askedFor = care.items.some((item) => askOfItem(item, say) === ask);
  return askedFor || completedHere(task) ? 'event-corrected' : 'no-longer-asked-for';
}

/**
 * Whether a change takes back what another policy asks for: closes the Task, or has it due later. Where two policies
 * keep one Task, only what asks for more is written, so that both come to rest with the care that protects most.
 */
function takesBack(before: Task, after: Task, { contested }: TaskFacts): boolean {
  if (!contested.has(policyKey(policiesOf(before))) || after.status === 'completed') return false;
  if (!isOpen(before)) return false;
  if (!isOpen(after)) return true;
  const dueMs = (task: Task) => msIn(task.restriction?.period?.end);
  return !(dueMs(after) < dueMs(before));
}
