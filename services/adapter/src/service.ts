import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { lineTokens, type CodeMaps } from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import type { Logger } from 'pino';
import type { FiguresView } from '@dwellward/figures';
import type { Router } from 'express';
import { createApp } from './app.js';
import { fhirAccess, type FhirAccess } from './auth/index.js';
import { boardApi, Charting, Unit, Viewers, type Minutes } from './board-api/index.js';
import type { Care } from './care.js';
import { ConfigError, type Config } from './config.js';
import { dueCareBy } from './due-care.js';
import { tellNotUnderstood } from './not-understood.js';
import { FhirServer, FhirServerError, Lacking } from './fhir-server/index.js';
import { makeGuard, need, scopes, type Guard } from './guard/index.js';
import { doubtsOf } from './health.js';
import { clientGuard, readClients } from './hooks/index.js';
import { scopeOfRest } from './rest/index.js';
import { interfacesOver, servedInterfaces, type Guards } from './interfaces.js';
import { listedPatients } from './listed.js';
import { isLoopbackHost } from './local.js';
import type { Machine } from './machine.js';
import { notified, Wake } from './notified.js';
import { policyWarnings } from './policy-words.js';
import { Poller } from './poll.js';
import { runRounds } from './rounds.js';
import { described } from './status.js';
import type { Writer } from './write.js';

/** A running adapter. */
export interface Service {
  readonly poller: Poller;
  /** Where /livez and /readyz are. */
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
  /** Where differences go, where that is not the server. */
  readonly writer?: Writer;
  /** What the unit’s board asks for, where there is one; it is served on loopback, or behind a guard. */
  readonly board?: BoardOptions;
  /** Who may use the interfaces that the settings name; without one they are for a loopback address. */
  readonly guards?: Guards;
}

/** What the unit’s board is told. */
export interface BoardOptions {
  /** Minutes that the unit takes each activity to need; its load counts items alone of the others. */
  readonly minutes?: Minutes;
  /** Users are signed in to the record system: each sees and charts what their own token gives. */
  readonly signIn?: boolean;
  /** Hours of the day at which shifts begin; 7 and 19 where absent. */
  readonly shifts?: readonly number[];
  /** The unit’s figures in words, as they are when they are asked for; the board has none where absent. */
  readonly figures?: () => Promise<FiguresView>;
}

/** A poller by the settings. `drain` ends it after the patients in hand, `stop` at once. */
export function makePoller(options: ServiceOptions, signals: Signals): Poller {
  const access = fhirAccess(options.config, options.machine, options.log, signals.stop);
  return pollerOver(serverOf(options, signals, access), options, signals);
}

/** The FHIR server by the settings. */
export function makeServer(options: ServiceOptions, signals: Signals): FhirServer {
  const access = fhirAccess(options.config, options.machine, options.log, signals.stop);
  return serverOf(options, signals, access);
}

interface Signals {
  readonly drain: AbortSignal;
  readonly stop: AbortSignal;
}

function serverOf(
  { config, machine, log }: ServiceOptions,
  signals: Signals,
  { authorization }: FhirAccess,
): FhirServer {
  const lacking = new Lacking(config.without, ({ type, detail }) =>
    log.warn(
      { type, detail },
      'The server does not have this type: it is left out. Tasks are kept all the same.',
    ),
  );
  return new FhirServer({
    lacking,
    authorization,
    ...limitsOf(config),
    machine,
    stop: signals.stop,
  });
}

function limitsOf({ fhirUrl, callSeconds, pageSize, maxPages }: Config) {
  return { baseUrl: fhirUrl, timeLimitMs: callSeconds * 1000, pageSize, maxPages };
}

