export { lasting, NoToken, type Authorization } from './authorization.js';
export { fhirAccess, type FhirAccess } from './fhir-access.js';
