/** A resource as it came. */
export interface ResourceEntry {
  readonly resource?: unknown;
  /** The full URL of its Bundle entry, where it had one. */
  readonly fullUrl?: string | undefined;
  /** Where it stood, for people: `Bundle.entry[7].resource`, or a file and a line. */
  readonly place?: string;
  /** The version of FHIR that whatever it stood in names: `5.0.0`, `R4B`. */
  readonly fhirVersion?: string;
  /** Its `Type/id` where it came from, of a resource that another was made of: `DeviceUsage/7`. */
  readonly source?: string;
  /** Why there is no resource, where whoever read the input knows it. */
  readonly problem?: string;
  /** In the place of a resource: what whoever read the input knows to be missing from it, without a full stop. */
  readonly missing?: string;
}

/** The `Type/id` that a resource goes by where it came from. */
export function ownName({ resource, source }: ResourceEntry): string | undefined {
  if (source !== undefined) return source;
  if (typeof resource !== 'object' || resource === null) return undefined;
  const { resourceType, id } = resource as { resourceType?: unknown; id?: unknown };
  return typeof resourceType === 'string' && typeof id === 'string' && id !== ''
    ? `${resourceType}/${id}`
    : undefined;
}
