import type { Task } from 'fhir/r4.js';
import { codeSystem } from '@dwellward/profiles';
import { recordedTime } from '../record/times.js';
import type { Calendar } from '../timeline/calendar.js';

type Status = Task['status'];

/** Nobody has taken the Task yet. */
const untaken: ReadonlySet<Status> = new Set(['requested', 'draft']);
/** Taken by a person and not finished: the furthest first. */
const taken: readonly Status[] = ['in-progress', 'on-hold', 'accepted', 'ready', 'received'];

export const isUntaken = ({ status }: Task): boolean => untaken.has(status);
export const isTaken = ({ status }: Task): boolean => taken.includes(status);
export const isOpen = (task: Task): boolean => isUntaken(task) || isTaken(task);

/** Of several open Tasks of one care the one that a person has gone furthest with comes first. */
export function byClaim(a: Task, b: Task): number {
  const rank = ({ status }: Task) => {
    const at = taken.indexOf(status);
    return at < 0 ? taken.length : at;
  };
  return rank(a) - rank(b) || byId(a, b);
}

export function byId(a: Task, b: Task): number {
  return (a.id ?? '') < (b.id ?? '') ? -1 : 1;
}

/** The event that a Task says it was met by. */
export function metOutput(task: Task): string | undefined {
  return task.output?.find(({ type }) =>
    type.coding?.some(({ system, code }) => system === codeSystem.taskOutput && code === 'met-by'),
  )?.valueReference?.reference;
}

/** Completed here, by an event. */
export function completedHere(task: Task): boolean {
  return task.status === 'completed' && metOutput(task) !== undefined;
}

/** Closed here: completed by an event, or cancelled with a reason of ours. */
export function closedHere(task: Task): boolean {
  const cancelledHere =
    task.status === 'cancelled' &&
    task.statusReason?.coding?.some(({ system }) => system === codeSystem.closingReason);
  return cancelledHere === true || completedHere(task);
}

/** Done, turned down or given up by a person. */
export function closedByPerson(task: Task): boolean {
  return !isOpen(task) && !closedHere(task);
}

/**
 * When a person closed a Task, milliseconds since 1970, as early as it may have been: of one that was done its own end,
 * else the earlier of when it was last changed by its own word and by the server’s. Never after `asOfMs`; undefined
 * where nothing tells.
 */
export function closedAtMs(task: Task, calendar: Calendar, asOfMs: number): number | undefined {
  const ms = (text: string | undefined) => {
    const time = recordedTime(text);
    return time && calendar.earliest(time);
  };
  const end = task.status === 'completed' ? ms(task.executionPeriod?.end) : undefined;
  const changed = [ms(task.lastModified), ms(task.meta?.lastUpdated)].filter((one) => one !== undefined);
  const told = end ?? (changed.length > 0 ? Math.min(...changed) : ms(task.authoredOn));
  return told === undefined ? undefined : Math.min(told, asOfMs);
}
