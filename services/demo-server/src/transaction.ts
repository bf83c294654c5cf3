import type { Bundle, BundleEntry } from 'fhir/r4.js';
import { badRequest, multipleMatches, OperationOutcomeError, parseSearchRequest } from './medplum.js';
import type { DemoRepository } from './repository.js';

/** A transaction with its conditional creates decided. */
export interface Settled {
  readonly bundle: Bundle;
  /** Puts the answers of the decided entries back into their places. */
  readonly complete: (response: Bundle) => Bundle;
}

/**
 * Decides the conditional creates of a transaction before the router sees them: it refuses more than eight entries
 * where one of them is conditional, because it can’t isolate them. Here no other request runs meanwhile, so a search
 * before the writes is as good.
 * @throws OperationOutcomeError 412 where several resources match, 400 where two entries create the same.
 */
export async function settleConditionalCreates(bundle: Bundle, repository: DemoRepository): Promise<Settled> {
  const found = new Map<number, BundleEntry>();
  const existing = new Map<string, string>();
  const conditions = new Set<string>();
  const entries = bundle.entry ?? [];
  for (const [index, { request, fullUrl }] of entries.entries()) {
    if (request?.method !== 'POST' || request.ifNoneExist === undefined) continue;
    const condition = `${request.url}?${request.ifNoneExist.replace(/^\?/, '')}`;
    if (conditions.has(condition))
      throw new OperationOutcomeError(badRequest(`Two entries create ${condition}`));
    conditions.add(condition);
    const matches = await repository.searchResources({ ...parseSearchRequest(condition), count: 2 });
    if (matches.length > 1) throw new OperationOutcomeError(multipleMatches);
    const match = matches[0];
    if (match === undefined) continue;
    const location = `${match.resourceType}/${match.id}`;
    if (fullUrl !== undefined) existing.set(fullUrl, location);
    const etag = `W/"${match.meta?.versionId}"`;
    found.set(index, { response: { status: '200', location, etag } });
  }
  const kept = entries.filter((_, index) => !found.has(index)).map(withoutCondition);
  return {
    bundle: { ...bundle, entry: pointTo(kept, existing) },
    complete: (response) => {
      const rest = [...(response.entry ?? [])];
      return { ...response, entry: entries.map((_, index) => found.get(index) ?? rest.shift() ?? {}) };
    },
  };
}

function withoutCondition(entry: BundleEntry): BundleEntry {
  if (entry.request?.ifNoneExist === undefined) return entry;
  const request = { ...entry.request };
  delete request.ifNoneExist;
  return { ...entry, request };
}

/** References to an entry that was not created lead to the resource that was there. */
function pointTo(entries: BundleEntry[], existing: ReadonlyMap<string, string>): BundleEntry[] {
  if (existing.size === 0) return entries;
  const text = JSON.stringify(entries, (key, value: unknown) =>
    key === 'reference' && typeof value === 'string' ? (existing.get(value) ?? value) : value,
  );
  return JSON.parse(text) as BundleEntry[];
}
