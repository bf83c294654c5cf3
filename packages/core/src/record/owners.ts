import { activityOfRole } from '@dwellward/profiles';
import { activityOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { Ref } from '../model/record.js';
import { proceduresOn } from './procedure-devices.js';
import { recordedTime } from './times.js';
import { periodOf, usesOf } from './uses.js';

/**
 * Whose line a Device is: it says so itself; else by what was done with it; else by an extension that points to a patient,
 * as servers write what R4 has no element for.
 */
export function ownerOf(
  { ref, value }: Indexed<'Device'>,
  index: ResourceIndex,
  issues: IssueList,
): Ref | undefined {
  const own = index.nameOf(value.patient, ref);
  if (own !== undefined) return own;
  const users = [
    ...usesOf(ref, index).map((use) => index.nameOf(use.value.subject, use.ref)),
    ...proceduresOn(ref, index).map((procedure) => index.nameOf(procedure.value.subject, procedure.ref)),
  ].filter((one) => one !== undefined);
  const [first, ...others] = [...new Set(users)];
  if (first !== undefined && others.length > 0)
    issues.add(
      'conflicting-values',
      ref,
      'Device.patient',
      { code: 'line-of-several-patients', patients: [first, ...others], used: first },
      { severity: 'high', line: ref, patient: first, related: others },
    );
  return first ?? patientInExtension({ ref, value }, index, issues);
}

function patientInExtension(
  { ref, value }: Indexed<'Device'>,
  index: ResourceIndex,
  issues: IssueList,
): Ref | undefined {
  for (const { url = '', valueReference } of value.extension ?? []) {
    const patient = index.nameOf(valueReference, ref);
    if (patient === undefined || !(patient.startsWith('Patient/') || index.get('Patient', patient))) continue;
    issues.add(
      'unresolved-reference',
      ref,
      'Device.patient',
      { code: 'patient-by-extension', url, patient },
      { line: ref, patient },
    );
    return patient;
  }
  return undefined;
}

/** A Device that is no longer active, of which no removal is on record: nothing says that the line is out, or since when. */
export function reportState(
  { ref, value }: Indexed<'Device'>,
  index: ResourceIndex,
  issues: IssueList,
): void {
  const reason = (value.statusReason ?? [])
    .map(({ text, coding }) => text ?? coding?.[0]?.display ?? coding?.[0]?.code)
    .find((one) => one !== undefined);
  const { status } = value;
  const inactive = status === 'inactive' || (status === 'active' && goneBy(value.statusReason));
  if (status === undefined || !inactive || isRemoved(ref, index)) return;
  issues.add(
    'conflicting-values',
    ref,
    'Device.status',
    { code: 'device-not-active', status, ...(reason === undefined ? {} : { reason }) },
    { severity: 'high', line: ref },
  );
}

// HL7 FHIR R4, device-status-reason, and R5, device-availability-status: what no line that is in place can be.
const goneReasons = new Set(['hw-discon', 'off', 'lost', 'destroyed']);

function goneBy(reasons: Indexed<'Device'>['value']['statusReason']): boolean {
  return (reasons ?? []).some(({ coding }) => coding?.some(({ code }) => goneReasons.has(code ?? '')));
}

function isRemoved(line: Ref, index: ResourceIndex): boolean {
  const removal = activityOfRole('ends-line');
  return (
    proceduresOn(line, index).some(
      ({ value }) => activityOf(value.code) === removal && value.status === 'completed',
    ) ||
    usesOf(line, index).some(
      ({ value }) => value.status === 'completed' && recordedTime(periodOf(value)?.end) !== undefined,
    )
  );
}
