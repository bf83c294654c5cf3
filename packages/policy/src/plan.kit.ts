import { codeSystem, policyExtension } from '@dwellward/profiles';
import { readPolicy, type LintFinding, type Policy, type PolicyOptions, type Rule } from './index.js';

// PlanDefinitions in few words, for tests. Everything in them is invented.

export type Json = Record<string, unknown>;

export const cited = { type: 'citation', citation: 'Guideline 2011, recommendation 7 (category IB)' };
export const uncited = {
  type: 'documentation',
  display: 'Common practice, no source',
  extension: [{ url: policyExtension.sourceCertainty, valueCode: 'common-practice' }],
};
export const reason = { type: 'justification', display: 'Agreed in our infection control meeting.' };

export const every = (period: number, periodUnit: string) => ({
  repeat: { frequency: 1, period, periodUnit },
});
export const lasting = (value: number, unit: string) => ({
  repeat: { boundsDuration: { value, code: unit } },
});
export const span = (value: number, unit: string) => ({ value, code: unit });

export const when = (expression: string, kind = 'applicability') => ({
  kind,
  expression: { language: 'text/fhirpath', expression },
});
export const until = (expression: string) => when(expression, 'stop');
export const code = (activity: string) => [
  { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
];
export const scope = (valueCode: string) => ({ url: policyExtension.ruleScope, valueCode });
export const named = (name: string, expression: string) => ({
  url: policyExtension.namedExpression,
  valueExpression: { name, language: 'text/fhirpath', expression },
});

/** An action that asks for a dressing change every seven days, unless `more` says otherwise. */
export function action(id: string, more: Json = {}): Json {
  return { id, code: code('dressing-change'), documentation: [cited], timingTiming: every(7, 'd'), ...more };
}

/** An action of an activity that says nothing of when, unless `more` does. */
export function act(id: string, activity: string, more: Json = {}): Json {
  return { id, code: code(activity), documentation: [uncited], ...more };
}

export const off = (id: string, more: Json = {}): Json => ({ id, condition: [when('false')], ...more });

/** A trigger: a finding with any of these values, or with any at all. */
export function found(finding: string, ...values: string[]): Json {
  return dataAdded('Observation', [
    { path: 'code', code: [{ system: codeSystem.lineFinding, code: finding }] },
    ...(values.length > 0 ? [{ path: 'value', code: values.map((value) => ({ code: value })) }] : []),
  ]);
}

/** A trigger: the activity was done. */
export const done = (activity: string): Json => dataAdded('Procedure', [activityFilter(activity)]);

/** A trigger: an order plans the activity. */
export const ordered = (activity: string): Json => dataAdded('ServiceRequest', [activityFilter(activity)]);

function activityFilter(activity: string): Json {
  return { path: 'code', code: [{ system: codeSystem.lineCareActivity, code: activity }] };
}

export function dataAdded(type: string, codeFilter: unknown[]): Json {
  return { type: 'data-added', data: [{ type, codeFilter }] };
}

export const before = (actionId: string, value?: number, unit = 'h') => [
  {
    actionId,
    relationship: 'before-start',
    ...(value === undefined ? {} : { offsetDuration: { value, code: unit } }),
  },
];

/** An ActivityDefinition that asks. */
export function work(id: string, activity: string, ...extension: Json[]): Json {
  return {
    resourceType: 'ActivityDefinition',
    id,
    url: `https://hospital.example/ActivityDefinition/${id}`,
    status: 'active',
    kind: 'Task',
    intent: 'plan',
    code: code(activity)[0],
    ...(extension.length > 0 ? { extension } : {}),
  };
}

/** An ActivityDefinition that forbids. */
export function no(activity: string): Json {
  return { ...work(`no-${activity}`, activity), kind: 'ServiceRequest', doNotPerform: true };
}

/** An action that forbids an activity; its definition is `no(activity)`. */
export function ban(id: string, activity: string, more: Json = {}): Json {
  return act(id, activity, { definitionCanonical: noUrl(activity), ...more });
}

export const noUrl = (activity: string) => `https://hospital.example/ActivityDefinition/no-${activity}`;

export function plan(name: string, actions: unknown[], more: Json = {}): Json {
  return {
    resourceType: 'PlanDefinition',
    url: `https://hospital.example/${name}`,
    version: '1',
    status: 'active',
    title: name,
    action: actions,
    ...more,
  };
}

// At hand in every reading of these tests.
const activities = ['infusion-start', 'flush', 'lock', 'bath', 'dressing-change'].map(no);

export const options: PolicyOptions = { activities };

export function read(...layers: unknown[]) {
  return readPolicy(layers, options);
}

export function errors(findings: readonly LintFinding[]): readonly LintFinding[] {
  return findings.filter(({ severity }) => severity === 'error');
}

export function policyOf(...layers: unknown[]): Policy {
  const reading = read(...layers);
  if (!reading.ok) throw new Error(JSON.stringify(errors(reading.findings), undefined, 1));
  return reading.policy;
}

/** The rules of one plan with these actions, by their ids. */
export function rulesOf(...actions: Json[]): Readonly<Record<string, Rule>> {
  return Object.fromEntries(policyOf(plan('a', actions)).rules.map((rule) => [rule.id, rule]));
}

/** The only rule of a plan with this action. */
export function ruleOf(one: Json, more: Json = {}): Rule {
  const [rule, ...others] = policyOf(plan('a', [one], more)).rules;
  if (rule === undefined || others.length > 0) throw new Error('not one rule');
  return rule;
}

/** The only error of these layers. */
export function onlyError(...layers: unknown[]): LintFinding {
  const wrong = errors(read(...layers).findings);
  const [first] = wrong;
  if (first === undefined || wrong.length > 1)
    throw new Error(`not one error: ${JSON.stringify(wrong, undefined, 1)}`);
  return first;
}
