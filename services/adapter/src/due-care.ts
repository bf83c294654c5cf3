import {
  carePolicies,
  dueCareOfEach,
  fhirVersionOf,
  nextChange,
  nextPolicyChange,
  readRecords,
  transactionFor,
  type AsOf,
  type CodeMaps,
  type LineCare,
  type LineRecord,
  type Records,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import type { Bundle, DetectedIssue, FhirResource } from 'fhir/r4.js';
import type { Care, Slice } from './care.js';
import { nameOf } from './slice.js';

/** What was computed of one patient. */
export interface Computed {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  /** Lines that only a nursing chart tells of: no Device is on the server that a Task could point to. */
  readonly chartedOnly: readonly string[];
}

/** The records of several patients as one. */
export function recordsOfAll(all: Iterable<Computed>): Records {
  const records = [...all].map((one) => one.records);
  return {
    lines: records.flatMap(({ lines }) => lines),
    issues: records.flatMap(({ issues }) => issues),
    notUnderstood: records.flatMap(({ notUnderstood }) => notUnderstood),
    otherBusiness: records.flatMap(({ otherBusiness }) => otherBusiness),
    unitStays: records.flatMap(({ unitStays }) => unitStays),
  };
}

/**
 * Due care by a policy, as the adapter keeps it.
 * @param zone IANA zone of the unit.
 * A line that only a nursing chart tells of gets no Tasks: there is no Device that they could point to, and a server that
 * checks references would refuse the patient’s whole transaction.
 * @param maps what the hospital’s own codes mean.
 * @param onComputed told what was computed of every patient that is looked at, for those who show it.
 */
export function dueCareBy(
  policy: Policy,
  zone: string,
  onComputed: (patient: string, computed: Computed) => void = () => undefined,
  maps?: CodeMaps,
): Care {
  return {
    policies: (asOf: string) => carePolicies(policy, { asOf, zone }),
    difference(slice: Slice, asOf: string) {
      const when = { asOf, zone };
      const fhirVersion = fhirVersionOf(slice.fhirVersion ?? '');
      const { records, chartedOnly } = withDevices(
        readRecords(slice.record, {
          ...(fhirVersion === undefined ? {} : { fhirVersion }),
          ...(maps === undefined ? {} : { maps }),
        }),
        slice,
      );
      const cares = dueCareOfEach(records.lines, policy, when);
      onComputed(slice.patient, { records, cares, chartedOnly });
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
        nextChangeMs: lookAgain(
          [
            ...records.lines.flatMap((line, at) => {
              const care = cares[at];
              return care === undefined || care.notComputed
                ? []
                : (nextChange(line, care, policy, justBefore(when)) ?? []);
            }),
            // A new version may ask for care that none asks for today.
            ...[nextPolicyChange(policy, when) ?? []].flat(),
          ],
          asOf,
        ),
      };
    },
  };
}

/** The records without the lines that no Device on the server stands for; an issue about one names what it was read from. */
function withDevices(records: Records, slice: Slice): Pick<Computed, 'records' | 'chartedOnly'> {
  const there = new Set(slice.record.map(({ resource }) => nameOf(resource)));
  const stands = ({ ref, planned }: LineRecord) =>
    [ref, ...(planned?.refs ?? [])].some((one) => there.has(one.split('#')[0] ?? one));
  const chartedOnly = records.lines.filter((line) => !stands(line)).map(({ ref }) => ref);
  if (chartedOnly.length === 0) return { records, chartedOnly };
  const gone = new Set(chartedOnly);
  const issues = records.issues.map(({ line, ...issue }) =>
    line === undefined || gone.has(line) ? issue : { ...issue, line },
  );
  return {
    records: { ...records, lines: records.lines.filter(({ ref }) => !gone.has(ref)), issues },
    chartedOnly,
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

/** Times are written to the second: what is over, is over a second later. */
const justAfterMs = 1000;

/** So that a change of this very moment is among those to come: what falls overdue does so just after its time. */
function justBefore({ asOf, zone }: AsOf): AsOf {
  return { asOf: new Date(Date.parse(asOf) - justAfterMs).toISOString(), zone };
}

/**
 * When to look again, milliseconds since 1970: at the first of the changes, when something may be done from then on, and
 * once more just after one that has come, when something may have fallen overdue.
 */
function lookAgain(changes: readonly string[], asOf: string): number | undefined {
  const nowMs = Date.parse(asOf);
  const looks = changes
    .map((text) => Date.parse(text))
    .map((ms) => (ms > nowMs ? ms : ms + justAfterMs))
    .filter((ms) => ms > nowMs);
  return looks.length === 0 ? undefined : Math.min(...looks);
}
