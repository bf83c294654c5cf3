import type { CodeableConcept, Task, TaskInput } from 'fhir/r4.js';
import { coding, identifierSystem, standard, writtenProfile } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { explain, ruleUri } from '../explain/explain.js';
import type { AsOf, DueItem, WorkInput } from '../model/care.js';
import type { Say } from '../words/say.js';
import type { LineRecord, Ref } from '../model/record.js';
import { priorityOf } from '../rules/priority.js';
import { carePolicies, ourName, withPolicies, withProfile, withWorkedOut } from './own.js';
import { without } from './parts.js';
import { referenceTo } from './references.js';

/**
 * The Task of an open item. What depends on when it was computed is only how far it is (`businessStatus`), `authoredOn`
 * and `lastModified`; that and the place are no facts that it was worked out from.
 * @param at where the patient is, as far as it is known.
 */
export function taskOf(item: DueItem, policy: Policy, when: AsOf, say: Say, at?: Ref): Task {
  const task = plainTask(item, policy, when, say);
  const facts = without(task, 'businessStatus', 'authoredOn', 'lastModified');
  // With nothing to count from the item is due whenever it is looked at: its window is no fact that moves.
  const lasting = item.countedFrom.basis === 'nothing' ? without(facts, 'restriction') : facts;
  const worked = withPolicies(withWorkedOut(task, JSON.stringify(lasting)), carePolicies(policy, when));
  const placed = at === undefined ? worked : { ...worked, location: referenceTo(at) };
  return withProfile(placed, writtenProfile.dueCareTask);
}

/** By line: where its patient is now, as far as the record names a place. */
export function placesOf(lines: readonly LineRecord[]): ReadonlyMap<Ref, Ref> {
  return new Map(lines.flatMap(({ ref, patient: { at } }) => (at === undefined ? [] : [[ref, at]])));
}

/** Lists for a work queue: `Task?business-status=overdue` finds what nobody has done in time. */
function businessStatusOf({ state, heldBy }: DueItem, say: Say): CodeableConcept {
  const held = state === 'held' && heldBy;
  return {
    coding: [coding('dueState', state)],
    ...(held ? { text: say({ code: 'held-by', title: held.rule.title }) } : {}),
  };
}

function plainTask(item: DueItem, policy: Policy, when: AsOf, say: Say): Task {
  const { rule, activity, target } = item;
  const [reason] = item.movedBy;
  const input = inputsOf(item, say);
  return {
    resourceType: 'Task',
    identifier: [{ system: identifierSystem.dueItem, value: item.id }],
    ...(item.visit ? { groupIdentifier: { system: identifierSystem.visit, value: item.visit } } : {}),
    instantiatesUri: ruleUri(rule),
    ...(item.basedOn ? { basedOn: [referenceTo(item.basedOn)] } : {}),
    status: 'requested',
    businessStatus: businessStatusOf(item, say),
    intent: item.basedOn ? 'order' : 'plan',
    priority: priorityOf(item),
    code: {
      coding: [coding('lineCareActivity', activity)],
      text: say({ code: 'activity', activity }),
    },
    description: say({ code: 'activity-at', activity, target: target.name }),
    focus: { ...referenceTo(target.device), display: say(target.name) },
    for: referenceTo(item.patient),
    authoredOn: when.asOf,
    lastModified: when.asOf,
    reasonCode: { text: say({ code: 'policy-text', text: rule.title }) },
    ...(reason ? { reasonReference: referenceTo(reason) } : {}),
    note: [...item.questions.map(say), say(explain(item, policy).sentence)].map((text) => ({
      authorString: ourName,
      text,
    })),
    restriction: { period: { start: item.opens, end: item.dueBy } },
    ...(input.length > 0 ? { input } : {}),
  };
}

function inputsOf(item: DueItem, say: Say): TaskInput[] {
  const { scope, name } = item.target;
  const site: TaskInput[] =
    scope === 'exit-site' || scope === 'incision'
      ? [{ type: inputType('site'), valueCodeableConcept: { coding: [coding('lineSite', scope)] } }]
      : [];
  const lumen: TaskInput[] =
    scope === 'lumen' && item.target.ref !== item.target.device
      ? [{ type: inputType('lumen'), valueString: say(name) }]
      : [];
  const questions = item.questions.map((question): TaskInput => ({
    type: inputType('question'),
    valueString: say(question),
  }));
  return [...site, ...lumen, ...questions, ...item.work.map((one) => workInput(one, say))];
}

function workInput({ kind, text, value, unit }: WorkInput, say: Say): TaskInput {
  if (value === undefined || unit === undefined) return { type: inputType(kind), valueString: say(text) };
  return {
    type: inputType(kind),
    valueQuantity: { value: Number(value), unit, system: standard.ucum, code: unit },
  };
}

function inputType(kind: string) {
  return { coding: [coding('taskInput', kind)] };
}
