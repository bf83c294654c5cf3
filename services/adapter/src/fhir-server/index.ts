export { FhirServerError, type FhirServerErrorCode, type FhirServerErrorFields } from './errors.js';
export { nothingFetched, type Fetched } from './batch.js';
export type { Capabilities } from './capabilities.js';
export type { Doubt } from './doubts.js';
export { FhirServer, type FhirServerOptions, type SearchParams } from './fhir-server.js';
export type { Found } from './paging.js';
export { isSparable, Lacking, saysItLacks, sparableTypes, type Lack, type SparableType } from './lacking.js';
export type { RetryLimits } from './retry.js';
export { isBelow, serviceBase } from './urls.js';
