import type { Bundle, Resource } from 'fhir/r4.js';
import { rebound } from './bindings.js';
import { FhirServerError, type FhirServer } from './fhir-server/index.js';
import { nameOf } from './slice.js';

/**
 * Reads once more, just before, what is to be written over without a version to hold it to: a server that gives none
 * would let the write undo what a person has done since the patient was read. What is written between this look and the
 * write is lost all the same; `--check` and the start say of such a server that it gives no versions.
 * @param existing what the difference was worked out from.
 * @throws FhirServerError `conflict` where one of them is another by now: the patient has to be read again.
 */
export async function stillAsRead(
  server: FhirServer,
  { entry = [] }: Bundle,
  existing: readonly Resource[],
): Promise<void> {
  const read = new Map(existing.map((one) => [nameOf(one), one]));
  for (const { request } of entry) {
    const before = read.get(request?.url ?? '');
    if (request?.method !== 'PUT' || request.ifMatch !== undefined || before?.id === undefined) continue;
    const now = await server.read(before.resourceType, before.id);
    if (now !== undefined && contentOf(rebound(now, server.baseUrl)) === contentOf(before)) continue;
    throw new FhirServerError('conflict', {
      method: 'PUT',
      resourceType: before.resourceType,
      url: server.readUrl(before.resourceType, before.id),
      detail: 'the server gives no versions, and the resource has changed since it was read',
    });
  }
}

/** All but what the server itself adds: a search may leave out what a read gives of it. */
function contentOf(resource: Resource): string {
  return JSON.stringify({ ...resource, meta: undefined });
}
