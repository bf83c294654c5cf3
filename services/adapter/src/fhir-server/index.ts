export { FhirServerError, type FhirServerErrorCode, type FhirServerErrorFields } from './errors.js';
export { FhirServer, type FhirServerOptions, type Found, type SearchParams } from './fhir-server.js';
export { isSparable, Lacking, saysItLacks, sparableTypes, type Lack, type SparableType } from './lacking.js';
export type { RetryLimits } from './retry.js';
export { isBelow, serviceBase } from './urls.js';
