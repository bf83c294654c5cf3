import type { Findings } from './findings.js';
import { elementsOf } from './json.js';
import { shaped } from './shape.js';
import { actionShape, type Action, type ConditionElement, type Extension } from './shapes.js';
import { firstEditionElements, reportFirstEdition } from './first-edition.js';

/** An element, and where it stands. */
export interface Placed<Value> {
  readonly value: Value;
  readonly at: Findings;
}

/** An action that is a rule, with what the group lends it that it stands in. */
export interface WholeAction {
  /** Id of the group. */
  readonly group?: string;
  /** Its own elements over those of the group. */
  readonly action: Action;
  readonly findings: Findings;
  /** The place of the action that states an element: its own, or its group’s. */
  placeOf(element: string): Findings;
  /** Of the group, then its own. */
  readonly conditions: readonly Placed<ConditionElement>[];
  /** Its own, and those of the group that it has none of. */
  readonly extensions: readonly Placed<Extension>[];
}

/** A group, with the actions in it. */
export interface Group {
  readonly action: Action;
  readonly findings: Findings;
  readonly members: readonly WholeAction[];
}

// What a group lends to its actions; conditions and extensions are joined one by one.
const lent = (key: string): boolean =>
  ['title', 'priority', 'documentation', 'trigger', 'relatedAction', 'participant'].includes(key) ||
  key.startsWith('timing');

/** Whether an action is switched off: one of its applicability conditions is `false`. */
export function isOff({ condition = [] }: Action): boolean {
  return condition.some(
    ({ kind, expression }) => kind === 'applicability' && expression?.expression?.trim() === 'false',
  );
}

/** The shape of an action, with its place; undefined where it is none, which is said. */
export function shapeOf(given: unknown, findings: Findings): Placed<Action> | undefined {
  const parsed = shaped(actionShape, given);
  if (!parsed.success) {
    findings.issues(parsed.error, 'PlanDefinition.action');
    return undefined;
  }
  const at = findings.at('', parsed.data.id);
  checkId(parsed.data, at);
  return { value: parsed.data, at };
}

function checkId({ id }: Action, at: Findings): void {
  if (/^[A-Za-z0-9.-]{1,64}$/.test(id ?? '')) return;
  at.error(
    'id',
    'bad-id',
    id === undefined ? '{element} is missing' : '{element} is not an id',
    'Use 1 to 64 letters, digits, hyphens and dots, such as dressing-change-gauze.',
  );
}

/** An action that stands in no group. */
export function alone({ value: action, at: findings }: Placed<Action>): WholeAction {
  return {
    action,
    findings,
    placeOf: () => findings,
    conditions: (action.condition ?? []).map((value, index) => ({
      value,
      at: findings.at(`condition[${index}]`),
    })),
    extensions: (action.extension ?? []).map((value, index) => ({
      value,
      at: findings.at(`extension[${index}]`),
    })),
  };
}

/** Reads an action that has others in it. */
export function readGroup({ value: action, at: findings }: Placed<Action>): Group {
  reportGroup(action, findings);
  const given = action.action ?? [];
  const members = given.flatMap((one, index) => {
    const member = shapeOf(one, findings.at(`action[${index}]`, undefined));
    if (member === undefined) return [];
    if (member.value.action !== undefined) {
      member.at.error(
        'action',
        'deep-group',
        'A group in a group can’t be kept',
        'Give the plan one group for each, with its rules in it.',
      );
    }
    return [inGroup(alone(member), alone({ value: action, at: findings }))];
  });
  if (given.length === 0)
    findings.error(
      'action',
      'empty-group',
      '{element} has no action in it',
      'Add its rules, or leave action out.',
    );
  return { action, findings, members };
}

function inGroup(member: WholeAction, group: WholeAction): WholeAction {
  const own = new Set(elementsOf(member.action));
  const timed = [...own].some((key) => key.startsWith('timing'));
  const takes = (key: string): boolean => lent(key) && !own.has(key) && !(timed && key.startsWith('timing'));
  const taken = Object.entries(group.action).filter(([key, value]) => value !== undefined && takes(key));
  const urls = new Set(member.extensions.map(({ value }) => value.url));
  return {
    ...(group.action.id === undefined ? {} : { group: group.action.id }),
    action: { ...Object.fromEntries(taken), ...member.action },
    findings: member.findings,
    placeOf: (element) => (takes(element) && element in group.action ? group : member).findings,
    conditions: [...group.conditions, ...member.conditions],
    extensions: [...group.extensions.filter(({ value }) => !urls.has(value.url)), ...member.extensions],
  };
}

const described = new Set(['id', 'extension', 'description', 'textEquivalent', 'prefix', 'reason', 'action']);

/** Says of a group what it can’t have, and what of it is not used. */
function reportGroup(action: Action, findings: Findings): void {
  reportFirstEdition(action, findings);
  for (const key of elementsOf(action)) {
    if (lent(key) || described.has(key) || key === 'condition') continue;
    if (key === 'code' || key === 'definitionCanonical') {
      findings.error(
        key,
        'group-with-activity',
        'A group does nothing itself',
        `Give ${key} to each action in it.`,
      );
    } else if (key === 'selectionBehavior' && action[key] !== 'all') {
      findings.error(
        key,
        'unread-element',
        '{element} can’t be kept',
        'All rules of a group apply: leave it out.',
      );
    } else reportUnused(key, findings);
  }
}

/** Says of an element of an action that it is not used, or that its meaning is not known. */
export function reportUnused(key: string, findings: Findings): void {
  if (firstEditionElements.has(key)) return;
  if (key === 'modifierExtension')
    findings.error(key, 'unknown-modifier', 'The meaning of {element} is not known', 'Leave it out.');
  else
    findings.warning(
      key,
      'unused-element',
      '{element} is not used',
      'Leave it out, or say in documentation what it stands for.',
    );
}
