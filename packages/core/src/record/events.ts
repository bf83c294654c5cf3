import {
  activityRow,
  connectorConditions,
  dressingConditions,
  dressingTypes,
  findingRow,
  lineSites,
  securementTypes,
  wordsForNo,
  type DressingType,
  type LineCareActivity,
  type SecurementType,
} from '@dwellward/profiles';
import { activityOf, findingOf, ownCodes } from './codes.js';
import { deviceRefsOf } from './procedure-devices.js';
import { outcomeOf } from './outcomes.js';
import { drugOf } from './drugs.js';
import { infusateOf } from './infusates.js';
import { reportDressings, reportValue } from './unsaid.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { CareEvent, Finding, Infusion, RecordedTime, Ref } from '../model/record.js';
import { readRange, sentUnit } from './quantities.js';
import type { Codeable, Quantity, Shape } from './shapes.js';
import { recordedTime } from './times.js';

/** A thing that happened to, or was seen on, a Device: the line or a lumen, decided later. */
export interface OnDevice<Fact> {
  readonly device: Ref;
  readonly fact: Omit<Fact, 'lumen'>;
  readonly subject?: Ref;
}

function siteOf(...concepts: readonly (Codeable | undefined)[]): 'exit-site' | 'incision' {
  return ownCodes('lineSite', lineSites, ...concepts).includes('incision') ? 'incision' : 'exit-site';
}

/**
 * The care events among the Procedures; one that was done to several Devices counts for each. One that names no Device
 * may belong to a planned line.
 * @param isLine whether a Device is a line or a lumen of the record.
 * @param plannedInsertionOf the planned insertion that such a Procedure belongs to.
 */
export function readEvents(
  index: ResourceIndex,
  issues: IssueList,
  plannedInsertionOf: (procedure: Indexed<'Procedure'>) => Ref | undefined,
  isLine: (device: Ref) => boolean,
): OnDevice<CareEvent>[] {
  return index.all('Procedure').flatMap((procedure) => {
    const { ref, value } = procedure;
    const named = deviceRefsOf(procedure, index);
    const activity = activityOf(value.code, named.some(isLine));
    // What it is can’t be told: `understood` gathers it.
    if (!activity) return [];
    const subject = index.nameOf(value.subject, ref);
    const planned = named.length === 0 ? plannedInsertionOf(procedure) : undefined;
    const devices = planned === undefined ? named : [planned];
    if (devices.length === 0) {
      issues.add(
        'unresolved-reference',
        ref,
        'Procedure.focalDevice',
        { code: 'activity-on-no-line', activity },
        {
          severity: 'high',
          ...(subject ? { patient: subject } : {}),
        },
      );
      return [];
    }
    const { at, from } = performed(activity, value, ref, issues);
    const outcome = outcomeOf(activity, value.outcome);
    if (outcome === 'not-readable' && value.status === 'completed')
      issues.add(
        'unknown-code',
        ref,
        'Procedure.outcome',
        { code: 'tip-outcome-not-readable' },
        { severity: 'high', ...(subject ? { patient: subject } : {}) },
      );
    const dressing = dressingOf(value.usedCode);
    const securement = ownCodes('securementType', securementTypes, ...(value.usedCode ?? []));
    reportDressings(value, dressing, ref, issues, subject ? { patient: subject } : {});
    const fact = {
      ref,
      activity,
      // What did not succeed was not done, whatever the status says.
      status: outcome === 'counts' || value.status !== 'completed' ? (value.status ?? 'unknown') : 'not-done',
      ...reasonOf(activity, value),
      ...(at ? { at } : {}),
      ...(from ? { from } : {}),
      site: siteOf(...(value.bodySite ?? [])),
      ...(dressing ? { dressing } : {}),
      ...(securement.length > 0 ? { securement: securement as SecurementType[] } : {}),
      ...identitiesOf(value),
    };
    return devices.map((device) => ({ device, fact, ...(subject ? { subject } : {}) }));
  });
}

