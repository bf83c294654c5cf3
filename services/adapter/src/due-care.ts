import {
  carePolicies,
  dueCare,
  fhirVersionOf,
  nextChange,
  nextPolicyChange,
  readRecords,
  transactionFor,
  type LineCare,
  type Records,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import type { Bundle, DetectedIssue, FhirResource } from 'fhir/r4.js';
import type { Care, Slice } from './care.js';

/** What was computed of one patient. */
export interface Computed {
  readonly records: Records;
  readonly cares: readonly LineCare[];
}

/**
 * Due care by a policy, as the adapter keeps it.
 * @param zone IANA zone of the unit.
 * @param onComputed told what was computed of every patient that is looked at, for those who show it.
 */
export function dueCareBy(
  policy: Policy,
  zone: string,
  onComputed: (patient: string, computed: Computed) => void = () => undefined,
): Care {
  return {
    policies: (asOf: string) => carePolicies(policy, { asOf, zone }),
    difference(slice: Slice, asOf: string) {
      const when = { asOf, zone };
      const fhirVersion = fhirVersionOf(slice.fhirVersion ?? '');
      const records = readRecords(slice.record, fhirVersion === undefined ? {} : { fhirVersion });
      const cares = records.lines.map((line) => dueCare(line, policy, when));
      onComputed(slice.patient, { records, cares });
      const existing = slice.existing as FhirResource[];
      const { contested } = slice;
      const bundle = transactionFor({
        records,
        cares,
        policy,
        when,
        existing,
        ...(contested ? { contested } : {}),
      });
      return {
        bundle: bundle && withPatient(bundle, slice.patient),
        nextChangeMs: earliest([
          ...records.lines.flatMap((line, at) => {
            const care = cares[at];
            return (care && nextChange(line, care, policy, when)) ?? [];
          }),
          // A new version may ask for care that none asks for today.
          ...[nextPolicyChange(policy, when) ?? []].flat(),
        ]),
      };
    },
  };
}

/** Everything in a patient’s slice is about the patient; an issue that does not say so could not be found again. */
function withPatient(bundle: Bundle, patient: string): Bundle {
  const entry = bundle.entry?.map((one) => {
    if (
      one.resource?.resourceType !== 'DetectedIssue' ||
      (one.resource as DetectedIssue).patient !== undefined
    )
      return one;
    return { ...one, resource: { ...one.resource, patient: { reference: patient } } };
  });
  return entry === undefined ? bundle : { ...bundle, entry };
}

/** The first of the changes; what falls overdue does so after its time, so a look comes a second later. */
function earliest(changes: readonly string[]): number | undefined {
  const instants = changes.map((text) => Date.parse(text) + 1000);
  return instants.length === 0 ? undefined : Math.min(...instants);
}
