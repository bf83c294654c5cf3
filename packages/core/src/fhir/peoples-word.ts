import type { Task } from 'fhir/r4.js';
import type { Policy } from '@dwellward/policy';
import { dueCare } from '../due/due-care.js';
import { itemId } from '../due/open-item.js';
import type { AsOf, DueItem, LineCare, MetItem } from '../model/care.js';
import type { CareEvent, LineRecord, RecordIssue } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { Say } from '../words/say.js';
import { askOfItem, askOfTask, type Ask } from './asks.js';
import type { Met } from './met.js';
import { ownIdentity } from './own.js';
import { without } from './parts.js';
import { byId, closedAtMs, closedByPerson } from './task-status.js';

/**
 * When care that has no next time by the policy is asked for again after a person closed its Task and nothing was
 * charted. Common practice, no source: whoever comes on the next day asks again. Too short: a Task that was turned down
 * for a reason is back within the shift; too long: what was forgotten stays so.
 */
const askedAgainAfter = { value: 1, unit: 'd' } as const;

/** Due care as it is to stand in Tasks, and what is to be said of the Tasks that people closed. */
export interface AfterPeople {
  readonly items: readonly DueItem[];
  readonly issues: readonly RecordIssue[];
}

interface Given {
  readonly lines: readonly LineRecord[];
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: AsOf;
  /** Every Task of ours of the patient. */
  readonly tasks: readonly Task[];
  readonly met: Met;
  readonly say: Say;
}

/** A Task that a person closed, with when. */
interface Closed {
  readonly task: Task;
  readonly ms: number;
  readonly ask: Ask;
  readonly identity: string | undefined;
}

/**
 * What is asked for after people have closed Tasks and no event tells of the care.
 *
 * Charting decides: due care itself is as if the Task had not been closed. But a Task that a person has done or turned
 * down is not put before the person again at once: the next one is asked for when the policy would ask for it had the
 * care been done when the Task was closed, and says so. What was then put on is not known of a Task that was done, and
 * takes the protective reading; one that was turned down leaves in place what was there. A Task that says it was done
 * is a contradiction in the record until the care is charted.
 */
export function afterPeople(given: Given): AfterPeople {
  const calendar = new Calendar(given.when.zone);
  const asOfMs = instantMs(given.when.asOf);
  const closed = closedTasks(given.tasks, calendar, asOfMs);
  const issues: RecordIssue[] = [];
  const items = given.cares.flatMap((care) =>
    care.items.map((item) => {
      const ask = askOfItem(item, given.say);
      const ids = [item.id, ...(item.otherIds ?? [])];
      const all = closed.filter((one) => one.ask === ask || ids.includes(one.identity ?? ''));
      const line = given.lines.find(({ ref }) => ref === care.line);
      if (all.length === 0 || !line) return item;
      const sinceMs = given.met.lastMs(ask);
      const open = all.filter(({ task, ms }) => ms > sinceMs && given.met.of(task) === undefined);
      const done = open.filter(({ task }) => task.status === 'completed');
      if (done.length > 0) issues.push(doneNotCharted(item, done, calendar));
      const last = open.at(-1);
      const next = last ? nextAfter(last, item, line, given, calendar) : item;
      return withFreeIdentity(next, line, closed);
    }),
  );
  return { items, issues };
}

/** The Tasks that people closed, in the order in which they were closed. */
function closedTasks(tasks: readonly Task[], calendar: Calendar, asOfMs: number): Closed[] {
  return tasks
    .filter(closedByPerson)
    .map((task) => ({
      task,
      ms: closedAtMs(task, calendar, asOfMs) ?? -Infinity,
      ask: askOfTask(task),
      identity: ownIdentity(task),
    }))
    .sort((a, b) => a.ms - b.ms || byId(a.task, b.task));
}

/** The item that the policy has next, had the care been done when the Task was closed. */
function nextAfter(
  { task, ms }: Closed,
  item: DueItem,
  line: LineRecord,
  { policy, when, met, say }: Given,
  calendar: Calendar,
): DueItem {
  const before = met.last(askOfItem(item, say));
  const asIf = { ...line, events: [...line.events, asIfDone(task, ms, item, line, before, calendar)] };
  const found = dueCare(asIf, policy, when).items.find(
    ({ activity, target }) =>
      activity === item.activity && target.scope === item.target.scope && target.ref === item.target.ref,
  );
  const next = found ?? againNextDay(item, ms, calendar, instantMs(when.asOf));
  return {
    ...without(next, 'otherIds'),
    id: itemId({ line }, item, item.target, taskRef(task)),
    remarks: [
      ...next.remarks,
      { code: 'asked-again', done: task.status === 'completed', at: calendar.text(ms) },
    ],
  };
}

function asIfDone(
  task: Task,
  ms: number,
  { activity, target }: DueItem,
  line: LineRecord,
  before: MetItem | undefined,
  calendar: Calendar,
): CareEvent {
  const last = line.events.find(({ ref, activity: other }) => ref === before?.by && other === activity);
  const { dressing, securement } = task.status === 'completed' ? {} : (last ?? {});
  return {
    ref: taskRef(task),
    activity,
    status: 'completed',
    at: { text: calendar.text(ms), precision: 'instant' },
    ...(target.scope === 'lumen' ? { lumen: target.ref } : {}),
    site: target.scope === 'incision' ? 'incision' : 'exit-site',
    ...(dressing ? { dressing } : {}),
    ...(securement ? { securement } : {}),
  };
}

function againNextDay(item: DueItem, closedMs: number, calendar: Calendar, asOfMs: number): DueItem {
  const ms = calendar.add(closedMs, askedAgainAfter);
  const at = calendar.text(ms);
  const state = asOfMs < ms ? 'upcoming' : asOfMs === ms ? 'due' : 'overdue';
  return { ...item, opens: at, dueBy: at, state };
}

/** An item never takes the identity of a Task that a person has closed: it would be taken for that one. */
function withFreeIdentity(item: DueItem, line: LineRecord, closed: readonly Closed[]): DueItem {
  const byIdentity = new Map(closed.map(({ identity, task }) => [identity, task]));
  let ids = [item.id, ...(item.otherIds ?? [])];
  for (let tries = 0; tries < closed.length; tries++) {
    const task = ids.map((id) => byIdentity.get(id)).find((one) => one !== undefined);
    if (!task) break;
    ids = [itemId({ line }, item, item.target, taskRef(task))];
  }
  const [id = item.id] = ids;
  if (id === item.id) return item;
  return { ...without(item, 'otherIds'), id };
}

function doneNotCharted(item: DueItem, done: readonly Closed[], calendar: Calendar): RecordIssue {
  const { task, ms } = done.at(-1) as Closed;
  return {
    code: 'done-not-charted',
    severity: 'moderate',
    resource: taskRef(task),
    path: 'Task.status',
    sentence: {
      code: 'done-by-task-alone',
      activity: item.activity,
      at: calendar.text(ms),
      times: done.length,
    },
    patient: item.patient,
    line: item.line,
    related: done.slice(0, -1).map((one) => taskRef(one.task)),
  };
}

function taskRef({ id }: Task): string {
  return `Task/${id}`;
}