function pollerOver(
  server: FhirServer,
  { config, policy, maps, machine, log, asOf, care, writer }: ServiceOptions,
  signals: Signals,
): Poller {
  const listed = listedPatients(config.patients, server);
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
    references: config.references,
    audit: config.audit,
    ...(listed ? { listed } : {}),
    ...(writer ? { writer } : {}),
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
 * @throws ConfigError where a file that the settings name can’t be used.
 * @throws UnfitServer where the server can be asked and must not be worked with.
 * @throws the listener’s error, for example EADDRINUSE.
 */
export async function startService(options: ServiceOptions): Promise<Service> {
  const { config, machine, log } = options;
  sayPolicy(options);
  const guard = await makeGuard(config, machine, log);
  const drain = new AbortController();
  const stop = new AbortController();
  const signals = { drain: drain.signal, stop: stop.signal };
  const access = fhirAccess(config, machine, log, stop.signal);
  await access.check();
  const server = serverOf(options, signals, access);
  const wake = new Wake();
  const guards = await guardsOf(options, guard);
  // On a loopback address without keys: who asks from this machine, by a name of it.
  const asked = need(guard, () => scopes.boardRead, machine);
  const served = servedInterfaces({ ...options, guards });
  const boardUnit = unitOf(options);
  const unit = boardUnit ?? (served.includes('rest') ? newUnit(options) : undefined);
  const poller = pollerOver(
    server,
    { ...options, ...(unit ? { care: careSeenBy(unit, options) } : {}) },
    signals,
  );
  const http = createServer(
    createApp(
      poller,
      config.readySeconds * 1000,
      () => warningsNow(options),
      boardUnit && boardOver(boardUnit, server, poller, options, signals),
      {
        ...{ guard, log, machine },
        ...(access.publicKeys ? { publicKeys: access.publicKeys } : {}),
        ...(config.notifyToken === undefined ? {} : { notified: notified(config.notifyToken, wake) }),
        interfaces: interfacesOver(
          { server, poller, unit, served },
          { ...options, guards: { hooks: asked, rest: asked, ...guards } },
        ),
      },
    ),
  );
  // Before the server is asked: whoever gives tokens for it may ask for the keys that stand here.
  await listening(http, config);
  await poller.checkServer().catch(async (error: unknown) => {
    if (!(error instanceof FhirServerError)) {
      await closed(http);
      throw error;
    }
    log.error(described(error), 'The server can’t be asked what it is yet.');
  });
  const { port } = http.address() as AddressInfo;
  const url = `http://${config.host.includes(':') ? `[${config.host}]` : config.host}:${port}`;
  log.info({ url, fhir: config.fhirUrl, zone: config.zone, policy: config.policy }, 'Started.');
  const rounds = runRounds(poller, config.pollSeconds * 1000, machine, drain.signal, wake);
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
      await closed(http);
      log.info('Stopped.');
    },
  };
}

function listening(http: Server, { host, port }: Config): Promise<void> {
  return new Promise((resolve, reject) => {
    http.once('error', reject);
    http.listen(port, host, resolve);
  });
}

function closed(http: Server): Promise<void> {
  return new Promise((done) => {
    http.close(() => done());
    http.closeAllConnections();
  });
}

/** Who may use the interfaces beyond a loopback address; CDS clients sign tokens of their own. */
async function guardsOf({ config, machine, log, guards }: ServiceOptions, guard: Guard): Promise<Guards> {
  const { guardKeys, cdsClients, publicUrl } = config;
  const asked = need(guard, () => scopes.boardRead, machine);
  if (cdsClients !== undefined && publicUrl === undefined)
    throw new ConfigError(['DWELLWARD_CDS_CLIENTS needs DWELLWARD_PUBLIC_URL beside it.']);
  return {
    ...(guardKeys === undefined ? {} : { hooks: asked, rest: need(guard, scopeOfRest, machine) }),
    ...(cdsClients === undefined || publicUrl === undefined
      ? {}
      : {
          hooks: clientGuard({
            ...{ publicUrl, machine, log },
            clients: await readClients(cdsClients, machine),
          }),
        }),
    ...guards,
  };
}

/** The unit as its board shows it; only where nobody from elsewhere can ask for it, or a guard asks who does. */
function unitOf({ board, config, policy, log, machine, asOf }: ServiceOptions): Unit | undefined {
  if (board === undefined) return undefined;
  if (config.guardKeys === undefined && !isLoopbackHost(config.host)) {
    log.error(
      { host: config.host },
      'The board is not served: without a guard (DWELLWARD_GUARD_KEYS) it is for a loopback address.',
    );
    return undefined;
  }
  return newUnit({ policy, config, machine, ...(asOf ? { asOf } : {}) });
}

function newUnit({
  policy,
  config,
  machine,
  asOf,
}: Pick<ServiceOptions, 'policy' | 'config' | 'machine' | 'asOf'>): Unit {
  return new Unit(policy, config.zone, asOf ?? (() => new Date(machine.now()).toISOString()));
}

/** The policy’s care, which the unit is told of. */
function careSeenBy(unit: Unit, { policy, config, log, maps }: ServiceOptions): Care {
  const tell = tellNotUnderstood(log);
  return dueCareBy(
    policy,
    config.zone,
    (patient, computed) => {
      tell(patient, computed);
      unit.saw(patient, computed);
    },
    maps,
  );
}

/** Somebody waits in front of the board: rather an answer that it did not go than one after a minute. */
const triesOfUser = { maxAttempts: 2 };

function boardOver(
  unit: Unit,
  server: FhirServer,
  poller: Poller,
  { board, config, log, machine }: ServiceOptions,
  { stop }: Signals,
): Router {
  const lookAt = (patient: string) => poller.lookAt(patient.slice('Patient/'.length));
  const serverFor = (bearerToken: string) =>
    new FhirServer({ ...limitsOf(config), bearerToken, retry: triesOfUser, machine, stop });
  return boardApi({
    unit,
    charting: new Charting(unit, server, lookAt),
    log,
    guarded: config.guardKeys !== undefined,
    ...(board?.signIn ? { viewers: new Viewers(serverFor, () => unit.patients, machine) } : {}),
    ...(board?.minutes ? { minutes: board.minutes } : {}),
    ...(board?.shifts ? { shifts: board.shifts } : {}),
    ...(board?.figures ? { figures: board.figures } : {}),
    doubts: (mayRead) => doubtsOf(poller.status, config.readySeconds * 1000, mayRead),
  });
}
