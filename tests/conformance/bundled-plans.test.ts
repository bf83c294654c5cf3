import { bundledPlan, bundledPlanNames } from '@dwellward/policy';
import type { ActivityDefinition } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { faultsOf } from './r4-validators.js';

// Every bundled PlanDefinition, and every ActivityDefinition that one contains as a resource of its own, before the
// R4 validators of two independent packages.

describe.each(bundledPlanNames)('the bundled policy %s', (name) => {
  const plan = bundledPlan(name);
  const works = (plan.contained ?? []) as ActivityDefinition[];

  it('is a PlanDefinition without error', () => {
    expect(plan.resourceType).toBe('PlanDefinition');
    expect(faultsOf(plan)).toEqual([]);
  });

  it('contains ActivityDefinitions without error, each of the kind Task and each used', () => {
    for (const work of works) {
      expect(work.resourceType).toBe('ActivityDefinition');
      expect(work.kind).toBe('Task');
      expect(faultsOf(work), work.id ?? '').toEqual([]);
    }
    const used = new Set((plan.action ?? []).flatMap(({ definitionCanonical }) => definitionCanonical ?? []));
    expect(works.map(({ id }) => `#${id ?? ''}`).sort()).toEqual([...used].sort());
  });
});

describe('the validators', () => {
  it('find fault with a plan that has one', () => {
    const plan = { ...bundledPlan('base'), status: 'in-use' as 'active' };
    expect(faultsOf(plan)).not.toEqual([]);
    const [work] = bundledPlan('base').contained as ActivityDefinition[];
    expect(faultsOf({ ...work!, kind: 'Chore' as 'Task' })).not.toEqual([]);
  });
});
