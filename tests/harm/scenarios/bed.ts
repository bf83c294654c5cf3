import { codeSystem, standard } from '@dwellward/profiles';
import type {
  AllergyIntolerance,
  CodeableConcept,
  Condition,
  Device,
  DeviceProperty,
  FhirResource,
  MedicationAdministration,
  Observation,
  Patient,
  Procedure,
} from 'fhir/r4.js';

// One invented patient with one line, and what is charted. Times are of Berlin; HH:MM is of 25 November 2026.

export const at = '2026-11-25T08:00:00+01:00';
export const zone = 'Europe/Berlin';
export const line = 'Device/line';

const subject = { reference: 'Patient/one' };
const clock = (time: string) =>
  /^\d\d:\d\d$/.test(time)
    ? `2026-11-25T${time}:00+01:00`
    : /^\d\d-\d\d \d\d:\d\d$/.test(time)
      ? `2026-${time.replace(' ', 'T')}:00+01:00`
      : time;
const coded = (system: string, code: string, text?: string): CodeableConcept => ({
  coding: [{ system, code }],
  ...(text === undefined ? {} : { text }),
});
const named = (...parts: string[]) =>
  parts
    .join('-')
    .replaceAll(/[^a-z0-9-]/gi, '')
    .toLowerCase()
    .slice(0, 64);
const quantity = (value: number, code: string) => ({ value, unit: code, system: standard.ucum, code });

export const patient = (birthDate: string, more: Partial<Patient> = {}): Patient => ({
  ...{ resourceType: 'Patient', id: 'one', birthDate, name: [{ given: ['Hazel'], family: 'Ousel' }] },
  ...more,
});

const property = (name: string, value: number, unit: string): DeviceProperty => ({
  type: coded(codeSystem.lineProperty, name),
  valueQuantity: [quantity(value, unit)],
});

/** A line of one of our types; of none where `type` is given as text alone. */
export const device = (
  type: string | CodeableConcept,
  properties: readonly DeviceProperty[] = [],
): Device => ({
  ...{ resourceType: 'Device', id: 'line', status: 'active', patient: subject },
  type: typeof type === 'string' ? coded(codeSystem.lineType, type) : type,
  ...(properties.length > 0 ? { property: [...properties] } : {}),
});

/** A lumen by its colour, with its printed volume in mL. */
export const lumen = (colour: string, printedMl?: number): Device => ({
  ...{ resourceType: 'Device', id: `lumen-${colour}`, status: 'active', patient: subject },
  ...{ parent: { reference: line }, type: coded(codeSystem.lineType, 'lumen') },
  deviceName: [{ name: colour, type: 'user-friendly-name' }],
  ...(printedMl === undefined ? {} : { property: [property('priming-volume', printedMl, 'mL')] }),
});

export const length = (cm: number) => property('external-length', cm, 'cm');
export const diameter = (mm: number) => property('inner-diameter', mm, 'mm');

/** Something that was done to the line or, by its colour, to a lumen. */
export const done = (
  activity: string,
  time: string,
  more: Partial<Procedure> = {},
  colour?: string,
): Procedure => ({
  ...{ resourceType: 'Procedure', id: named(activity, time, colour ?? ''), status: 'completed', subject },
  code: coded(codeSystem.lineCareActivity, activity),
  performedDateTime: clock(time),
  focalDevice: [{ manipulated: { reference: colour === undefined ? line : `Device/lumen-${colour}` } }],
  ...more,
});

export const dressed = (kind: string, time: string) =>
  done('dressing-change', time, { usedCode: [coded(codeSystem.dressingType, kind)] });

const observation = (code: CodeableConcept, id: string, time: string): Observation => ({
  ...{ resourceType: 'Observation', id, status: 'final', subject, code },
  effectiveDateTime: clock(time),
});

/** A finding of the line or, by its colour, of a lumen. */
export const found = (
  finding: string,
  value: string | boolean | number,
  time: string,
  colour?: string,
  more: Partial<Observation> = {},
): Observation => ({
  ...observation(coded(codeSystem.lineFinding, finding), named(finding, time, colour ?? ''), time),
  focus: [{ reference: colour === undefined ? line : `Device/lumen-${colour}` }],
  ...(typeof value === 'boolean'
    ? { valueBoolean: value }
    : typeof value === 'number'
      ? { valueQuantity: quantity(value, 'cm') }
      : { valueCodeableConcept: coded(systemOf(finding), value) }),
  ...more,
});

const systemOf = (finding: string) =>
  finding === 'dressing-condition' ? codeSystem.dressingCondition : codeSystem.lineFinding;

