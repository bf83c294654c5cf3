export { createApp, type Doors } from './app.js';
export { NoToken, type Authorization } from './auth/index.js';
export type { Care, Difference, Slice } from './care.js';
export type { Held } from './brake.js';
export { ConfigError, readConfig, variables, type Config } from './config.js';
export { dueCareBy, recordsOfAll, type Computed } from './due-care.js';
export { UnfitServer } from './fit.js';
export {
  FhirServer,
  FhirServerError,
  type FhirServerErrorCode,
  type FhirServerOptions,
  Lacking,
  type Found,
  type Lack,
  type SearchParams,
} from './fhir-server/index.js';
export type { Guards } from './interfaces.js';
export { isLoopbackHost } from './local.js';
export {
  localGuard,
  makeGuard,
  scopes,
  type Admission,
  type Guard,
  type GuardConfig,
  type Problem,
  type Scope,
} from './guard/index.js';
export { healthOf, type Health, type HealthCode } from './health.js';
export { makeLog } from './log.js';
export { realMachine, type Machine } from './machine.js';
export { main, type Outside } from './main.js';
export { loadMaps, type LoadedMaps } from './maps.js';
export { loadPolicy } from './policy.js';
export { listedPatients, UnreadableList, type Listed } from './listed.js';
export { Poller, type PollerOptions, type Round } from './poll.js';
export { runRounds } from './rounds.js';
export { makePoller, startService, type Service, type ServiceOptions } from './service.js';
export type { Counters, Failing, LastRound, Status } from './status.js';
export type { Written } from './write.js';
