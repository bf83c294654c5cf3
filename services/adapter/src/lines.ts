import { lineTypes, standard } from '@dwellward/profiles';
import type { Device } from 'fhir/r4.js';
import type { FhirServer } from './fhir-server/index.js';
import { idIn, patientIdOf } from './references.js';

// The codes of SNOMED CT that stand for a line where a record has none of ours.
const snomedLineTypes = ['445085009', '398176008', '1344705000', '398013009', '52124006'];

/** Device.type of what is a line or a lumen. Our codes without a system: records hold them with another, or with none. */
export const lineTypeTokens: readonly string[] = [
  ...lineTypes.map(([code]) => code),
  ...snomedLineTypes.map((code) => `${standard.snomed}|${code}`),
];

/** The patients who have lines, and the lumens that don’t say whose they are. */
export interface PatientsWithLines {
  readonly patients: ReadonlySet<string>;
  /** By patient id: ids of lumens whose line names the patient though they don’t. */
  readonly lumens: ReadonlyMap<string, readonly string[]>;
  /** Lines that name no patient on this server. */
  readonly ownerless: readonly string[];
}

/** Finds all patients with a line on the server, through the Devices of the line types. */
export async function findPatientsWithLines(server: FhirServer): Promise<PatientsWithLines> {
  const owners = new Map<string, string>();
  const orphans = new Map<string, string>();
  const ownerless: string[] = [];
  for await (const { resource } of server.searchAll('Device', {
    type: lineTypeTokens.join(','),
  })) {
    const device = resource as Device;
    if (device.id === undefined) continue;
    const patient = patientIdOf(device, server.baseUrl);
    const parent = idIn(device.parent?.reference, 'Device', server.baseUrl);
    if (patient !== undefined) owners.set(device.id, patient);
    else if (parent !== undefined) orphans.set(device.id, parent);
    else ownerless.push(device.id);
  }
  const lumens = new Map<string, string[]>();
  for (const [lumen, line] of orphans) {
    const patient = owners.get(line);
    if (patient === undefined) ownerless.push(lumen);
    else lumens.set(patient, [...(lumens.get(patient) ?? []), lumen].sort());
  }
  return { patients: new Set(owners.values()), lumens, ownerless };
}
