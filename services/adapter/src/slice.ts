import { identifierSystem } from '@dwellward/profiles';
import type { Encounter, MedicationAdministration, Resource, Task } from 'fhir/r4.js';
import { rebound } from './bindings.js';
import type { Slice, Version } from './care.js';
import {
  FhirServerError,
  nothingFetched,
  sparableTypes,
  type Doubt,
  type Fetched,
  type FhirServer,
  type Found,
} from './fhir-server/index.js';
import { byIds, byIdUrls, type Places } from './places.js';
import { idIn, patientIdsOf } from './references.js';

/** Types that due care is computed from and that are found through their patient. */
export const recordTypes = [
  'Device',
  'Procedure',
  'Observation',
  'MedicationAdministration',
  'Encounter',
  'DeviceUseStatement',
  'ServiceRequest',
  'Appointment',
  'AllergyIntolerance',
  'Condition',
] as const;

/**
 * Types that a server may do without. What those of the record would tell is then unknown and read protectively; what
 * would be written beside the Tasks is left out.
 */
export const dispensableTypes = [
  ...sparableTypes,
  'MedicationAdministration',
  'Encounter',
  'DeviceUseStatement',
  'ServiceRequest',
  'Appointment',
  'AllergyIntolerance',
  'Condition',
] as const;
export type DispensableType = (typeof dispensableTypes)[number];

export function isDispensable(type: string): type is DispensableType {
  return (dispensableTypes as readonly string[]).includes(type);
}

/** Types that the adapter writes and reads back. */
export const writtenTypes = ['Task', 'Flag', 'DetectedIssue'] as const;

const ourSystems: ReadonlySet<string> = new Set([
  identifierSystem.dueItem,
  identifierSystem.hold,
  identifierSystem.lumenWarning,
  identifierSystem.recordIssue,
]);

/** What a reading needs beside the patient. */
export interface Reading {
  /** Types that the server does not have. */
  readonly without: readonly DispensableType[];
  /** Ids of lumens that belong to the patient’s lines without naming the patient. */
  readonly lumens: readonly string[];
  /** The places that were read for others. */
  readonly places: Places;
  /** By URL, what whoever asks has given along: the server is not asked for it. */
  readonly given?: Fetched;
}

/**
 * Reads everything of one patient that due care needs, and what the adapter wrote for them: one call where the server
 * takes batches, one more where a drug or a place has to be looked up.
 * @throws FhirServerError `foreign-patient` where the server answers with another patient’s resources: mixing two
 *   patients’ records is worse than having none.
 */
export async function readSlice(
  server: FhirServer,
  patientId: string,
  { without, lumens, places, given = nothingFetched }: Reading,
): Promise<Slice> {
  const doubts: Doubt[] = [];
  const hear = (doubt: Doubt) => void doubts.push(doubt);
  const types = typesWithout(without);
  const urls = [
    server.readUrl('Patient', patientId),
    ...types.map((type) => server.searchUrl(type, ofPatientParams(patientId))),
  ];
  const fetched = await server.fetchAhead(urls.filter((url) => !given.has(url)));
  const ahead = given.size === 0 ? fetched : new Map([...fetched, ...given]);
  const [patient, ...found] = await Promise.all([
    server.read('Patient', patientId, ahead),
    ...types.map((type) => ofPatient(server, type, patientId, hear, ahead)),
  ]);
  const all = found.flat();
  const record = new Map<string, Found>();
  const add = (one: Found) =>
    record.set(`${one.resource.resourceType}/${one.resource.id ?? one.fullUrl}`, one);
  if (patient !== undefined) add({ resource: patient, fullUrl: server.readUrl('Patient', patientId) });
  const existing: Resource[] = [];
  for (const one of all) {
    if (!isWritten(one.resource)) add(one);
    else if (isOurs(one.resource)) existing.push(rebound(one.resource, server.baseUrl));
    // A Flag of others may speak against something that care uses.
    else if (one.resource.resourceType === 'Flag') add(one);
  }
  const known = (type: string, ids: readonly string[]) => ids.filter((id) => !record.has(`${type}/${id}`));
  const wanted = [
    { type: 'Device', ids: known('Device', lumens) },
    { type: 'Medication', ids: medicationIds(all, server.baseUrl) },
    { type: 'Location', ids: places.unknown(locationIds(all, server.baseUrl)) },
  ];
  const more = await server.fetchAhead(wanted.flatMap(({ type, ids }) => byIdUrls(server, type, ids)));
  for (const { type, ids } of wanted.slice(0, 2)) (await byIds(server, type, ids, more)).forEach(add);
  (await places.around(locationIds(all, server.baseUrl), more)).forEach(add);
  const { left, elsewhere } = await devicesOfTasks(server, patientId, existing, (id) =>
    record.has(`Device/${id}`),
  );
  for (const one of left) {
    add(one);
    hear({
      code: 'left-out',
      resourceType: 'Device',
      detail: `Device/${one.resource.id} is there when it is read by its id, and the search for the patient’s Devices leaves it out.`,
    });
  }
  const read = new Map(
    [...record.values(), ...all].map(({ resource }) => [nameOf(resource), versionOf(resource)]),
  );
  return { patient: `Patient/${patientId}`, record: [...record.values()], existing, doubts, elsewhere, read };
}

