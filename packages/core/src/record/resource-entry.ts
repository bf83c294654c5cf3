/** A resource as it came. */
export interface ResourceEntry {
  readonly resource?: unknown;
  /** The full URL of its Bundle entry, where it had one. */
  readonly fullUrl?: string | undefined;
  /** Where it stood, for people: `Bundle.entry[7].resource`, or a file and a line. */
  readonly place?: string;
  /** Why there is no resource, where whoever read the input knows it. */
  readonly problem?: string;
  /** In the place of a resource: what whoever read the input knows to be missing from it, without a full stop. */
  readonly missing?: string;
}
