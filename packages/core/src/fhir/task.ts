import type { Task, TaskInput } from 'fhir/r4.js';
import { coding, displayOf, identifierSystem, standard } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { explain, ruleUri } from '../explain/explain.js';
import type { AsOf, DueItem, WorkInput } from '../model/care.js';
import { priorityOf } from '../rules/priority.js';
import { referenceTo } from './references.js';

/** The Task of an open item. What depends on when it was computed is only `authoredOn` and `lastModified`. */
export function taskOf(item: DueItem, policy: Policy, when: AsOf): Task {
  const { rule } = item;
  const [reason] = item.movedBy;
  const held = item.state === 'held' && item.heldBy;
  const input = inputsOf(item);
  return {
    resourceType: 'Task',
    identifier: [{ system: identifierSystem.dueItem, value: item.id }],
    instantiatesUri: ruleUri(rule),
    ...(item.basedOn ? { basedOn: [referenceTo(item.basedOn)] } : {}),
    status: 'requested',
    ...(held
      ? { businessStatus: { coding: [coding('dueState', 'held')], text: `Held: ${held.rule.title}` } }
      : {}),
    intent: item.basedOn ? 'order' : 'plan',
    priority: priorityOf(item),
    code: {
      coding: [coding('lineCareActivity', item.activity)],
      text: displayOf('lineCareActivity', item.activity),
    },
    description: `${displayOf('lineCareActivity', item.activity)}, ${item.target.name}`,
    focus: { ...referenceTo(item.target.device), display: item.target.name },
    for: referenceTo(item.patient),
    authoredOn: when.asOf,
    lastModified: when.asOf,
    reasonCode: { text: rule.title },
    ...(reason ? { reasonReference: referenceTo(reason) } : {}),
    note: [{ text: explain(item, policy).sentence }],
    restriction: { period: { start: item.opens, end: item.dueBy } },
    ...(input.length > 0 ? { input } : {}),
  };
}

function inputsOf(item: DueItem): TaskInput[] {
  const { scope, name } = item.target;
  const site: TaskInput[] =
    scope === 'exit-site' || scope === 'incision'
      ? [{ type: inputType('site'), valueCodeableConcept: { coding: [coding('lineSite', scope)] } }]
      : [];
  const lumen: TaskInput[] =
    scope === 'lumen' && item.target.ref !== item.target.device
      ? [{ type: inputType('lumen'), valueString: name }]
      : [];
  return [...site, ...lumen, ...item.work.map(workInput)];
}

function workInput({ kind, text, value, unit }: WorkInput): TaskInput {
  if (value === undefined || unit === undefined) return { type: inputType(kind), valueString: text };
  return {
    type: inputType(kind),
    valueQuantity: { value: Number(value), unit, system: standard.ucum, code: unit },
  };
}

function inputType(kind: string) {
  return { coding: [coding('taskInput', kind)] };
}
