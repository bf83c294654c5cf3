import type { CodeMaps } from '@dwellward/core';
import { overDefault, type Policy } from '@dwellward/policy';
import type { RequestHandler, Router } from 'express';
import type { Logger } from 'pino';
import type { Unit } from './board-api/index.js';
import type { FhirServer } from './fhir-server/index.js';
import { FeedbackCounts, hooksApi, PatientReader } from './hooks/index.js';
import { doubtsOf } from './health.js';
import { isLoopbackHost } from './local.js';
import type { Machine } from './machine.js';
import { Places } from './places.js';
import { loadPlans } from './policy.js';
import { Calendars, restApi } from './rest/index.js';
import type { Poller } from './poll.js';
import type { InterfaceName } from './config-interfaces.js';
import type { Config } from './config.js';

/** Who may ask: each answers everybody whom it does not know. */
export interface Guards {
  /** Of CDS clients. */
  readonly hooks?: RequestHandler;
  /** Of everything else, but for a calendar that is asked for by its token. */
  readonly rest?: RequestHandler;
}

/** What is served beside the state of the service; nothing where nothing is asked for. */
export interface Interfaces {
  readonly hooks?: Router;
  readonly rest?: Router;
  /** Further rows for a monitor. */
  readonly metrics?: () => string;
}

const guardOf = {
  'cds-hooks': 'hooks',
  rest: 'rest',
} as const satisfies Record<InterfaceName, keyof Guards>;

/** What the interfaces are made with. */
export interface InterfaceOptions {
  readonly config: Config;
  readonly policy: Policy;
  readonly maps?: CodeMaps;
  readonly machine: Machine;
  readonly log: Logger;
  readonly asOf?: () => string;
  readonly guards?: Guards;
}

/** What they stand on. */
export interface InterfaceBase {
  readonly server: FhirServer;
  readonly poller: Poller;
  /** The unit as it was read last; wanted for `rest`. */
  readonly unit: Unit | undefined;
  readonly served: readonly InterfaceName[];
}

/** Which of the interfaces asked for may be served: beyond a loopback address those with a guard alone. */
export function servedInterfaces({
  config,
  guards = {},
  log,
}: Pick<InterfaceOptions, 'config' | 'guards' | 'log'>): readonly InterfaceName[] {
  return config.interfaces.filter((name) => {
    if (isLoopbackHost(config.host) || guards[guardOf[name]] !== undefined) return true;
    log.error(
      { interface: name, host: config.host },
      'Not served: it has no access control without a guard, and is for a loopback address then.',
    );
    return false;
  });
}

/** The interfaces that are served, over the server that the poller reads. */
export function interfacesOver(
  { server, poller, unit, served }: InterfaceBase,
  options: InterfaceOptions,
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
    ...(served.includes('rest') && unit
      ? {
          rest: restApi({
            reader,
            unit,
            calendars: new Calendars(),
            log,
            doubts: () => doubtsOf(poller.status, config.readySeconds * 1000),
            plans: () => loadPlans(overDefault(config.policy, config.policyWithout)),
            ...(guards.rest ? { guard: guards.rest } : {}),
          }),
        }
      : {}),
    metrics: () => feedback.metrics,
  };
}
