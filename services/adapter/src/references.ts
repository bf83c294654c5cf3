import type { Resource } from 'fhir/r4.js';

const idPattern = '[A-Za-z0-9\\-.]{1,64}';

/**
 * The id in a reference to a resource of this type on this server: relative, or absolute below its base, with or
 * without a version. Undefined for anything else.
 */
export function idIn(reference: unknown, resourceType: string, baseUrl: string): string | undefined {
  if (typeof reference !== 'string') return undefined;
  const relative = reference.startsWith(`${baseUrl}/`) ? reference.slice(baseUrl.length + 1) : reference;
  const match = new RegExp(`^${resourceType}/(${idPattern})(?:/_history/.*)?$`).exec(relative);
  return match?.[1];
}

/**
 * The ids of the patients that a resource says it is about; a Patient is about itself. Only an Appointment has several:
 * whoever of those who take part is a patient.
 */
export function patientIdsOf(resource: Resource, baseUrl: string): string[] {
  if (resource.resourceType === 'Patient') return resource.id === undefined ? [] : [resource.id];
  const about = resource as { subject?: Ref; patient?: Ref; for?: Ref; participant?: unknown };
  const actors = Array.isArray(about.participant)
    ? (about.participant as readonly ({ actor?: Ref } | null)[]).map((one) => one?.actor)
    : [];
  const named = [about.subject, about.patient, about.for].flatMap(
    (ref) => idIn(ref?.reference, 'Patient', baseUrl) ?? [],
  );
  if (named[0] !== undefined) return [named[0]];
  return [...new Set(actors.flatMap((ref) => idIn(ref?.reference, 'Patient', baseUrl) ?? []))];
}

/** The id of the patient that a resource other than an Appointment is about. */
export function patientIdOf(resource: Resource, baseUrl: string): string | undefined {
  return patientIdsOf(resource, baseUrl)[0];
}

interface Ref {
  readonly reference?: unknown;
}
