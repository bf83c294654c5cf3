import { createHash } from 'node:crypto';
import type { Resource } from 'fhir/r4.js';

/** Names one version of one resource; by its content where the server gives no version. */
export function versionKey(resource: Resource): string {
  const { resourceType, id, meta } = resource;
  const version =
    meta?.versionId ??
    meta?.lastUpdated ??
    createHash('sha256').update(JSON.stringify(resource)).digest('base64');
  return `${resourceType}/${id}/${version}`;
}
