import type { Bundle, Resource } from 'fhir/r4.js';
import type { Found } from './fhir-server/index.js';

/** What is on the server of one patient. */
export interface Slice {
  /** `Patient/12`. */
  readonly patient: string;
  /** The record: Patient, Devices, Procedures, Observations and the rest that due care is computed from. */
  readonly record: readonly Found[];
  /** Tasks, Flags and DetectedIssues that the adapter wrote earlier, whoever changed them since. */
  readonly existing: readonly Resource[];
  /** Other policies by which the same Tasks are kept; none where it is absent. */
  readonly contested?: ReadonlySet<string>;
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
