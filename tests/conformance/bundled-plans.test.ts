import { readFileSync, readdirSync } from 'node:fs';
import { bundledActivities, bundledPlan, bundledPlanNames, policyTemplate } from '@dwellward/policy';
import type { PlanDefinitionAction, StructureDefinition } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { faultsOf } from './r4-validators.js';

// Every bundled PlanDefinition, ActivityDefinition and extension before the R4 validators of two independent packages.

const resources = new URL('../../packages/policy/resources/', import.meta.url);
const declarations = readdirSync(resources)
  .filter((name) => name.startsWith('StructureDefinition-'))
  .map((name) => JSON.parse(readFileSync(new URL(name, resources), 'utf8')) as StructureDefinition);

const definitionsIn = (actions: readonly PlanDefinitionAction[] = []): string[] =>
  actions.flatMap(({ definitionCanonical, action }) => [
    ...(definitionCanonical === undefined ? [] : [definitionCanonical]),
    ...definitionsIn(action),
  ]);

describe.each(bundledPlanNames)('the bundled policy %s', (name) => {
  it('is a PlanDefinition without error', () => {
    const plan = bundledPlan(name);
    expect(plan.resourceType).toBe('PlanDefinition');
    expect(faultsOf(plan)).toEqual([]);
  });
});

describe('the starting policy', () => {
  it('is a PlanDefinition without error', () => {
    expect(faultsOf(policyTemplate())).toEqual([]);
  });
});

describe('the bundled ActivityDefinitions', () => {
  it.each(bundledActivities.map((activity) => [activity.id, activity] as const))(
    '%s is without error, and forbids by R4’s own word or asks for a Task',
    (id, activity) => {
      expect(activity.url).toBe(`https://dwellward.example/fhir/ActivityDefinition/${id ?? ''}`);
      expect(faultsOf(activity)).toEqual([]);
      const forbids = id?.startsWith('no-') === true;
      expect(activity.doNotPerform ?? false).toBe(forbids);
      // R4’s Task can’t say that something is not to be done.
      expect(activity.kind).toBe(forbids ? 'ServiceRequest' : 'Task');
      if (forbids) expect(id).toBe(`no-${activity.code?.coding?.[0]?.code ?? ''}`);
    },
  );

  it('are each used by a plan, but for the bans that a hospital may need', () => {
    const used = new Set(bundledPlanNames.flatMap((name) => definitionsIn(bundledPlan(name).action)));
    const unused = bundledActivities.filter(({ url, doNotPerform }) => !used.has(url ?? '') && !doNotPerform);
    expect(unused.map(({ id }) => id)).toEqual([]);
    const known = new Set(bundledActivities.map(({ url }) => url));
    expect([...used].filter((url) => !known.has(url))).toEqual([]);
  });
});

// DEVELOPERS.md puts R4’s words beside ours for every element in use.
describe('the elements of an action', () => {
  const developers = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
  const rows = [...developers.matchAll(/^\| `(\w+)`(?: \(([\w-]+)\))? +\|/gm)];
  const described = new Set(rows.map(([, element, kind]) => [element, kind].filter(Boolean).join(' ')));

  const elementsIn = (actions: readonly PlanDefinitionAction[] = []): string[] =>
    actions.flatMap(({ condition = [], relatedAction = [], trigger = [], ...others }) => [
      ...Object.keys(others),
      ...condition.map(({ kind }) => `condition ${kind}`),
      ...relatedAction.map(({ relationship }) => `relatedAction ${relationship}`),
      ...trigger.map(({ type }) => `trigger ${type}`),
      ...elementsIn(others.action),
    ]);

  it('are those of the table, each used', () => {
    const used = new Set(bundledPlanNames.flatMap((name) => elementsIn(bundledPlan(name).action)));
    expect([...used].sort()).toEqual([...described].sort());
  });
});

describe('the extensions', () => {
  it.each(declarations.map((one) => [one.id, one] as const))('%s is declared without error', (_, one) => {
    expect(faultsOf(one)).toEqual([]);
  });
});

describe('the validators', () => {
  it('find fault with a plan and an ActivityDefinition that have one', () => {
    expect(faultsOf({ ...bundledPlan('base'), status: 'in-use' as 'active' })).not.toEqual([]);
    const [activity] = bundledActivities;
    expect(faultsOf({ ...activity!, kind: 'Chore' as 'Task' })).not.toEqual([]);
  });
});