/**
 * Looks by their ids for the Devices that our open Tasks point to and that no search gave: a search may leave out what
 * is there. Those of whose end there is proof (410, or it no longer names the patient) are told.
 */
async function devicesOfTasks(
  server: FhirServer,
  patientId: string,
  existing: readonly Resource[],
  known: (id: string) => boolean,
): Promise<{ readonly left: readonly Found[]; readonly elsewhere: ReadonlySet<string> }> {
  const ids = unique(
    existing
      .filter(isOpenTask)
      .map((task) => idIn((task as Task).focus?.reference, 'Device', server.baseUrl)),
  );
  const left: Found[] = [];
  const elsewhere = new Set<string>();
  for (const id of ids.filter((one) => !known(one))) {
    const found = await server.find('Device', id);
    if (found === undefined) continue;
    const owners = found === 'deleted' ? [] : patientIdsOf(found, server.baseUrl);
    if (found === 'deleted' || !owners.includes(patientId)) elsewhere.add(`Device/${id}`);
    else left.push({ resource: found, fullUrl: `${server.baseUrl}/Device/${id}` });
  }
  return { left, elsewhere };
}

/** `Task/12`. */
export function nameOf({ resourceType, id }: Resource): string {
  return `${resourceType}/${id}`;
}

/** The version of a resource, as far as the server names it. */
export function versionOf({ meta }: Resource): Version {
  return { versionId: meta?.versionId, lastUpdated: meta?.lastUpdated };
}

/** Statuses in which a Task is over. */
const over: ReadonlySet<string> = new Set([
  'completed',
  'cancelled',
  'rejected',
  'failed',
  'entered-in-error',
]);

export function isOpenTask(resource: Resource): resource is Task {
  return resource.resourceType === 'Task' && !over.has((resource as Task).status);
}

/** The types to read, and to watch for changes, on a server without some of them. */
export function typesWithout(without: readonly DispensableType[]): readonly string[] {
  return [...recordTypes, ...writtenTypes].filter((type) => !(without as readonly string[]).includes(type));
}

async function ofPatient(
  server: FhirServer,
  type: string,
  patientId: string,
  hear: (doubt: Doubt) => void,
  ahead: Fetched,
): Promise<Found[]> {
  const found: Found[] = [];
  for await (const one of server.searchAll(type, ofPatientParams(patientId), hear, ahead)) {
    const named = patientIdsOf(one.resource, server.baseUrl);
    if (named.length > 0 && !named.includes(patientId)) {
      throw new FhirServerError('foreign-patient', {
        method: 'GET',
        resourceType: type,
        url: `${server.baseUrl}/${type}?patient=Patient/${patientId}`,
        detail: `the answer holds ${type}/${one.resource.id} of Patient/${named.join(', Patient/')}`,
      });
    }
    found.push(one);
  }
  return found;
}

/** The parameters of every search for what a patient has. */
export function ofPatientParams(patientId: string) {
  return { patient: `Patient/${patientId}` };
}

function locationIds(found: readonly Found[], baseUrl: string): string[] {
  const stays = found.flatMap(({ resource }) =>
    resource.resourceType === 'Encounter' ? ((resource as Encounter).location ?? []) : [],
  );
  return unique(stays.map(({ location }) => idIn(location?.reference, 'Location', baseUrl)));
}

function medicationIds(found: readonly Found[], baseUrl: string): string[] {
  const references = found.map(
    ({ resource }) => (resource as MedicationAdministration).medicationReference?.reference,
  );
  return unique(references.map((reference) => idIn(reference, 'Medication', baseUrl)));
}

function unique(ids: readonly (string | undefined)[]): string[] {
  return [...new Set(ids.filter((id) => id !== undefined))];
}

function isWritten(resource: Resource): boolean {
  return (writtenTypes as readonly string[]).includes(resource.resourceType);
}

function isOurs(resource: Resource): boolean {
  const { identifier } = resource as { identifier?: readonly { system?: string }[] };
  return (
    Array.isArray(identifier) &&
    identifier.some(({ system }) => system !== undefined && ourSystems.has(system))
  );
}
