import { lineDeviceTokens } from '@dwellward/core';
import type { Device } from 'fhir/r4.js';
import type { FhirServer } from './fhir-server/index.js';
import { idIn, patientIdOf } from './references.js';

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
    type: lineDeviceTokens.join(','),
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
