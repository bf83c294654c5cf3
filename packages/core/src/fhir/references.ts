import type { Reference } from 'fhir/r4.js';
import type { Ref } from '../model/record.js';

/** A FHIR reference to a resource of the record; what is contained is reached through the resource that holds it. */
export function referenceTo(ref: Ref): Reference {
  return { reference: ref.split('#')[0] as string };
}

/** Whether a name is one that a reference can point to. */
export function isResource(ref: Ref): boolean {
  return /^[A-Z][A-Za-z]+\/[^/#]+/.test(ref) || /^(urn:|https?:)/.test(ref);
}

/** A `urn:uuid:` that is the same for the same digest. */
export function uuidUrn(digest: string): string {
  // Version 8 and the RFC 9562 variant: a name of our own making, not random and not of a time.
  const hex = `${digest.slice(0, 12)}8${digest.slice(13, 16)}a${digest.slice(17, 32)}`;
  return `urn:uuid:${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
