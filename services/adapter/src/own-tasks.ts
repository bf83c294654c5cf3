import { identifierSystem } from '@dwellward/profiles';
import type { FhirServer } from './fhir-server/index.js';
import { patientIdOf } from './references.js';

/** Statuses in which a Task waits for somebody. */
const open = 'draft,requested,received,accepted,ready,in-progress,on-hold';

/**
 * The patients who have open Tasks of ours, also where nothing else of them is left on the server: a line that was
 * deleted while nobody looked would keep its Tasks open for ever.
 * @returns by patient id: how many are open.
 * @throws FhirServerError where the server can’t be asked.
 */
export async function patientsWithOpenTasks(server: FhirServer): Promise<ReadonlyMap<string, number>> {
  const patients = new Map<string, number>();
  const seen = new Set<string>();
  // The system alone finds all of ours.
  const params = { identifier: `${identifierSystem.dueItem}|`, status: open };
  for await (const { resource } of server.searchAll('Task', params)) {
    const patient = patientIdOf(resource, server.baseUrl);
    if (patient === undefined || seen.has(resource.id ?? '')) continue;
    seen.add(resource.id ?? '');
    patients.set(patient, (patients.get(patient) ?? 0) + 1);
  }
  return patients;
}
