import type { RequestHandler, Router } from 'express';
import type { FhirServer } from './fhir-server/index.js';
import { FeedbackCounts, hooksApi, PatientReader } from './hooks/index.js';
import { Places } from './places.js';
import type { Poller } from './poll.js';
import type { ServiceOptions } from './service.js';
import type { InterfaceName } from './config.js';

/** Who may ask: each answers everybody whom it does not know. */
export interface Guards {
  /** Of CDS clients. */
  readonly hooks?: RequestHandler;
}

/** What is served beside the state of the service; nothing where nothing is asked for. */
export interface Interfaces {
  readonly hooks?: Router;
  /** Further rows for a monitor. */
  readonly metrics?: () => string;
}

const guardOf = {
  'cds-hooks': 'hooks',
} as const satisfies Record<InterfaceName, keyof Guards>;

const loopback: ReadonlySet<string> = new Set(['127.0.0.1', '::1', 'localhost']);

/** Which of the interfaces asked for may be served: beyond a loopback address those with a guard alone. */
export function servedInterfaces({
  config,
  guards = {},
  log,
}: Pick<ServiceOptions, 'config' | 'guards' | 'log'>): readonly InterfaceName[] {
  return config.interfaces.filter((name) => {
    if (loopback.has(config.host) || guards[guardOf[name]] !== undefined) return true;
    log.error(
      { interface: name, host: config.host },
      'Not served: it has no access control without a guard, and is for a loopback address then.',
    );
    return false;
  });
}

/** The interfaces that are served, over the server that the poller reads. */
export function interfacesOver(
  server: FhirServer,
  poller: Poller,
  options: ServiceOptions,
  served: readonly InterfaceName[],
): Interfaces {
  if (served.length === 0) return {};
  const { config, policy, maps, machine, log, asOf, guards = {} } = options;
  const reader = new PatientReader({
    server,
    places: new Places(server, () => machine.now()),
    policy,
    maps,
    zone: config.zone,
    asOf: asOf ?? (() => new Date(machine.now()).toISOString()),
    without: config.without,
    acceptedGaps: config.acceptedGaps,
    lumensOf: (id) => (poller.status.completedMs === undefined ? undefined : poller.lumensOf(id)),
    fhirVersion: () => poller.status.fit?.fhirVersion,
  });
  const feedback = new FeedbackCounts();
  return {
    ...(served.includes('cds-hooks')
      ? {
          hooks: hooksApi({
            reader,
            feedback,
            machine,
            log,
            without: config.without,
            servers: config.cdsServers,
            waitMs: config.cdsSeconds * 1000,
            ...(guards.hooks ? { guard: guards.hooks } : {}),
          }),
        }
      : {}),
    metrics: () => feedback.metrics,
  };
}
