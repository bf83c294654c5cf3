import { codeSystem, standard } from '@dwellward/profiles';
import type { Device, FhirResource, Observation, Procedure } from 'fhir/r4.js';

// One invented line of two lumens, and what is charted of it. Times are of 2026-11-25 in Berlin.

const subject = { reference: 'Patient/rowan-redstart' };
const line = 'Device/rowan-picc';
const code = (system: string, one: string) => ({ coding: [{ system, code: one }] });
const clock = (time: string) => (time.includes('T') ? time : `2026-11-25T${time}:00+01:00`);

const device = (id: string, type: string, parent?: string): Device => ({
  ...{
    resourceType: 'Device',
    id,
    patient: subject,
    status: 'active',
    type: code(codeSystem.lineType, type),
  },
  ...(parent === undefined ? {} : { parent: { reference: parent } }),
});

/** An act that was done to the line, or to one of its lumens. */
export const done = (activity: string, time: string, target = line): Procedure => ({
  ...{ resourceType: 'Procedure', id: `${activity}-${id(time)}`, status: 'completed', subject },
  code: code(codeSystem.lineCareActivity, activity),
  performedDateTime: clock(time),
  focalDevice: [{ manipulated: { reference: target } }],
});

/** A body temperature in degrees Celsius. */
export const temperature = (value: number, time: string): Observation => ({
  ...{ resourceType: 'Observation', id: `temperature-${id(time)}`, status: 'final', subject },
  code: code(standard.loinc, '8310-5'),
  effectiveDateTime: clock(time),
  valueQuantity: { value, system: standard.ucum, code: 'Cel' },
});

/** A finding of the line, or of one of its lumens. */
export const found = (
  finding: string,
  system: string,
  value: string,
  time: string,
  target = line,
): Observation => ({
  ...{ resourceType: 'Observation', id: `${finding}-${id(time)}`, status: 'final', subject },
  code: code(codeSystem.lineFinding, finding),
  focus: [{ reference: target }],
  effectiveDateTime: clock(time),
  valueCodeableConcept: code(system, value),
});

const id = (time: string) => time.replace(/\D/g, '');

export const red = 'Device/rowan-picc-red';
export const white = 'Device/rowan-picc-white';
export const debris = (time: string): Observation =>
  found('connector-condition', codeSystem.connectorCondition, 'debris', time, red);

/** The line, ten days old, with neutrophils of 3.0 10*9/L. */
export const ward: readonly FhirResource[] = [
  { resourceType: 'Patient', id: 'rowan-redstart', birthDate: '1980-03-02' },
  device('rowan-picc', 'picc'),
  device('rowan-picc-red', 'lumen', line),
  device('rowan-picc-white', 'lumen', line),
  done('insertion', '2026-11-15T10:00:00+01:00'),
  done('tip-confirmation', '2026-11-15T11:00:00+01:00'),
  {
    ...{ resourceType: 'Observation', id: 'neutrophils', status: 'final', subject },
    code: code(standard.loinc, '751-8'),
    effectiveDateTime: clock('05:00'),
    valueQuantity: { value: 3, system: standard.ucum, code: '10*9/L' },
  },
];
