import type { Bundle, Resource } from 'fhir/r4.js';
import type { Doubt, Found } from './fhir-server/index.js';

/** What is on the server of one patient. */
export interface Slice {
  /** `Patient/12`. */
  readonly patient: string;
  /** The record: Patient, Devices, Procedures, Observations and the rest that due care is computed from. */
  readonly record: readonly Found[];
  /** The version of FHIR that the server’s CapabilityStatement names. */
  readonly fhirVersion?: string | undefined;
  /** Tasks, Flags and DetectedIssues that the adapter wrote earlier, whoever changed them since. */
  readonly existing: readonly Resource[];
  /** Other policies by which the same Tasks are kept; none where it is absent. */
  readonly contested?: ReadonlySet<string>;
  /** What the reading may have left out, as far as the server says or its answers show. */
  readonly doubts?: readonly Doubt[];
  /** Devices that our open Tasks point to and that are known to be gone, or not to be this patient’s any more: `Device/12`. */
  readonly elsewhere?: ReadonlySet<string>;
  /** The version of everything that the server answered with, by `Task/12`. */
  readonly read?: ReadonlyMap<string, Version>;
}

/** A version of a resource, as far as the server names it. */
export interface Version {
  readonly versionId?: string | undefined;
  readonly lastUpdated?: string | undefined;
}

/** What has to be written for a patient, and when to look again. */
export interface Difference {
  /** A transaction; undefined where the server holds what it should. */
  readonly bundle: Bundle | undefined;
  /** When an item or a hold changes its state next, milliseconds since 1970. */
  readonly nextChangeMs?: number | undefined;
}

/** Works out what should be on the server. Pure: the same slice and instant give the same difference. */
export interface Care {
  /** The plans that are worked by at an instant, with their versions; absent where there are none. */
  policies?(asOf: string): readonly string[];
  /** @param asOf instant in ISO 8601. */
  difference(slice: Slice, asOf: string): Difference;
}
