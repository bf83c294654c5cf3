import type { Bundle, FhirResource, Reference, Resource } from 'fhir/r4.js';

/**
 * How what is written refers to the hospital’s own resources. A server that keeps references whole deletes nothing that
 * something refers to: an Observation behind a Task could not be taken back any more. `logical` names the resource by its
 * address as an identifier, which binds nothing; `as-stated` does so where the server says that it enforces references.
 */
export const referenceStyles = ['as-stated', 'literal', 'logical'] as const;
export type ReferenceStyle = (typeof referenceStyles)[number];

/** R4: an identifier that is a URI. */
const uri = 'urn:ietf:rfc:3986';

/**
 * By these a Task, Flag or issue is found again for its patient and its line, on every server; a search finds nothing by a
 * logical reference.
 */
const kept: ReadonlySet<string> = new Set(['for', 'focus', 'subject', 'patient', 'target']);

/** The same difference, with references that bind none of the hospital’s resources but the patient and the line. */
export function unbound(bundle: Bundle, baseUrl: string): Bundle {
  return {
    ...bundle,
    entry: (bundle.entry ?? []).map((entry) =>
      entry.resource ? { ...entry, resource: loosened(entry.resource, baseUrl) as FhirResource } : entry,
    ),
  };
}

/** What is on the server, with every reference as it was before it was made logical. */
export function rebound<R extends Resource>(resource: R, baseUrl: string): R {
  const below = `${baseUrl}/`;
  return mapReferences(resource, '', (one) => {
    const { system, value } = one.identifier ?? {};
    if (one.reference !== undefined || system !== uri || !value?.startsWith(below)) return one;
    const { identifier: _identifier, type: _type, ...rest } = one;
    return { reference: value.slice(below.length), ...rest };
  }) as R;
}

function loosened(resource: Resource, baseUrl: string): unknown {
  return mapReferences(resource, '', (one, key) => {
    const [, type = '', id] = /^([A-Z][A-Za-z]+)\/([A-Za-z0-9\-.]{1,64})$/.exec(one.reference ?? '') ?? [];
    if (id === undefined || type === 'Patient' || kept.has(key)) return one;
    const { reference: _reference, ...rest } = one;
    return { type, identifier: { system: uri, value: `${baseUrl}/${type}/${id}` }, ...rest };
  });
}

/** @param key the name of the element that holds the value. */
function mapReferences(
  value: unknown,
  key: string,
  change: (one: Reference, key: string) => Reference,
): unknown {
  if (Array.isArray(value)) return value.map((one) => mapReferences(one, key, change));
  if (typeof value !== 'object' || value === null) return value;
  const { reference, identifier } = value as Reference;
  if (typeof reference === 'string' || isAddress(identifier)) return change(value as Reference, key);
  return Object.fromEntries(
    Object.entries(value).map(([name, inner]) => [name, mapReferences(inner, name, change)]),
  );
}

function isAddress(identifier: unknown): boolean {
  return (
    typeof identifier === 'object' &&
    identifier !== null &&
    (identifier as { system?: unknown }).system === uri
  );
}
