import { bundledActivities, bundledPlan, bundledPlanNames } from '@dwellward/policy';
import type { ActivityDefinition, PlanDefinitionAction } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { faultsOf } from './r4-validators.js';

// Every bundled PlanDefinition and ActivityDefinition before the R4 validators of two independent packages.

const definitionsOf = (actions: readonly PlanDefinitionAction[] = []): string[] =>
  actions.flatMap(({ definitionCanonical, action }) => [
    ...(definitionCanonical === undefined ? [] : [definitionCanonical]),
    ...definitionsOf(action),
  ]);
const named = new Map(bundledPlanNames.map((name) => [name, definitionsOf(bundledPlan(name).action)]));
const urls = bundledActivities.map(({ url }) => url ?? '');

describe.each(bundledPlanNames)('the bundled policy %s', (name) => {
  const plan = bundledPlan(name);

  it('is a PlanDefinition without error', () => {
    expect(plan.resourceType).toBe('PlanDefinition');
    expect(faultsOf(plan)).toEqual([]);
  });

  it('names bundled ActivityDefinitions only, and contains none of its own', () => {
    expect(plan.contained ?? []).toEqual([]);
    expect((named.get(name) ?? []).filter((canonical) => !urls.includes(canonical))).toEqual([]);
  });
});

describe('the bundled ActivityDefinitions', () => {
  it.each(bundledActivities.map((activity) => [activity.id ?? '', activity] as const))(
    '%s is without error, of the kind of what it makes',
    (_, activity) => {
      expect(activity.resourceType).toBe('ActivityDefinition');
      // R4’s Task can’t say what is not to be done: a ServiceRequest can.
      expect(activity.kind).toBe(activity.doNotPerform === true ? 'ServiceRequest' : 'Task');
      expect(faultsOf(activity)).toEqual([]);
    },
  );

  it('have a url of their own each', () => {
    expect(new Set(urls).size).toBe(bundledActivities.length);
    expect(urls).not.toContain('');
  });

  it('that ask are each named by a plan, and some that forbid', () => {
    const used = new Set([...named.values()].flat());
    const isUsed = ({ url }: ActivityDefinition) => used.has(url ?? '');
    const [bans, asks] = [true, false].map((ban) =>
      bundledActivities.filter(({ doNotPerform = false }) => doNotPerform === ban),
    );
    expect(asks?.filter((one) => !isUsed(one)).map(({ id }) => id)).toEqual([]);
    // A hospital’s own plan may forbid what no bundled one does.
    expect(bans?.filter(isUsed).length).toBeGreaterThan(5);
  });
});

describe('the validators', () => {
  it('find fault with a plan and with a definition that has one', () => {
    const plan = { ...bundledPlan('base'), status: 'in-use' as 'active' };
    expect(faultsOf(plan)).not.toEqual([]);
    const [activity] = bundledActivities;
    expect(faultsOf({ ...activity!, kind: 'Chore' as 'Task' })).not.toEqual([]);
  });
});
