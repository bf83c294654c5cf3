import type { Bundle, Resource } from 'fhir/r4.js';
import type { Fetched, FhirServer } from '../fhir-server/index.js';
import { ofPatientParams, typesWithout, type DispensableType } from '../slice.js';

// CDS Hooks 2.0, “Providing FHIR Resources to a CDS Service”: https://cds-hooks.hl7.org/2.0/

/** Types that the adapter writes and that say nothing of what is due: they are not read for a card. */
const saysNothing: readonly string[] = ['Task', 'DetectedIssue'];

/** The types that a card is made from, by their prefetch keys. */
function keysOf(without: readonly DispensableType[]): ReadonlyMap<string, string> {
  const types = typesWithout(without).filter((type) => !saysNothing.includes(type));
  return new Map(types.map((type) => [`${type.charAt(0).toLowerCase()}${type.slice(1)}`, type]));
}

/** What a client may give along: a read of the patient and a search a type, in the subset that clients are to take. */
export function prefetchTemplates(without: readonly DispensableType[]): Record<string, string> {
  return {
    patient: 'Patient/{{context.patientId}}',
    ...Object.fromEntries(
      [...keysOf(without)].map(([key, type]) => [key, `${type}?patient={{context.patientId}}`]),
    ),
  };
}

/**
 * What of the prefetched data stands for a whole answer of the server, by the URL that would be asked for. What is
 * missing, cut into pages, of another type or has a message of the server’s in it is left out, and so is read.
 */
export function givenBy(
  prefetch: Readonly<Record<string, unknown>>,
  patientId: string,
  server: Pick<FhirServer, 'readUrl' | 'searchUrl'>,
  without: readonly DispensableType[],
): Fetched {
  const given = new Map<string, unknown>();
  const url = (type: string) => server.searchUrl(type, ofPatientParams(patientId));
  const nothing: Bundle = { resourceType: 'Bundle', type: 'searchset' };
  for (const type of saysNothing) given.set(url(type), nothing);
  const { patient } = prefetch;
  if (isResource(patient, 'Patient') && patient.id === patientId)
    given.set(server.readUrl('Patient', patientId), patient);
  for (const [key, type] of keysOf(without)) {
    const value = prefetch[key];
    // Null stands for an answer without a match.
    if (value === null) given.set(url(type), nothing);
    else if (isWhole(value, type)) given.set(url(type), value);
  }
  return given;
}

function isResource(value: unknown, type: string): value is Resource {
  return typeof value === 'object' && value !== null && (value as Resource).resourceType === type;
}

/** Whether a value is all of a search: one page, of this type alone, with as many matches as it says there are. */
function isWhole(value: unknown, type: string): boolean {
  if (!isResource(value, 'Bundle')) return false;
  const { type: kind, link = [], entry = [], total } = value as Partial<Bundle>;
  if (kind !== 'searchset' || !Array.isArray(link) || !Array.isArray(entry)) return false;
  if (link.some((one) => one?.relation === 'next')) return false;
  if (!entry.every((one) => isResource(one?.resource, type))) return false;
  return total === undefined || (typeof total === 'number' && total <= entry.length);
}