/** Signs at the exit site. */
export const signs = (parts: readonly string[], time: string): Observation => ({
  ...observation(coded(codeSystem.lineFinding, 'exit-site'), named('exit-site', time), time),
  focus: [{ reference: line }],
  component: parts.map((part) => ({
    code: coded(codeSystem.lineFinding, part),
    valueCodeableConcept: coded(codeSystem.lineFinding, 'present'),
  })),
});

export const distance = (cm: number): Partial<Observation> => ({
  component: [
    { code: coded(codeSystem.lineFinding, 'distance-from-skin'), valueQuantity: quantity(cm, 'cm') },
  ],
});

const measured = (loinc: string, value: number, unit: string, time: string): Observation => ({
  ...observation(coded(standard.loinc, loinc), named('m', loinc, time), time),
  valueQuantity: quantity(value, unit),
});
export const temperature = (value: number, time: string) => measured('8310-5', value, 'Cel', time);
export const weight = (kg: number, time: string) => measured('29463-7', kg, 'kg', time);
export const neutrophils = (value: number, time: string) => measured('751-8', value, '10*9/L', time);
export const platelets = (value: number, time: string) => measured('777-3', value, '10*9/L', time);

/** A drug by its ATC code that runs, or ran, through a lumen. */
export const drug = (
  atc: string,
  text: string,
  colour: string,
  from: string,
  to?: string,
): MedicationAdministration => ({
  ...{ resourceType: 'MedicationAdministration', id: named('drug', atc, from), subject },
  status: to === undefined ? 'in-progress' : 'completed',
  medicationCodeableConcept: coded(standard.atc, atc, text),
  effectivePeriod: { start: clock(from), ...(to === undefined ? {} : { end: clock(to) }) },
  device: [{ reference: `Device/lumen-${colour}` }],
});

const active = (kind: 'allergyintolerance' | 'condition') => ({
  ...coded(`http://terminology.hl7.org/CodeSystem/${kind}-clinical`, 'active'),
});

/** An allergy by SNOMED CT. */
export const allergy = (sct: string, text: string): AllergyIntolerance => ({
  ...{ resourceType: 'AllergyIntolerance', id: 'allergy', patient: subject, criticality: 'high' },
  ...{ clinicalStatus: active('allergyintolerance'), recordedDate: '2026-10-01' },
  verificationStatus: coded(
    'http://terminology.hl7.org/CodeSystem/allergyintolerance-verification',
    'confirmed',
  ),
  code: coded(standard.snomed, sct, text),
});

/** A problem by SNOMED CT. */
export const problem = (sct: string, text: string): Condition => ({
  ...{ resourceType: 'Condition', id: 'problem', subject, clinicalStatus: active('condition') },
  ...{ recordedDate: '2026-10-01', code: coded(standard.snomed, sct, text) },
});

/** A picc of two lumens, ten days old, its tip confirmed, flushed, locked and dressed as it should be. */
export const picc = (birthDate = '1980-03-02'): FhirResource[] => [
  patient(birthDate),
  device('picc', [length(3), diameter(0.9)]),
  lumen('red', 0.6),
  lumen('white', 0.6),
  ...lifeOf(['red', 'white']),
];

/** What is done in the ten days of a line: put in, tip confirmed, dressed, connectors, flushed and locked yesterday. */
export const lifeOf = (colours: readonly string[], outsideCm = 3): FhirResource[] => [
  done('insertion', '11-15 10:00'),
  done('tip-confirmation', '11-15 11:00'),
  dressed('transparent-dressing', '11-22 09:00'),
  found('dressing-condition', 'intact', '11-24 20:00'),
  done('site-assessment', '11-24 20:00'),
  done('necessity-review', '11-24 20:00'),
  done('external-length-measurement', '11-22 09:00'),
  found('external-length', outsideCm, '11-22 09:00'),
  ...colours.flatMap((colour) => [
    done('needleless-connector-change', '11-22 09:00', {}, colour),
    done('flush', '11-24 20:00', {}, colour),
    done('lock', '11-24 20:05', {}, colour),
  ]),
];

/** What one output says: all of `says`, in any order, and none of `never`. */
export interface Said {
  readonly says: readonly RegExp[];
  readonly never?: readonly RegExp[];
  /** The exit code of the command; 0 where nothing is said. */
  readonly exit?: number;
  /** Why the software still falls short here; the test fails once it no longer does. */
  readonly gap?: string;
}

/** One patient, and what a careful nurse does next. It was written down before the software was asked. */
export interface Scenario {
  readonly name: string;
  readonly nurse: readonly string[];
  readonly source: string;
  readonly record: readonly FhirResource[];
  readonly asOf?: string;
  readonly policies?: readonly string[];
  readonly due: Said;
  readonly draw?: Said & { readonly args: readonly string[] };
  readonly repair?: Said & { readonly args: readonly string[] };
  readonly handover?: Said;
  readonly home?: Said;
}
