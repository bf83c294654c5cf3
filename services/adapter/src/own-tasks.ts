import { identifierSystem } from '@dwellward/profiles';
import { saysItLacks, type Doubt, type FhirServer } from './fhir-server/index.js';
import { patientIdsOf } from './references.js';

/** Statuses in which a Task waits for somebody. */
const open = 'draft,requested,received,accepted,ready,in-progress,on-hold';

/**
 * The patients who have open Tasks of ours, also where nothing else of them is left on the server: a line that was
 * deleted while nobody looked would keep its Tasks open for ever.
 * @param hear told where the server can’t search Tasks so; then there are none.
 * @returns by patient id: how many are open.
 * @throws FhirServerError where the server can’t be asked.
 */
export async function patientsWithOpenTasks(
  server: FhirServer,
  hear: (doubt: Doubt) => void,
): Promise<ReadonlyMap<string, number>> {
  const patients = new Map<string, Set<string>>();
  // The system alone finds all of ours.
  const params = { identifier: `${identifierSystem.dueItem}|`, status: open };
  try {
    for await (const { resource } of server.searchAll('Task', params, hear)) {
      for (const patient of patientIdsOf(resource, server.baseUrl))
        patients.set(patient, (patients.get(patient) ?? new Set()).add(resource.id ?? ''));
    }
  } catch (error) {
    if (!saysItLacks(error)) throw error;
    hear({
      code: 'hint',
      resourceType: 'Task',
      detail: `The server can’t search open Tasks by the system of their identifier: Tasks of lines that are deleted while the adapter is down stay open. ${error.message}`,
    });
  }
  return new Map([...patients].map(([id, tasks]) => [id, tasks.size]));
}
