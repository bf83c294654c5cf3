import type { Bundle, Resource } from 'fhir/r4.js';

/** What a batch of reads gave: by the URL that was asked, the body of every answer that was 2xx. */
export type Fetched = ReadonlyMap<string, unknown>;

/** Nothing was fetched ahead: everything is asked for by a call of its own. */
export const nothingFetched: Fetched = new Map();

/** Most reads in one batch: what one patient takes, and far below what servers refuse. common practice, no source. */
export const readsPerBatch = 30;

/** The reads as one batch (FHIR R4, http.html#transaction). @param urls absolute, below the base. */
export function batchOf(urls: readonly string[], baseUrl: string): Bundle {
  return {
    resourceType: 'Bundle',
    type: 'batch',
    entry: urls.map((url) => ({ request: { method: 'GET', url: url.slice(baseUrl.length + 1) } })),
  };
}

/**
 * The answers that can be used, by URL. Whatever failed in the batch is left out: it is asked for by a call of its own,
 * whose failure says what is wrong. Where one answer is to another question nothing is used: the order is then unsure, and
 * an empty answer in the wrong place would be read as “nothing there”.
 */
export function answersOf(urls: readonly string[], body: unknown): Fetched {
  const bundle = body as Bundle | undefined;
  const entries = bundle?.resourceType === 'Bundle' && Array.isArray(bundle.entry) ? bundle.entry : [];
  if (entries.length !== urls.length) return nothingFetched;
  const fetched = new Map<string, unknown>();
  for (const [index, url] of urls.entries()) {
    const { response, resource } = entries[index] ?? {};
    if (resource === undefined || !/^2\d\d/.test(response?.status ?? '')) continue;
    if (isAnswerTo(url, resource)) fetched.set(url, resource);
    else if (resource.resourceType !== 'OperationOutcome') return nothingFetched;
  }
  return fetched;
}

/** A search is answered by a Bundle with what was searched for, a read by the resource of that type and id. */
function isAnswerTo(url: string, resource: Resource): boolean {
  if (!url.includes('?')) return url.endsWith(`/${resource.resourceType}/${resource.id}`);
  const type = url.split('?')[0]?.split('/').at(-1);
  const allowed = [type, 'OperationOutcome'];
  const entries = resource.resourceType === 'Bundle' ? ((resource as Bundle).entry ?? []) : undefined;
  return entries?.every((entry) => allowed.includes(entry?.resource?.resourceType)) ?? false;
}
