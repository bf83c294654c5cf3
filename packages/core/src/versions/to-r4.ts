import type { ResourceEntry } from '../model/resource-entry.js';
import { changes, onlyInR4 } from './changes.js';
import { Draft, isObject, type Json } from './draft.js';
import { fhirVersionOf, versionOfProfiles, type FhirVersion } from './fhir-version.js';

/** Where what is said of a resource’s version and what the resource looks like part. */
export interface VersionDoubt {
  /** What it was named by where it came from. */
  readonly entry: ResourceEntry;
  /** The version that is said: by whoever reads it, by what it stood in, or by its own profiles. */
  readonly said: FhirVersion;
  readonly found: FhirVersion;
  /** Elements that only the version that was found has. */
  readonly elements: readonly string[];
}

/** Elements of two versions in one resource that say different things: none of them was kept. */
export interface VersionContradiction {
  readonly entry: ResourceEntry;
  readonly elements: readonly string[];
}

/** A record in the shape of R4. */
export interface InR4 {
  readonly entries: readonly ResourceEntry[];
  readonly doubts: readonly VersionDoubt[];
  readonly contradictions: readonly VersionContradiction[];
}

/**
 * A record in the shape of R4, whichever of R4, R4B and R5 its resources have: what is read after it knows R4 alone.
 *
 * The shape of each resource decides, because an element of R5 that is read as R4 is lost, and one of R4 that is read as
 * R5 too; most elements are alike. What is said of the version is held against it, and what does not fit is a doubt. The
 * entry of a resource that is none of R5 is the one that was given. Nothing that was given is written to.
 *
 * @param version the version that the whole record is said to have.
 */
export function toR4(given: Iterable<ResourceEntry>, version?: FhirVersion): InR4 {
  const doubts: VersionDoubt[] = [];
  const contradictions: VersionContradiction[] = [];
  const entries: ResourceEntry[] = [];
  for (const entry of given) {
    const { resource } = entry;
    if (!isObject(resource) || typeof resource['resourceType'] !== 'string') {
      entries.push(entry);
      continue;
    }
    const turned = turn(resource, 0);
    for (const elements of turned.contradictions) contradictions.push({ entry, elements });
    const said =
      version ?? (entry.fhirVersion && fhirVersionOf(entry.fhirVersion)) ?? versionOfProfiles(resource);
    if (said && said !== 'R5' && turned.signs.length > 0)
      doubts.push({ entry, said, found: 'R5', elements: turned.signs });
    else if (said === 'R5' || turned.signs.length > 0) {
      const old = (onlyInR4[resource['resourceType']] ?? []).filter((name) => resource[name] !== undefined);
      if (old.length > 0) {
        const elements = old.map((name) => `${String(resource['resourceType'])}.${name}`);
        doubts.push({ entry, said: 'R5', found: 'R4', elements });
      }
    }
    entries.push(turned.resource === resource ? entry : { ...entry, ...named(resource, turned.resource) });
  }
  return { entries, doubts, contradictions };
}

/** The resource in its new shape, and the name that it came by where its type is another now. */
function named(before: Json, resource: Json): Pick<ResourceEntry, 'resource' | 'source'> {
  const { resourceType, id } = before;
  if (resourceType === resource['resourceType'] || typeof id !== 'string') return { resource };
  return { resource, source: `${String(resourceType)}/${id}` };
}

interface Turned {
  readonly resource: Json;
  readonly signs: readonly string[];
  readonly contradictions: readonly (readonly string[])[];
}

// A contained resource can’t contain another.
const deepest = 1;

function turn(resource: Json, depth: number): Turned {
  const type = String(resource['resourceType']);
  const draft = new Draft(resource);
  if (Object.hasOwn(changes, type)) changes[type]?.(draft);
  const inner: Turned[] = [];
  const { contained } = resource;
  if (Array.isArray(contained) && depth < deepest) {
    const list = (contained as unknown[]).map((one) => {
      if (!isObject(one)) return one;
      const turned = turn(one, depth + 1);
      inner.push(turned);
      return turned.resource;
    });
    if (list.some((one, i) => one !== contained[i])) draft.set('contained', list);
  }
  return {
    resource: draft.result,
    signs: [...draft.signs.map((name) => `${type}.${name}`), ...inner.flatMap(({ signs }) => signs)],
    contradictions: [
      ...draft.contradictions.map((names) => names.map((name) => `${type}.${name}`)),
      ...inner.flatMap((one) => one.contradictions),
    ],
  };
}
