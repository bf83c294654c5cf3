import { dueCare, readRecords, type DueItem, type LineCare, type LineRecord } from '@dwellward/core';
import { bundledPlan, readPolicy, type BundledPlanName, type Policy } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import type { Bundle, Task } from 'fhir/r4.js';
import { said } from '../../said.js';

export const zone = 'Europe/Berlin';
/** A moment of the day of these tests. */
export const at = (time: string) => `2026-11-25T${time}+01:00`;

const coded = (system: string, code: string) => ({ coding: [{ system, code }] });
const patient = { reference: 'Patient/maple' };
const on = (id: string) => ({ reference: `Device/${id}` });

export type Resources = readonly Record<string, unknown>[];

/** A tunneled line with a red and a white lumen, in since the 10th, its tip confirmed. */
export function lineOf({
  weightKg,
  birthDate = '1980-05-05',
  primingMl = { red: 0.8, white: 0.7 },
  type = 'tunneled-cvc',
}: {
  readonly weightKg?: number;
  readonly birthDate?: string;
  readonly primingMl?: { readonly red?: number; readonly white?: number };
  readonly type?: string;
} = {}): Resources {
  const lumen = (id: 'red' | 'white') => {
    const volume = primingMl[id];
    return {
      resourceType: 'Device',
      id,
      status: 'active',
      type: coded(codeSystem.lineType, 'lumen'),
      parent: on('line'),
      deviceName: [{ name: id, type: 'user-friendly-name' }],
      ...(volume === undefined
        ? {}
        : {
            property: [
              {
                type: coded(codeSystem.lineProperty, 'priming-volume'),
                valueQuantity: [
                  { value: volume, unit: 'mL', system: 'http://unitsofmeasure.org', code: 'mL' },
                ],
              },
            ],
          }),
    };
  };
  return [
    { resourceType: 'Patient', id: 'maple', birthDate },
    {
      resourceType: 'Device',
      id: 'line',
      status: 'active',
      type: coded(codeSystem.lineType, type),
      patient,
    },
    lumen('red'),
    lumen('white'),
    event('inserted', 'insertion', '2026-11-10T10:00:00+01:00'),
    event('confirmed', 'tip-confirmation', '2026-11-10T10:30:00+01:00'),
    ...(weightKg === undefined
      ? []
      : [
          {
            resourceType: 'Observation',
            id: 'weight',
            status: 'final',
            code: { coding: [{ system: 'http://loinc.org', code: '29463-7' }] },
            subject: patient,
            effectiveDateTime: '2026-11-24T08:00:00+01:00',
            valueQuantity: { value: weightKg, unit: 'kg', system: 'http://unitsofmeasure.org', code: 'kg' },
          },
        ]),
  ];
}

/** Something that was done to the line or a lumen. */
export function event(id: string, activity: string, when: string, device = 'line') {
  return {
    resourceType: 'Procedure',
    id,
    status: 'completed',
    code: coded(codeSystem.lineCareActivity, activity),
    subject: patient,
    performedDateTime: when,
    focalDevice: [{ manipulated: on(device) }],
  };
}

/** Something that was seen on the line or a lumen: with a value, or simply there. */
export function finding(id: string, code: string, when: string, value?: string | boolean, device = 'line') {
  return {
    resourceType: 'Observation',
    id,
    status: 'final',
    code: coded(codeSystem.lineFinding, code),
    subject: patient,
    focus: [on(device)],
    effectiveDateTime: when,
    ...(typeof value === 'string'
      ? { valueCodeableConcept: { coding: [{ code: value }] } }
      : { valueBoolean: value ?? true }),
  };
}

/** The same finding of damage, so many centimetres from the skin. */
export function fromSkin(cm: number, damage: ReturnType<typeof finding>) {
  return {
    ...damage,
    component: [
      {
        code: coded(codeSystem.lineFinding, 'distance-from-skin'),
        valueQuantity: { value: cm, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' },
      },
    ],
  };
}

/** Something that runs through a lumen. */
export function infusion(id: string, lumen: string, from: string, until?: string) {
  return {
    resourceType: 'MedicationAdministration',
    id,
    status: until === undefined ? 'in-progress' : 'completed',
    medicationCodeableConcept: { text: 'electrolytes' },
    subject: patient,
    effectivePeriod: { start: from, ...(until === undefined ? {} : { end: until }) },
    device: [on(lumen)],
  };
}

/** The base with these bundled layers. */
export function policyOf(...layers: readonly BundledPlanName[]): Policy {
  const reading = readPolicy(['base' as const, ...layers].map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

export function recordOf(resources: Resources): LineRecord {
  const record = readRecords(resources.map((resource) => ({ resource }))).lines.find(
    ({ ref }) => ref === 'Device/line',
  );
  if (!record) throw new Error('The line is not in the record.');
  return record;
}

export function careOf(resources: Resources, policy: Policy, when: string): LineCare {
  return dueCare(recordOf(resources), policy, { asOf: when, zone });
}

/** The item of an activity, on a lumen where one is named. */
export function itemOf(care: LineCare, activity: string, lumen?: string): DueItem | undefined {
  return care.items.find(
    (item) => item.activity === activity && (lumen === undefined || item.target.ref === `Device/${lumen}`),
  );
}

export const stepsOf = (item: DueItem | undefined) =>
  said((item?.work ?? []).filter(({ kind }) => kind === 'step').map(({ text }) => text));

export const cautionsOf = (item: DueItem | undefined) =>
  said((item?.work ?? []).filter(({ kind }) => kind === 'caution').map(({ text }) => text));

/** Where each of these is found among the steps: the number of the first step that says it, -1 where none does. */
export function places(steps: readonly string[], sayings: readonly RegExp[]): number[] {
  return sayings.map((saying) => steps.findIndex((step) => saying.test(step)));
}

export const tasksOf = ({ entry }: Bundle) =>
  (entry ?? []).flatMap(({ resource }) => (resource?.resourceType === 'Task' ? [resource as Task] : []));
