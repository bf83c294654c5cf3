import {
  Calendar,
  dueCare,
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
    plan(slice: Slice, asOf: string) {
      const when = { asOf, zone };
      const records = readRecords(slice.record);
      const cares = records.lines.map((line) => dueCare(line, policy, when));
      onComputed(slice.patient, { records, cares });
      const existing = slice.existing as FhirResource[];
      const policyChange = nextPolicyChange(policy, when);
      const bundle = transactionFor({ records, cares, policy, when, existing });
      return {
        bundle: bundle && withPatient(bundle, slice.patient),
        nextChangeMs: nextChangeMs(
          cares,
          [...ends(records, zone), ...(policyChange === undefined ? [] : [Date.parse(policyChange)])],
          Date.parse(asOf),
        ),
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

/** When infusions end whose end is on record: what follows an infusion is asked for then. */
function ends({ lines }: Records, zone: string): number[] {
  const calendar = new Calendar(zone);
  return lines.flatMap(({ infusions }) =>
    infusions.flatMap(({ until }) => (until ? [calendar.latest(until)] : [])),
  );
}

/**
 * The next instant after `asOf` at which an item opens, falls overdue or is no longer held, or one of the others.
 * @param others instants at which the policy changes or an infusion ends.
 */
function nextChangeMs(
  cares: readonly LineCare[],
  others: readonly number[],
  asOfMs: number,
): number | undefined {
  const items = cares.flatMap((care) => care.items);
  const instants = [
    ...items.flatMap(({ opens, dueBy }) => [opens, dueBy]),
    ...cares.flatMap((care) => care.holds.flatMap(({ until }) => until ?? [])),
  ].map((text) => Date.parse(text));
  // Overdue begins after dueBy, so look a second later.
  const later = [...instants, ...others].map((atMs) => atMs + 1000).filter((atMs) => atMs > asOfMs);
  return later.length === 0 ? undefined : Math.min(...later);
}
