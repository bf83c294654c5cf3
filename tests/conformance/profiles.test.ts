import { dueBundle, dueCare, readRecords, transactionFor } from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan, bundledPlanNames, defaultPlans, readPolicy } from '@dwellward/policy';
import { identifierSystem } from '@dwellward/profiles';
import type { FhirResource, StructureDefinition } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { caseNames, readCase } from '../cases/read-case.js';
import { structuralVariants, variants } from './broken-variants.js';
import {
  allFaultsOf,
  conformanceResources,
  profileFaultsOf,
  profileOf,
  structureDefinitions,
} from './profiles.js';
import { extensionFaultsOf, faultsOf } from './r4-validators.js';
import { requiredCodesOf, elementsOf } from './r4-elements.js';

const reading = readPolicy([...defaultPlans(), bundledPlan('neutropenia')]);
if (!reading.ok) throw new Error('The default policy is refused.');

/** All that is written of a record. */
function written(
  entries: readonly { readonly resource: unknown }[],
  asOf: string,
  zone: string,
  policy = reading,
): FhirResource[] {
  if (!policy.ok) throw new Error('The policy is refused.');
  const when = { asOf, zone };
  const records = readRecords(entries);
  const cares = records.lines.map((line) => dueCare(line, policy.policy, when));
  const bundle = dueBundle(records, cares, policy.policy, when);
  const transaction = transactionFor({ records, cares, policy: policy.policy, when, existing: [] });
  return [bundle, transaction].flatMap((one) =>
    (one?.entry ?? []).flatMap(({ resource }) => (resource ? [resource as FhirResource] : [])),
  );
}

const demo = written(
  (demoUnit().entry ?? []).map(({ resource }) => ({ resource })),
  demoInstant,
  demoZone,
);
// Every sixth, and those of the oddest records.
const sample = caseNames.filter((name, at) => at % 6 === 0 || name.includes('urn'));
const cases = sample.flatMap((name) => {
  const { entries, expected, policy } = readCase(name);
  return written(entries, expected.asOf, expected.zone, { ok: true, policy, findings: [] });
});
const declared = (id: string) => profileOf(id).url;
const exampleOf = (file: string) => {
  const found = conformanceResources.get(file);
  if (found === undefined) throw new Error(`There is no ${file}.`);
  return found;
};

/** A sound resource of each profile. */
const sound: Readonly<Record<string, FhirResource>> = {
  'due-care-task': demo.find((one) => one.resourceType === 'Task' && (one.input?.length ?? 0) > 0)!,
  'hold-flag': demo.find(
    (one) => one.resourceType === 'Flag' && one.identifier?.[0]?.system === identifierSystem.hold,
  )!,
  'lumen-flag': demo.find(
    (one) => one.resourceType === 'Flag' && one.identifier?.[0]?.system === identifierSystem.lumenWarning,
  )!,
  'record-issue': demo.find((one) => one.resourceType === 'DetectedIssue')!,
  'due-care-provenance': demo.find((one) => one.resourceType === 'Provenance')!,
  'central-line': exampleOf('Device-line.json'),
  'line-lumen': exampleOf('Device-line-red.json'),
  'line-care-event': exampleOf('Procedure-dressing-change.json'),
  'line-finding': exampleOf('Observation-blood-return.json'),
  'care-policy-plan': bundledPlan('base') as unknown as FhirResource,
  'care-activity': readActivity(),
};

function readActivity(): FhirResource {
  const [one] = (bundledPlan('base') as unknown as { contained?: FhirResource[] }).contained ?? [];
  return (
    one ??
    ({
      resourceType: 'ActivityDefinition',
      url: 'https://hospital.example/ActivityDefinition/a',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [{ system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity', code: 'flush' }],
      },
    } satisfies FhirResource)
  );
}

describe('profiles', () => {
  it('are sound themselves, as two validators see it, each with a snapshot, and so is all else that is packed', ({
    task,
  }) => {
    for (const [name, resource] of conformanceResources) expect(faultsOf(resource), name).toEqual([]);
    for (const { id, snapshot } of structureDefinitions)
      expect(snapshot?.element.length, id).toBeGreaterThan(3);
    Object.assign(task.meta, { packed: conformanceResources.size });
  });

  it.each(Object.entries(sound))('%s holds of a sound resource', (id, resource) => {
    expect(allFaultsOf(resource, [declared(id)])).toEqual({ first: [], second: [], profile: [] });
  });

  it('stand on everything that is written, and hold of it: the demo unit and a sample of the cases', ({
    task,
  }) => {
    const all = [...demo, ...cases];
    for (const resource of all) {
      expect(resource.meta?.profile, resource.resourceType).toHaveLength(1);
      expect(profileFaultsOf(resource), JSON.stringify(resource).slice(0, 300)).toEqual([]);
      const extensions = structureDefinitions.filter(({ type }) => type === 'Extension');
      const unknown = extensionFaultsOf(resource, extensions).filter((one) => !one.includes('flag-detail'));
      expect(unknown).toEqual([]);
    }
    Object.assign(task.meta, { written: all.length });
  }, 120_000);

  it('hold of every bundled plan', ({ task }) => {
    for (const name of bundledPlanNames)
      expect(
        profileFaultsOf(bundledPlan(name) as unknown as FhirResource, [declared('care-policy-plan')]),
        name,
      ).toEqual([]);
    Object.assign(task.meta, { plans: bundledPlanNames.length });
  });

  it('take no code of R4 that it does not have', () => {
    const profiles = structureDefinitions.filter(
      (one): one is StructureDefinition => one.type !== 'Extension',
    );
    for (const one of profiles)
      expect(() => requiredCodesOf(elementsOf('StructureDefinition', one))).not.toThrow();
  });
});

const structural = Object.entries(sound).flatMap(([id, resource]) => structuralVariants(id, resource));

describe('a fault that R4 lets nobody make', () => {
  let both = 0;

  it.each(structural)('$of: $fault', ({ of, spoil }) => {
    const resource = structuredClone(sound[of]) as FhirResource;
    spoil(resource as never);
    const { first, second } = allFaultsOf(resource, []);
    expect([...first, ...second], 'neither validator says it').not.toEqual([]);
    if (first.length > 0 && second.length > 0) both += 1;
  });

  it('is seen by both validators, of eighty and more', ({ task }) => {
    Object.assign(task.meta, { structural: structural.length, both });
    expect(both).toBeGreaterThanOrEqual(80);
  });
});

describe('a fault that a profile lets nobody make', () => {
  it('is of one of eighty kinds at least, each once', () => {
    const names = variants.map(({ of, fault }) => `${of}: ${fault}`);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThanOrEqual(80);
  });

  const caughtBy = new Map<string, number>();

  it.each(variants)('$of: $fault', ({ of, spoil }) => {
    const resource = structuredClone(sound[of]) as FhirResource;
    spoil(resource as never);
    const faults = allFaultsOf(resource, [declared(of)]);
    const caught = Object.entries(faults).flatMap(([who, said]) => (said.length > 0 ? [who] : []));
    expect(caught, 'nobody says it').not.toEqual([]);
    for (const who of caught) caughtBy.set(who, (caughtBy.get(who) ?? 0) + 1);
  });

  it('is found by what sees it', ({ task }) => {
    const { first = 0, second = 0, profile = 0 } = Object.fromEntries(caughtBy);
    Object.assign(task.meta, { variants: variants.length, first, second, profile });
    expect(Math.min(first, second, profile)).toBeGreaterThan(0);
  });
});
