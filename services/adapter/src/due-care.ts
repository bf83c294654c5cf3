import {
  Calendar,
  dueCare,
  nextPolicyChange,
  policyAt,
  readRecords,
  transactionFor,
  type AsOf,
  type LineCare,
  type RecordedTime,
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
          [
            ...turns(records, policy, when),
            ...(policyChange === undefined ? [] : [Date.parse(policyChange)]),
          ],
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

/**
 * When what is on record begins or ends to count, as far as it lies ahead: an infusion whose end is known, care that was
 * charted ahead, an order or a stay with its bounds, a result that goes stale. Nothing is written to the record then.
 * Day counts, which turn at midnight, are left to the rounds that look at everybody.
 */
function turns({ lines }: Records, policy: Policy, { asOf, zone }: AsOf): number[] {
  const calendar = new Calendar(zone);
  const nowMs = Date.parse(asOf);
  const begins = (time: RecordedTime | undefined) => (time ? [calendar.earliest(time)] : []);
  const ends = (time: RecordedTime | undefined) => (time ? [calendar.latest(time)] : []);
  const { labStaleAfter } = policyAt(policy, { asOf, zone });
  return lines
    .flatMap(({ events, findings, infusions, orders, patient }) => [
      ...[...events, ...findings].flatMap(({ at }) => begins(at)),
      ...[...infusions, ...orders, ...patient.stays].flatMap(({ from, until }) => [
        ...begins(from),
        ...ends(until),
      ]),
      ...patient.measurements.flatMap(({ at }) =>
        begins(at).flatMap((ms) => [ms, calendar.add(ms, labStaleAfter)]),
      ),
    ])
    .filter((ms) => ms > nowMs);
}

/**
 * The next instant after `asOf` at which an item opens, falls overdue or is no longer held, or one of the others.
 * @param others instants at which the policy or what counts of the record changes.
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
