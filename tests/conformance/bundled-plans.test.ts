import { bundledActivities, bundledPlan, bundledPlanNames, policyTemplate } from '@dwellward/policy';
import { codeSystems } from '@dwellward/profiles';
import type { CodeSystemConceptProperty, FhirResource, PlanDefinitionAction } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { figure } from '../figure.js';
import { declarations } from './declarations.js';
import { extensionFaultsOf, faultsOf } from './r4-validators.js';

// Every bundled PlanDefinition, ActivityDefinition, extension and CodeSystem before the R4 validators of two independent
// packages; and what neither of them looks at.

const kinds: readonly (readonly [string, readonly FhirResource[]])[] = [
  ['PlanDefinition', [...bundledPlanNames.map(bundledPlan), policyTemplate()]],
  ['ActivityDefinition', bundledActivities],
  ['StructureDefinition', declarations],
  ['CodeSystem', codeSystems()],
];

const definitionsIn = (actions: readonly PlanDefinitionAction[] = []): string[] =>
  actions.flatMap(({ definitionCanonical, action }) => [
    ...(definitionCanonical === undefined ? [] : [definitionCanonical]),
    ...definitionsIn(action),
  ]);

describe('both validators', () => {
  it.for(kinds)('accept every %s', ([kind, resources], context) => {
    expect(resources.length).toBeGreaterThan(10);
    const faults = resources.flatMap((resource) =>
      faultsOf(resource).map((one) => `${resource.id ?? ''}: ${one}`),
    );
    expect(resources.filter(({ resourceType }) => resourceType !== kind)).toEqual([]);
    expect(faults).toEqual([]);
    figure(context, `${resources.length} ${kind}s`);
  });

  it('find fault with a resource of each kind that has one', () => {
    const [plan, activity, declaration, system] = kinds.map(([, resources]) => resources[0]);
    expect(faultsOf({ ...plan, status: 'in-use' } as never)).not.toEqual([]);
    expect(faultsOf({ ...activity, kind: 'Chore' } as never)).not.toEqual([]);
    expect(faultsOf({ ...declaration, derivation: 'copy' } as never)).not.toEqual([]);
    expect(faultsOf({ ...system, content: undefined } as never)).not.toEqual([]);
  });
});

describe('the bundled ActivityDefinitions', () => {
  it.each(bundledActivities.map((activity) => [activity.id, activity] as const))(
    '%s forbids by R4’s own word or asks for a Task',
    (id, activity) => {
      expect(activity.url).toBe(`https://dwellward.example/fhir/ActivityDefinition/${id ?? ''}`);
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

describe('the extensions', () => {
  it('stand where they are declared to stand, with a value of the declared type', () => {
    const faults = kinds
      .slice(0, 2)
      .flatMap(([, resources]) => resources)
      .flatMap((resource) =>
        extensionFaultsOf(resource, declarations).map((one) => `${resource.id ?? ''}: ${one}`),
      );
    expect(faults).toEqual([]);
  });

  const url = (id: string) => `https://dwellward.example/fhir/StructureDefinition/${id}`;
  const scope = { url: url('rule-scope'), valueCode: 'lumen' };
  it.each([
    ['is not declared', 'action', { url: url('rule-colour'), valueCode: 'red' }],
    ['rule-scope may not stand in PlanDefinition', 'plan', scope],
    ['rule-scope has a string', 'action', { url: url('rule-scope'), valueString: 'lumen' }],
    ['rule-scope has a nothing', 'action', { url: url('rule-scope') }],
    ['named-expression: Missing required property', 'plan', namedWithout(url('named-expression'))],
  ])('would not pass: %s', (fault, place, extension) => {
    const plan: FhirResource = {
      ...bundledPlan('base'),
      extension: place === 'plan' ? [extension] : [],
      action: [{ id: 'a', extension: place === 'action' ? [extension] : [scope] }],
    };
    expect(extensionFaultsOf(plan, declarations).join('; ')).toContain(fault);
  });
});

function namedWithout(url: string) {
  return { url, valueExpression: { language: 'text/fhirpath', expression: 'true' } as const };
}

describe('the code systems', () => {
  // HL7 FHIR R4, CodeSystem.concept.property.code: a reference to CodeSystem.property.code, with a value of its type.
  it('give a concept only properties that they define, each of the defined type', () => {
    const wrong = codeSystems().flatMap(({ id, property = [], concept = [] }) =>
      concept.flatMap((one) =>
        (one.property ?? [])
          .filter((given) => !hasType(given, property.find(({ code }) => code === given.code)?.type))
          .map((given) => `${id ?? ''} ${one.code} ${given.code}`),
      ),
    );
    expect(wrong).toEqual([]);
  });
});

function hasType(given: CodeSystemConceptProperty, type: string | undefined): boolean {
  if (type === undefined) return false;
  const values = Object.keys(given).filter((key) => key !== 'code');
  return values.join() === `value${type[0]?.toUpperCase() ?? ''}${type.slice(1)}`;
}
