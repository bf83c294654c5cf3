import { lineTokens, type CodeMaps } from '@dwellward/core';
import { identifierSystem } from '@dwellward/profiles';
import type { CapabilityStatement } from 'fhir/r4.js';
import type { Config } from './config.js';
import { checkFit } from './fit.js';
import { FhirServerError, isSparable, type FhirServer } from './fhir-server/index.js';
import { allPatients, listedPatients, UnreadableList } from './listed.js';
import { findPatientsWithLines } from './lines.js';
import type { Logger } from 'pino';
import { isDispensable, typesWithout, writtenTypes } from './slice.js';
import { described } from './status.js';

/** What was tried of a server, and what came of it. */
export interface Tried {
  readonly what: string;
  /** `unsaid` where the server does not say, and it is found out by writing alone. */
  readonly can: 'yes' | 'no' | 'unsaid';
  /** True where the adapter can’t work without. */
  readonly needed: boolean;
  readonly detail?: string;
}

interface Checking {
  readonly config: Config;
  readonly log: Logger;
  readonly maps?: CodeMaps;
}

/** Nobody: what is searched for with it is asked as for a patient, and gives nothing. */
const nobody = 'Patient/dwellward-nobody';

/**
 * Tries what the adapter asks of a server, and writes nothing: its description, and every kind of search. What only a
 * write shows is told as the server states it.
 * @throws UnfitServer where it must not be worked with. @throws FhirServerError where it can’t be asked at all.
 */
export async function tryServer(server: FhirServer, { config, log, maps }: Checking): Promise<Tried[]> {
  const { fhirVersion, warnings } = await checkFit(server, log);
  const statement = await server.describe();
  const tried: Tried[] = [
    { what: `FHIR ${fhirVersion ?? 'of a version that it does not say'}`, can: 'yes', needed: true },
    ...warnings.map((what): Tried => ({ what, can: 'unsaid', needed: false })),
  ];
  for (const type of typesWithout(config.without)) {
    const needed = !isSparable(type);
    tried.push(await search(server, type, { patient: nobody }, 'by patient', needed));
    if (config.patients === allPatients)
      tried.push(
        await search(server, type, { _lastUpdated: `ge${farAhead}` }, 'by what has changed', needed),
      );
  }
  for (const type of config.patients === allPatients ? writtenTypes : [])
    tried.push(
      await search(
        server,
        type,
        { identifier: `${identifierSystem.dueItem}|nothing` },
        'by our identifier',
        type === 'Task',
      ),
    );
  return [...tried, ...writing(statement), await lines(server, config, maps)];
}

const farAhead = '2999-01-01T00:00:00Z';

async function search(
  server: FhirServer,
  type: string,
  params: Readonly<Record<string, string>>,
  how: string,
  needed: boolean,
): Promise<Tried> {
  const what = `search for ${type} ${how}`;
  if (server.lacking.has(type))
    return { what, can: 'no', needed, detail: 'the server does not list the type' };
  const doubts: string[] = [];
  try {
    let found = 0;
    for await (const one of server.searchAll(type, params, ({ detail }) => void doubts.push(detail)))
      found += one.resource.resourceType === type ? 1 : 0;
    if (found > 0)
      return {
        what,
        can: 'no',
        needed,
        detail: `it gives ${found} where nothing is asked for: the parameter is not heeded`,
      };
  } catch (error) {
    if (!(error instanceof FhirServerError)) throw error;
    const { code } = described(error);
    const hint = isDispensable(type) && needed ? `; without it: DWELLWARD_WITHOUT=${type}` : '';
    return { what, can: 'no', needed, detail: `${[code, error.status].filter(Boolean).join(' ')}${hint}` };
  }
  return { what, can: 'yes', needed, ...(doubts[0] ? { detail: doubts[0] } : {}) };
}

/** What only writing shows, as the server states it. */
function writing(statement: CapabilityStatement | undefined): Tried[] {
  const servers = (statement?.rest ?? []).filter(({ mode }) => mode === 'server');
  const system = servers.flatMap(({ interaction }) => interaction ?? []).map(({ code }) => code as string);
  const task = servers.flatMap(({ resource }) => resource ?? []).find(({ type }) => type === 'Task');
  const own = (task?.interaction ?? []).map(({ code }) => code as string);
  const stated = (said: boolean | undefined) => (said === undefined ? 'unsaid' : said ? 'yes' : 'no');
  const among = (list: readonly string[], code: string) =>
    list.length === 0 ? undefined : list.includes(code);
  return [
    {
      what: 'transactions',
      can: stated(among(system, 'transaction')),
      needed: false,
      detail: 'without them entries are written one by one, in a safe order',
    },
    {
      what: 'batches',
      can: stated(among(system, 'batch') || among(system, 'transaction')),
      needed: false,
      detail: 'without them a patient costs more calls',
    },
    { what: 'create Tasks', can: stated(among(own, 'create')), needed: true },
    { what: 'update Tasks', can: stated(among(own, 'update')), needed: true },
    {
      what: 'conditional create (If-None-Exist)',
      can: stated(task?.conditionalCreate),
      needed: false,
      detail: 'without it two adapters at once may create a Task twice; the next round closes one',
    },
    {
      what: 'versions (If-Match)',
      can: stated(task?.versioning === undefined ? undefined : task.versioning !== 'no-version'),
      needed: false,
      detail: 'without them what a person writes at the same moment may be written over',
    },
  ];
}

async function lines(
  server: FhirServer,
  { without, patients: patientsFrom }: Config,
  maps: CodeMaps | undefined,
): Promise<Tried> {
  try {
    const listed = await listedPatients(patientsFrom, server)?.();
    const found = listed
      ? { patients: listed, ownerless: [] }
      : await findPatientsWithLines(server, without, () => undefined, lineTokens(maps));
    const { patients, ownerless } = found;
    return {
      what: `patients ${listed ? 'who are listed' : 'with a line, or who are to have one'}: ${patients.size}`,
      can: patients.size > 0 ? 'yes' : 'no',
      needed: false,
      ...(ownerless.length > 0 ? { detail: `${ownerless.length} lines name no patient` } : {}),
    };
  } catch (error) {
    if (error instanceof UnreadableList)
      return { what: 'patients who are listed', can: 'no', needed: true, detail: error.message };
    if (!(error instanceof FhirServerError)) throw error;
    return { what: 'patients with a line', can: 'no', needed: true, detail: described(error).code };
  }
}

/** One row for each, what is missing first. */
export function triedText(tried: readonly Tried[]): string {
  const rank = ({ can, needed }: Tried) => (can === 'no' ? (needed ? 0 : 1) : can === 'unsaid' ? 2 : 3);
  const said = { yes: 'can    ', no: 'can’t  ', unsaid: 'unsaid ' } as const;
  return [...tried]
    .sort((a, b) => rank(a) - rank(b))
    .map(({ what, can, needed, detail }) => {
      const why = detail === undefined || (can === 'yes' && !what.startsWith('search')) ? '' : ` (${detail})`;
      return `${said[can]}${what}${can === 'no' && needed ? ', which is needed' : ''}${why}`;
    })
    .join('\n');
}

/** True where nothing that is needed is missing. */
export function isEnough(tried: readonly Tried[]): boolean {
  return tried.every(({ can, needed }) => can !== 'no' || !needed);
}
