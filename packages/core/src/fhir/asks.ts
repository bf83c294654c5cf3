import type { Task } from 'fhir/r4.js';
import { codeSystem } from '@dwellward/profiles';
import type { DueItem, MetItem, Target } from '../model/care.js';
import type { Say } from '../words/say.js';

/** What a Task asks for and of what: no two Tasks of the same are open at once. */
export type Ask = string;

/** What an item asks for; of what has met it, what it asked for. */
export function askOfItem(
  { activity, target }: Pick<DueItem | MetItem, 'activity' | 'target'>,
  say: Say,
): Ask {
  return [activity, target.device, placeOf(target, say) ?? ''].join(' ');
}

/** The same as a Task says it. */
export function askOfTask(task: Task): Ask {
  const activity = task.code?.coding?.find(({ system }) => system === codeSystem.lineCareActivity)?.code;
  return [activity, task.focus?.reference, placeIn(task) ?? ''].join(' ');
}

/** What tells apart the targets that share one Device: a site, or a lumen that is only counted. */
function placeOf({ scope, ref, device, name }: Target, say: Say): string | undefined {
  if (scope === 'lumen') return ref === device ? undefined : say(name);
  return scope === 'line' ? undefined : scope;
}

/** The same as a Task’s input says it. */
function placeIn({ input }: Task): string | undefined {
  return input
    ?.map(({ valueCodeableConcept, valueString, type }) =>
      type.coding?.some(({ system, code }) => system === codeSystem.taskInput && code === 'lumen')
        ? valueString
        : valueCodeableConcept?.coding?.find(({ system }) => system === codeSystem.lineSite)?.code,
    )
    .find((one) => one !== undefined);
}