/** Why it was not done, and why a line was taken out: the text, else what the code is called. */
function reasonOf(
  activity: LineCareActivity,
  { status, statusReason, reasonCode }: Shape<'Procedure'>,
): Pick<CareEvent, 'reason'> {
  const ends = activityRow(activity).role === 'ends-line';
  const said = status === 'not-done' ? statusReason : ends ? reasonCode?.[0] : undefined;
  const [coding] = said?.coding ?? [];
  const reason = [said?.text, coding?.display, coding?.code].find((one) => one?.trim());
  return reason === undefined ? {} : { reason };
}

/** R4 lets a Procedure be based on a request alone, but records name the Task all the same. */
function identitiesOf({ identifier, basedOn }: Shape<'Procedure'>): Pick<CareEvent, 'identities'> {
  const own = (identifier ?? []).flatMap(({ system, value }) => (value ? [`${system ?? ''}|${value}`] : []));
  const tasks = (basedOn ?? []).flatMap(
    ({ reference }) => /(?:^|\/)(Task\/[^/#]+)/.exec(reference ?? '')?.[1] ?? [],
  );
  const identities = [...new Set([...own, ...tasks])].sort();
  return identities.length > 0 ? { identities } : {};
}

function performed(
  activity: LineCareActivity,
  value: Shape<'Procedure'>,
  ref: Ref,
  issues: IssueList,
): { at?: RecordedTime; from?: RecordedTime } {
  const single = recordedTime(value.performedDateTime);
  if (single) return { at: single };
  const [start, end] = [recordedTime(value.performedPeriod?.start), recordedTime(value.performedPeriod?.end)];
  if (end) return { at: end, ...(start ? { from: start } : {}) };
  if (start) {
    if (value.status === 'completed') {
      issues.add(
        'imprecise-time',
        ref,
        'Procedure.performedPeriod.end',
        { code: 'period-without-end' },
        { severity: 'low' },
      );
    }
    return { at: start, from: start };
  }
  if (value.status === 'completed') {
    issues.add(
      'missing-time',
      ref,
      'Procedure.performed',
      {
        code: activityRow(activity).role === 'begins-line' ? 'insertion-without-time' : 'event-without-time',
      },
      { severity: 'high' },
    );
  }
  return {};
}

/** Gauze under a transparent dressing counts as gauze. */
function dressingOf(used: readonly Codeable[] | undefined): DressingType | undefined {
  const codes = ownCodes('dressingType', dressingTypes, ...(used ?? []));
  return (codes.includes('gauze-dressing') ? 'gauze-dressing' : codes[0]) as DressingType | undefined;
}

/** The line findings among the Observations, by the Device in `focus`. */
export function readFindings(index: ResourceIndex, issues: IssueList): OnDevice<Finding>[] {
  return index.all('Observation').flatMap((observation) => {
    const { ref, value } = observation;
    const finding = findingOf(value.code);
    // What is of the patient as a whole is read of the patient.
    if (!finding || findingRow(finding).ofPatient) return [];
    const subject = index.nameOf(value.subject, ref);
    const details = { severity: 'high' as const, ...(subject ? { patient: subject } : {}) };
    const at = recordedTime(
      value.effectiveDateTime ??
        value.effectiveInstant ??
        value.effectivePeriod?.end ??
        value.effectivePeriod?.start,
    );
    if (!at)
      issues.add(
        'missing-time',
        ref,
        'Observation.effective',
        { code: 'finding-without-time', finding },
        details,
      );
    const devices = (value.focus ?? [])
      .map((one) => index.nameOf(one, ref))
      .filter((one) => one !== undefined);
    if (devices.length === 0) {
      issues.add(
        'unresolved-reference',
        ref,
        'Observation.focus',
        { code: 'finding-on-no-line', finding },
        details,
      );
    }
    const quantity = quantityOf(value.valueQuantity ?? lengthIn(value), ref, issues);
    const values = findingValues(value);
    reportValue(finding, value, values, ref, issues, details);
    const fact = {
      ref,
      finding,
      status: value.status ?? 'unknown',
      ...(at ? { at } : {}),
      site: siteOf(value.bodySite),
      values,
      ...(value.valueBoolean === undefined ? {} : { flag: value.valueBoolean }),
      ...(quantity ? { quantity } : {}),
    };
    return devices.map((device) => ({ device, fact, ...(subject ? { subject } : {}) }));
  });
}

function findingValues(value: Shape<'Observation'>): string[] {
  const plain = [
    ...codes(value.valueCodeableConcept),
    ...(value.valueString ? [value.valueString.trim()] : []),
  ];
  const present = (value.component ?? []).flatMap((component) => {
    const code = findingOf(component.code);
    const said = codes(component.valueCodeableConcept);
    const isPresent =
      component.valueBoolean ??
      (component.valueInteger === undefined ? undefined : component.valueInteger > 0) ??
      (said.length > 0 && !said.some((one) => wordsForNo.has(one) || one === '0'));
    return code && isPresent ? [code] : [];
  });
  return [...new Set([...plain, ...present])].sort();
}

/** How far from the skin a damage is, or how long what came out: its component. */
function lengthIn(value: Shape<'Observation'>): Quantity | undefined {
  const lengths = (value.component ?? []).filter(({ code }) => {
    const finding = findingOf(code);
    if (finding === undefined) return false;
    const { kind, component } = findingRow(finding);
    return kind === 'quantity' && component !== undefined;
  });
  return lengths[0]?.valueQuantity;
}

function codes(concept: Codeable | undefined): string[] {
  const own = [
    ...ownCodes('dressingCondition', dressingConditions, concept),
    ...ownCodes('connectorCondition', connectorConditions, concept),
  ];
  return own.length > 0 ? own : (concept?.coding ?? []).flatMap(({ code }) => code ?? []);
}

function quantityOf(quantity: Quantity | undefined, ref: Ref, issues: IssueList) {
  if (!quantity) return undefined;
  const reading = readRange(quantity, sentUnit(quantity), 'cm');
  if (reading.ok) return reading.range;
  issues.add(reading.code, ref, 'Observation.valueQuantity', {
    code: 'length-not-used',
    reason: reading.reason,
  });
  return undefined;
}

/** What runs or ran through a Device. */
export function readInfusions(index: ResourceIndex, issues: IssueList): OnDevice<Infusion>[] {
  return index.all('MedicationAdministration').flatMap((administration) => {
    const { ref, value } = administration;
    if (value.status === 'entered-in-error' || value.status === 'not-done') return [];
    // What a lock was filled with is no infusion that ran and ended.
    if ((value.partOf ?? []).some((whole) => isLock(index.get('Procedure', index.nameOf(whole, ref)))))
      return [];
    const devices = (value.device ?? [])
      .map((one) => index.nameOf(one, ref))
      .filter((one) => one !== undefined);
    const named = (value.device ?? [])[0];
    if (devices.length === 0 && named !== undefined)
      reportUnnamed(administration, named.display, issues, index);
    const running = value.status === 'in-progress';
    const from = recordedTime(value.effectivePeriod?.start ?? value.effectiveDateTime);
    const until = running ? undefined : recordedTime(value.effectivePeriod?.end ?? value.effectiveDateTime);
    if (devices.length > 0 && !running && !until) {
      issues.add('missing-time', ref, 'MedicationAdministration.effective', {
        code: 'infusion-end-not-given',
      });
    }
    const drug = drugOf(value, ref, index);
    const infusate = infusateOf(value, ref, index, drug);
    const fact = {
      ref,
      ...(from ? { from } : {}),
      ...(until ? { until } : {}),
      running,
      ...(infusate ? { infusate } : {}),
      ...(drug ? { drug } : {}),
    };
    const subject = index.nameOf(value.subject, ref);
    return devices.map((device) => ({ device, fact, ...(subject ? { subject } : {}) }));
  });
}

/** It went through a device, and nothing says through which: it may run through a line of which nobody knows that it runs. */
function reportUnnamed(
  { ref, value }: Indexed<'MedicationAdministration'>,
  display: string | undefined,
  issues: IssueList,
  index: ResourceIndex,
): void {
  const subject = index.nameOf(value.subject, ref);
  issues.add(
    'unresolved-reference',
    ref,
    'MedicationAdministration.device',
    { code: 'infusion-through-no-line', ...(display ? { device: display } : {}) },
    { severity: 'high', ...(subject ? { patient: subject } : {}) },
  );
}

function isLock(procedure: Indexed<'Procedure'> | undefined): boolean {
  return procedure !== undefined && activityOf(procedure.value.code, true) === 'lock';
}
