import type { LineTokens } from '@dwellward/core';
import type { Appointment, Device, Resource, ServiceRequest } from 'fhir/r4.js';
import type { Doubt, FhirServer } from './fhir-server/index.js';
import { idIn, patientIdOf, patientIdsOf } from './references.js';
import type { DispensableType } from './slice.js';
import { versionKey } from './version-key.js';

/** The patients who have lines or are to have one, and the lumens that don’t say whose they are. */
export interface PatientsWithLines {
  readonly patients: ReadonlySet<string>;
  /** By patient id: ids of lumens whose line names the patient though they don’t. */
  readonly lumens: ReadonlyMap<string, readonly string[]>;
  /** By patient id: the versions of their Devices, as one text. */
  readonly devices: ReadonlyMap<string, string>;
  /** Lines that name no patient on this server. */
  readonly ownerless: readonly string[];
}

/**
 * Finds all patients with a line on the server, through the Devices of the line types, and those for whom an insertion
 * is planned, through its ServiceRequest or Appointment.
 * @param without types that the server does not have.
 * @param hear told what the server says of its answers.
 * @param tokens by what codes lines and insertions are known.
 */
export async function findPatientsWithLines(
  server: FhirServer,
  without: readonly DispensableType[],
  hear: (doubt: Doubt) => void,
  tokens: LineTokens,
): Promise<PatientsWithLines> {
  const owners = new Map<string, string>();
  const versions = new Map<string, string[]>();
  const orphans = new Map<string, string>();
  const ownerless: string[] = [];
  // What only a text says is found by no search for codes: every Device is looked at then, one that is no line in vain.
  const ofLines: Record<string, string> = tokens.texts.length > 0 ? {} : { type: tokens.devices.join(',') };
  for await (const { resource } of server.searchAll('Device', ofLines, hear)) {
    const device = resource as Device;
    if (device.id === undefined) continue;
    const patient = patientIdOf(device, server.baseUrl);
    const parent = idIn(device.parent?.reference, 'Device', server.baseUrl);
    if (patient !== undefined) {
      owners.set(device.id, patient);
      versions.set(patient, [...(versions.get(patient) ?? []), versionKey(device)]);
    } else if (parent !== undefined) orphans.set(device.id, parent);
    else ownerless.push(device.id);
  }
  const lumens = new Map<string, string[]>();
  for (const [lumen, line] of orphans) {
    const patient = owners.get(line);
    if (patient === undefined) ownerless.push(lumen);
    else lumens.set(patient, [...(lumens.get(patient) ?? []), lumen].sort());
  }
  return {
    patients: new Set([...owners.values(), ...(await toHaveOne(server, without, hear, tokens))]),
    lumens,
    devices: new Map([...versions].map(([patient, keys]) => [patient, keys.sort().join(' ')])),
    ownerless,
  };
}

/** By type: the parameters that find a planned insertion. An Appointment may say so in one of two elements. */
const plannedSearches = [
  ['ServiceRequest', 'code'],
  ['Appointment', 'service-type'],
  ['Appointment', 'reason-code'],
] as const;

async function toHaveOne(
  server: FhirServer,
  without: readonly DispensableType[],
  hear: (doubt: Doubt) => void,
  { insertions }: LineTokens,
): Promise<ReadonlySet<string>> {
  const patients = new Set<string>();
  for (const [type, parameter] of plannedSearches) {
    if (without.includes(type)) continue;
    const params = { [parameter]: insertions.join(',') };
    for await (const { resource } of server.searchAll(type, params, hear)) {
      for (const patient of patientIdsOf(resource, server.baseUrl)) patients.add(patient);
    }
  }
  return patients;
}

/** Whether a ServiceRequest or an Appointment names an insertion: of one that is only based on such a request, no. */
export function plansInsertion(resource: Resource, { insertions }: LineTokens): boolean {
  const { code } = resource as ServiceRequest;
  const { serviceType = [], reasonCode = [] } = resource as Appointment;
  const concepts =
    resource.resourceType === 'ServiceRequest'
      ? [code]
      : resource.resourceType === 'Appointment'
        ? [...serviceType, ...reasonCode]
        : [];
  return concepts
    .flatMap((concept) => concept?.coding ?? [])
    .some(
      ({ system, code: value }) =>
        value !== undefined && (insertions.includes(value) || insertions.includes(`${system}|${value}`)),
    );
}
