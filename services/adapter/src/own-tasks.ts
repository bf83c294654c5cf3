import { identifierSystem } from '@dwellward/profiles';
import { FhirServerError, type Doubt, type FhirServer } from './fhir-server/index.js';
import { patientIdsOf } from './references.js';

/** Statuses in which a Task waits for somebody. */
const open = 'draft,requested,received,accepted,ready,in-progress,on-hold';

/**
 * The patients who have open Tasks of ours, also where nothing else of them is left on the server: a line that was
 * deleted while nobody looked would keep its Tasks open for ever.
 * @param hear told where Tasks can’t be searched so: the round goes on with those who have lines.
 * @returns by patient id: how many are open.
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
    if (!(error instanceof FhirServerError)) throw error;
    hear({
      code: 'left-out',
      resourceType: 'Task',
      detail: `Open Tasks can’t be searched by the system of their identifier: those of lines that were deleted while the adapter was down stay open. ${error.message}`,
    });
  }
  return new Map([...patients].map(([id, tasks]) => [id, tasks.size]));
}
