export { readClients } from './cds-clients.js';
export { clientGuard, type ClientGuardOptions } from './client-guard.js';
export { FeedbackCounts } from './feedback.js';
export { NotRead, PatientReader, type PatientCare, type PatientReaderOptions } from './patient-reader.js';
export { problemsOf } from './request.js';
export { hooksApi, unreadable, type HooksApiOptions } from './routes.js';
