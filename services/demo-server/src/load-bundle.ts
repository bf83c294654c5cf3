import type { Bundle, BundleEntry, Resource } from 'fhir/r4.js';

/** What takes a Bundle of the type batch: the adapter’s `FhirServer` among others. */
export interface TakesBundles {
  transaction(bundle: Bundle): Promise<unknown>;
}

/** Entries sent at once: well below what servers refuse. */
const entriesPerBatch = 100;

/**
 * Puts every resource of a bundle on a server under its own id. References by full URL become relative, as a
 * transaction would make them.
 * @returns how many resources there were.
 */
export async function loadBundle(server: TakesBundles, bundle: Bundle): Promise<number> {
  const given = bundle.entry ?? [];
  const names = new Map(
    given.map(({ fullUrl, resource }) => [fullUrl, `${resource?.resourceType}/${resource?.id}`]),
  );
  const text = JSON.stringify(
    given.map(({ resource }) => resource),
    (key, value: unknown) =>
      key === 'reference' && typeof value === 'string' ? (names.get(value) ?? value) : value,
  );
  const entries = (JSON.parse(text) as Resource[]).map((resource): BundleEntry => ({
    resource,
    request: { method: 'PUT', url: `${resource.resourceType}/${resource.id}` },
  }));
  for (let from = 0; from < entries.length; from += entriesPerBatch) {
    const entry = entries.slice(from, from + entriesPerBatch);
    await server.transaction({ resourceType: 'Bundle', type: 'batch', entry });
  }
  return entries.length;
}
