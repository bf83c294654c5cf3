import { createRequire } from 'node:module';
import { readFileSync, readdirSync } from 'node:fs';
import type * as Medplum from '@medplum/core';
import { codeSystems, valueSets } from '@dwellward/profiles';
import type {
  CodeableConcept,
  ElementDefinition,
  FhirResource,
  Reference,
  StructureDefinition,
} from 'fhir/r4.js';
import { declarations } from './declarations.js';
import { faultsOf } from './r4-validators.js';

// The profiles as they are packed, and what speaks against a resource that declares one: what is said of any R4 resource by
// two validators, what one of them says by the profile’s snapshot (the other reads none), and what neither looks at in a
// profile: the codes of our value sets, the types of a choice, the types that a reference leads to. What a slice asks of
// the inside of its elements nobody checks.

const { loadDataType, validateResource } = createRequire(import.meta.url)('@medplum/core') as typeof Medplum;
const folder = new URL('../../packages/profiles/resources/', import.meta.url);

/** Every resource of the profiles, by its file name. */
export const conformanceResources: ReadonlyMap<string, FhirResource> = new Map(
  readdirSync(folder).map((name) => [
    name,
    JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as FhirResource,
  ]),
);

/** The profiles and extensions, those of the policies among them. */
export const structureDefinitions: readonly StructureDefinition[] = [
  ...[...conformanceResources.values()].filter((one) => one.resourceType === 'StructureDefinition'),
  ...declarations,
];

// Slices of extensions are told apart by the declarations.
for (const one of structureDefinitions) if (one.type === 'Extension') loadDataType(one as never);

const byUrl = new Map(structureDefinitions.map((one) => [one.url, one]));

/** The profile with this id. */
export function profileOf(id: string): StructureDefinition {
  const found = byUrl.get(`https://dwellward.example/fhir/StructureDefinition/${id}`);
  if (found === undefined) throw new Error(`There is no profile ${id}.`);
  return found;
}

/** What the profiles that a resource declares say against it. */
export function profileFaultsOf(
  resource: FhirResource,
  profiles: readonly string[] = resource.meta?.profile ?? [],
): string[] {
  return profiles.flatMap((url) => {
    const profile = byUrl.get(url);
    if (profile === undefined) return [`${url} is no profile of ours`];
    return [
      ...byProfile(resource, profile),
      ...bindingFaultsOf(resource, profile),
      ...choiceFaultsOf(resource, profile),
      ...referenceFaultsOf(resource, profile),
    ];
  });
}

function byProfile(resource: FhirResource, profile: StructureDefinition): string[] {
  try {
    validateResource(resource as never, { profile: profile as never });
    return [];
  } catch (error) {
    return [`by profile: ${error instanceof Error ? error.message : String(error)}`];
  }
}

/** Everything that speaks against a resource, by who says it. */
export function allFaultsOf(resource: FhirResource, profiles?: readonly string[]) {
  const [first, second] = ['fhir', 'medplum'].map((who) =>
    faultsOf(resource).filter((fault) => fault.startsWith(`${who}:`)),
  );
  return { first: first ?? [], second: second ?? [], profile: profileFaultsOf(resource, profiles) };
}

const codesIn = new Map(
  valueSets().map((one) => [
    one.url,
    new Set(
      (one.compose?.include ?? []).flatMap(({ system, concept }) =>
        (concept ?? codeSystems().find(({ url }) => url === system)?.concept ?? []).map(
          ({ code }) => `${system ?? ''}|${code}`,
        ),
      ),
    ),
  ]),
);

/** Codes of elements that are bound to a value set of ours, and stand in none of it. */
function bindingFaultsOf(resource: FhirResource, { snapshot }: StructureDefinition): string[] {
  return (snapshot?.element ?? []).flatMap((element) => {
    const codes = codesIn.get(element.binding?.valueSet);
    if (codes === undefined || element.binding?.strength !== 'required') return [];
    return valuesAt(resource, element)
      .filter((value) => !isIn(value, codes))
      .map((value) => `binding: ${element.path} is ${JSON.stringify(value)}`);
  });
}

/** Values of a type that the profile leaves no choice of, which the validators let pass. */
function choiceFaultsOf(resource: FhirResource, { snapshot }: StructureDefinition): string[] {
  return (snapshot?.element ?? []).flatMap(({ path, type = [] }) => {
    const stem = /^[^.]+\.([^.]+)\[x\]$/.exec(path)?.[1];
    if (stem === undefined) return [];
    const taken = type.map(({ code }) => `${stem}${code[0]?.toUpperCase() ?? ''}${code.slice(1)}`);
    return Object.keys(resource)
      .filter((key) => new RegExp(`^${stem}[A-Z]`).test(key) && !taken.includes(key))
      .map((key) => `choice: ${key} is none of ${taken.join(', ')}`);
  });
}

/** References to a type that the profile does not let stand there, which the validators let pass. */
function referenceFaultsOf(resource: FhirResource, { snapshot }: StructureDefinition): string[] {
  return (snapshot?.element ?? []).flatMap((element) => {
    const targets = (element.type ?? []).flatMap(({ code, targetProfile }) =>
      code === 'Reference' ? (targetProfile ?? []) : [],
    );
    const types = targets.map((url) => byUrl.get(url)?.type ?? url.split('/').at(-1) ?? '');
    if (types.length === 0 || types.includes('Resource')) return [];
    return valuesAt(resource, element)
      .map((value) => (value as Reference).reference ?? '')
      .filter((text) => /^[A-Z][A-Za-z]+\//.test(text) && !types.includes(text.split('/')[0] ?? ''))
      .map((text) => `reference: ${element.path} is ${text}, and has to be a ${types.join(' or ')}`);
  });
}

function isIn(value: unknown, codes: ReadonlySet<string>): boolean {
  if (typeof value === 'string') return [...codes].some((one) => one.endsWith(`|${value}`));
  const { coding = [] } = value as CodeableConcept;
  return coding.some(({ system, code }) => codes.has(`${system ?? ''}|${code ?? ''}`));
}

function valuesAt(resource: FhirResource, { path }: ElementDefinition): unknown[] {
  return path
    .split('.')
    .slice(1)
    .reduce<unknown[]>(
      (found, key) =>
        found.flatMap((one) => {
          const member = (one as Record<string, unknown>)[key];
          return member === undefined ? [] : Array.isArray(member) ? (member as unknown[]) : [member];
        }),
      [resource],
    );
}
