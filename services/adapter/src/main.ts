import { parseArgs } from 'node:util';
import { forTerminal } from '@dwellward/core/safe-text';
import { fhirAccess } from './auth/index.js';
import { readFigures, readMinutes } from './board-api/index.js';
import { ConfigError, readConfig, type Config } from './config.js';
import { isEnough, triedText, tryServer } from './check-server.js';
import { DryWriter } from './dry-run.js';
import { FhirServerError } from './fhir-server/index.js';
import { UnfitServer } from './fit.js';
import { helpText } from './help.js';
import { makeLog } from './log.js';
import { realMachine } from './machine.js';
import { loadMaps } from './maps.js';
import { loadPolicy } from './policy.js';
import {
  makePoller,
  makeServer,
  sayPolicy,
  startService,
  type BoardOptions,
  type ServiceOptions,
} from './service.js';

/** What the command has to do with the world outside. */
export interface Outside {
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly print: (text: string) => void;
  readonly printError: (text: string) => void;
  /** Resolves when the process is asked to end. */
  readonly interrupted: Promise<void>;
}

/**
 * The command: settings, then one round, or the service until it is interrupted.
 * @returns the exit code: 0 done, 1 not everything could be brought in step, 2 wrong options or settings, or a server that
 *   must not be worked with, 3 nobody with a line was found.
 */
export async function main(args: readonly string[], outside: Outside): Promise<number> {
  // Names of others stand in what is said here: of plans, of files, of the server.
  const printError = (text: string) => outside.printError(forTerminal(text));
  const options = readOptions(args);
  if (typeof options === 'string') {
    printError(`${options}\nSee dwellward-adapter --help.`);
    return 2;
  }
  if (options.help) {
    outside.print(helpText());
    return 0;
  }
  try {
    const config = readConfig(outside.environment);
    const policy = await loadPolicy(config.policy, config.policyWithout, config.policyUnapproved);
    const { maps, warnings } = await loadMaps(config.maps);
    const log = makeLog(config);
    for (const warning of warnings) log.warn(warning);
    const board = await boardBy(config);
    const service = {
      ...{ config, policy, machine: realMachine, log },
      ...(maps === undefined ? {} : { maps }),
      ...(board === undefined ? {} : { board }),
    };
    if (options.check || options['dry-run']) await fhirAccess(config, realMachine, log).check();
    if (options.check) return await check(service, outside.print);
    if (options['dry-run']) return await dryRun(service, outside.print);
    return await (options.once ? once(service) : serve(service, outside.interrupted));
  } catch (error) {
    if (error instanceof ConfigError) printError(error.problems.join('\n'));
    else if (error instanceof UnfitServer) printError(error.message);
    else throw error;
    return 2;
  }
}

/** What the board is told, as the settings say; a figures file that can’t be read is said at once. */
async function boardBy({
  board,
  boardMinutes,
  boardShifts,
  boardSignIn,
  figures,
}: Config): Promise<BoardOptions | undefined> {
  if (!board) return undefined;
  if (figures !== undefined) await readFigures(figures);
  return {
    shifts: boardShifts,
    signIn: boardSignIn,
    ...(boardMinutes === undefined ? {} : { minutes: await readMinutes(boardMinutes) }),
    ...(figures === undefined ? {} : { figures: () => readFigures(figures) }),
  };
}

async function once(options: ServiceOptions): Promise<number> {
  const never = new AbortController().signal;
  await fhirAccess(options.config, options.machine, options.log).check();
  sayPolicy(options);
  const poller = makePoller(options, { drain: never, stop: never });
  const round = await poller.round().catch((error: unknown) => {
    if (error instanceof UnfitServer) throw error;
    return undefined;
  });
  if (round === undefined) return 1;
  const { patients, failed, held, written } = round;
  const { created, updated, deleted } = written;
  const done = { patients, failed, held, created, updated, deleted };
  if (failed > 0 || held > 0) {
    options.log.error(done, 'Not everybody is in step.');
    return 1;
  }
  if (poller.patients === 0) {
    options.log.warn(
      done,
      'Done, but nobody with a line was found: is it the right server, and may its Devices be read?',
    );
    return 3;
  }
  options.log.info(done, 'Done.');
  return 0;
}

/** Tries the server, and says what it can; nothing is written. */
async function check(options: ServiceOptions, print: (text: string) => void): Promise<number> {
  const never = new AbortController().signal;
  const server = makeServer(options, { drain: never, stop: never });
  try {
    const tried = await tryServer(server, options);
    print(triedText(tried));
    return isEnough(tried) ? 0 : 1;
  } catch (error) {
    if (!(error instanceof FhirServerError)) throw error;
    print(`can’t  be asked: ${error.message}`);
    return 1;
  }
}

/** One round that says what it would write, and writes nothing. */
async function dryRun(options: ServiceOptions, print: (text: string) => void): Promise<number> {
  const never = new AbortController().signal;
  sayPolicy(options);
  const writer = new DryWriter((text) => print(forTerminal(text)));
  const poller = makePoller({ ...options, writer }, { drain: never, stop: never });
  const round = await poller.round().catch((error: unknown) => {
    if (error instanceof UnfitServer) throw error;
    return undefined;
  });
  for (const { patient, closings, detail } of poller.status.held)
    print(forTerminal(`hold back ${closings} closings of ${patient}: ${detail}`));
  for (const { patient, message } of poller.failing) print(forTerminal(`can’t read ${patient}: ${message}`));
  print(`${writer.count} resources would be written for ${round?.patients ?? 0} patients. Nothing was.`);
  return round === undefined || round.failed > 0 || round.held > 0 ? 1 : 0;
}

async function serve(options: ServiceOptions, interrupted: Promise<void>): Promise<number> {
  const service = await startService(options).catch((error: unknown) => {
    const { code } = error as { code?: unknown };
    if (code !== 'EADDRINUSE' && code !== 'EADDRNOTAVAIL' && code !== 'EACCES') throw error;
    const { host, port } = options.config;
    throw new ConfigError([
      `DWELLWARD_HOST, DWELLWARD_PORT: can’t listen on ${host} port ${port} (${String(code)}).`,
    ]);
  });
  await interrupted;
  await service.stop();
  return 0;
}

function readOptions(args: readonly string[]) {
  const flag = { type: 'boolean', default: false } as const;
  try {
    return parseArgs({
      args: [...args],
      options: { help: { ...flag, short: 'h' }, once: flag, check: flag, 'dry-run': flag },
    }).values;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
