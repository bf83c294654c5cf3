import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { lineTokens, type CodeMaps } from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import type { Logger } from 'pino';
import { createApp } from './app.js';
import type { Care } from './care.js';
import type { Config } from './config.js';
import { dueCareBy } from './due-care.js';
import { tellNotUnderstood } from './not-understood.js';
import { FhirServer, FhirServerError, Lacking } from './fhir-server/index.js';
import type { Machine } from './machine.js';
import { policyWarnings } from './policy-words.js';
import { Poller, runRounds } from './poll.js';
import { described } from './status.js';

/** A running adapter. */
export interface Service {
  readonly poller: Poller;
  /** Where /healthz and /readyz are. */
  readonly url: string;
  /** Takes up no further patient, finishes those in hand, gives up on them after the time set, and closes. */
  stop(): Promise<void>;
}

export interface ServiceOptions {
  readonly config: Config;
  readonly policy: Policy;
  /** What the hospital’s own codes mean. */
  readonly maps?: CodeMaps;
  readonly machine: Machine;
  readonly log: Logger;
  /** The instant to compute for; the machine’s clock when absent. */
  readonly asOf?: () => string;
  /** Another care than the policy’s, where somebody wants to see what is computed. */
  readonly care?: Care;
}

/** A poller by the settings. `drain` ends it after the patients in hand, `stop` at once. */
export function makePoller(
  { config, policy, maps, machine, log, asOf, care }: ServiceOptions,
  signals: { readonly drain: AbortSignal; readonly stop: AbortSignal },
): Poller {
  const lacking = new Lacking(config.without, ({ type, detail }) =>
    log.warn(
      { type, detail },
      'The server does not have this type: it is left out. Tasks are kept all the same.',
    ),
  );
  const server = new FhirServer({
    lacking,
    baseUrl: config.fhirUrl,
    bearerToken: config.fhirToken,
    timeLimitMs: config.callSeconds * 1000,
    pageSize: config.pageSize,
    maxPages: config.maxPages,
    machine,
    stop: signals.stop,
  });
  return new Poller({
    server,
    care: care ?? dueCareBy(policy, config.zone, tellNotUnderstood(log), maps),
    tokens: lineTokens(maps),
    machine,
    log,
    asOf: asOf ?? (() => new Date(machine.now()).toISOString()),
    fullEvery: config.fullEvery,
    overlapMs: config.overlapSeconds * 1000,
    patientsAtOnce: config.patientsAtOnce,
    maxEntries: config.maxEntries,
    without: config.without,
    acceptedGaps: config.acceptedGaps,
    massClosing: config.massClosing,
    drain: signals.drain,
  });
}

/** What has to be known of the policy in force now, by the machine’s clock or the one that was given. */
function warningsNow({ config, policy, machine, asOf }: ServiceOptions): string[] {
  return policyWarnings(policy, config, asOf?.() ?? new Date(machine.now()).toISOString());
}

/** Logs what has to be known of the policy. */
export function sayPolicy(options: ServiceOptions): void {
  for (const warning of warningsNow(options)) options.log.warn(warning);
}

/**
 * Starts polling and listening. A server that can’t be asked yet is asked again with every round.
 * @throws UnfitServer where the server can be asked and must not be worked with.
 * @throws the listener’s error, for example EADDRINUSE.
 */
export async function startService(options: ServiceOptions): Promise<Service> {
  const { config, machine, log } = options;
  sayPolicy(options);
  const drain = new AbortController();
  const stop = new AbortController();
  const poller = makePoller(options, { drain: drain.signal, stop: stop.signal });
  await poller.checkServer().catch((error: unknown) => {
    if (!(error instanceof FhirServerError)) throw error;
    log.error(described(error), 'The server can’t be asked what it is yet.');
  });
  const http = createServer(createApp(poller, config.readySeconds * 1000, () => warningsNow(options)));
  await new Promise<void>((resolve, reject) => {
    http.once('error', reject);
    http.listen(config.port, config.host, resolve);
  });
  const { port } = http.address() as AddressInfo;
  const url = `http://${config.host.includes(':') ? `[${config.host}]` : config.host}:${port}`;
  log.info({ url, fhir: config.fhirUrl, zone: config.zone, policy: config.policy }, 'Started.');
  const rounds = runRounds(poller, config.pollSeconds * 1000, machine, drain.signal);
  return {
    poller,
    url,
    async stop() {
      log.info('Stopping: finishing the patients in hand.');
      drain.abort();
      const graceOver = new AbortController();
      await Promise.race([rounds, machine.sleep(config.stopSeconds * 1000, graceOver.signal)]);
      graceOver.abort();
      stop.abort();
      await rounds;
      await new Promise<void>((done) => {
        http.close(() => done());
        http.closeAllConnections();
      });
      log.info('Stopped.');
    },
  };
}
