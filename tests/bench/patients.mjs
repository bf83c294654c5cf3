// Invented patients for the bench, the same for the same seed: each with one line of two lumens and what a ward charts on it.
import { coding, standard, valueSystemOf } from '@dwellward/profiles';

/** The moment at which the invented patients are looked at, and their zone. */
export const benchMoment = { asOf: '2026-11-25T07:30:00+01:00', zone: 'Europe/Berlin' };

const endMs = Date.parse(benchMoment.asOf);
const lineTypes = ['tunneled-cvc', 'nontunneled-cvc', 'picc', 'implanted-port', 'midline'];
const dressings = ['transparent-dressing', 'gauze-dressing', 'chlorhexidine-dressing'];

/** Numbers from 0 to below 1, the same for the same seed (a linear congruence modulo 2^32). */
export function seeded(seed) {
  let state = (seed * 2_654_435_761 + 1) >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** So many hours before the moment, as a FHIR dateTime. */
export function hoursBefore(hours) {
  return new Date(endMs - Math.round(hours * 60) * 60_000).toISOString().replace('.000Z', 'Z');
}

const refer = ({ resourceType, id }) => ({ reference: `${resourceType}/${id}` });

export function procedure(id, patient, device, activity, hours, more = {}) {
  return {
    resourceType: 'Procedure',
    id,
    status: 'completed',
    code: { coding: [coding('lineCareActivity', activity)] },
    subject: refer(patient),
    performedDateTime: hoursBefore(hours),
    focalDevice: [{ manipulated: refer(device) }],
    ...more,
  };
}

export function result(id, patient, loinc, display, hours, value, unit) {
  const category = {
    system: 'http://terminology.hl7.org/CodeSystem/observation-category',
    code: 'laboratory',
  };
  return {
    resourceType: 'Observation',
    id,
    status: 'final',
    category: [{ coding: [category] }],
    code: { coding: [{ system: standard.loinc, code: loinc, display }] },
    subject: refer(patient),
    effectiveDateTime: hoursBefore(hours),
    valueQuantity: { value, unit, system: standard.ucum, code: unit },
  };
}

export function infusion(id, patient, device, fromHours, toHours) {
  return {
    resourceType: 'MedicationAdministration',
    id,
    status: toHours === undefined ? 'in-progress' : 'completed',
    medicationCodeableConcept: {
      coding: [{ system: 'http://www.whocc.no/atc', code: 'L04AD01', display: 'ciclosporin' }],
    },
    subject: refer(patient),
    effectivePeriod: {
      start: hoursBefore(fromHours),
      ...(toHours === undefined ? {} : { end: hoursBefore(toHours) }),
    },
    device: [refer(device)],
  };
}

function finding(id, patient, device, code, hours, value) {
  return {
    resourceType: 'Observation',
    id,
    status: 'final',
    code: { coding: [coding('lineFinding', code)] },
    subject: refer(patient),
    focus: [refer(device)],
    effectiveDateTime: hoursBefore(hours),
    ...value,
  };
}

function lumenOf(line, patient, name) {
  const volume = { value: 0.8, unit: 'mL', system: standard.ucum, code: 'mL' };
  return {
    resourceType: 'Device',
    id: `${line.id}-${name}`,
    status: 'active',
    deviceName: [{ name, type: 'user-friendly-name' }],
    type: { coding: [coding('lineType', 'lumen')] },
    property: [{ type: { coding: [coding('lineProperty', 'priming-volume')] }, valueQuantity: [volume] }],
    patient: refer(patient),
    parent: refer(line),
  };
}

/** A patient with a line, its two lumens and its insertion: what every measured record has. */
export function patientWithLine(id, random, insertedHours) {
  const patient = {
    resourceType: 'Patient',
    id,
    active: true,
    name: [{ given: ['Invented'], family: `Number ${id}` }],
    birthDate: `${1940 + Math.floor(random() * 80)}-0${1 + Math.floor(random() * 9)}-15`,
    gender: random() < 0.5 ? 'female' : 'male',
  };
  const type = lineTypes[Math.floor(random() * lineTypes.length)];
  const line = {
    resourceType: 'Device',
    id: `${id}-line`,
    status: 'active',
    deviceName: [{ name: 'Line, right chest', type: 'user-friendly-name' }],
    type: { coding: [coding('lineType', type)] },
    patient: refer(patient),
  };
  const lumens = ['white', 'red'].map((name) => lumenOf(line, patient, name));
  const inserted = procedure(`${id}-insertion`, patient, line, 'insertion', insertedHours);
  return { patient, line, lumens, resources: [patient, line, ...lumens, inserted] };
}

/** One patient with 32 resources. */
export function inventedPatient(number, seed) {
  const random = seeded(seed * 100_003 + number);
  const id = `p${number}`;
  const insertedHours = 200 + Math.floor(random() * 900);
  const { patient, line, lumens, resources } = patientWithLine(id, random, insertedHours);
  const upTo = (most) => Math.floor(random() * Math.min(most, insertedHours) * 10) / 10;
  const lumen = () => lumens[Math.floor(random() * lumens.length)];
  const dressing = dressings[Math.floor(random() * dressings.length)];
  const used = { usedCode: [{ coding: [coding('dressingType', dressing)] }] };
  const quantity = (value) => ({ valueQuantity: { value, unit: 'cm', system: standard.ucum, code: 'cm' } });
  const acts = [
    'flush',
    'flush',
    'flush',
    'lock',
    'lock',
    'needleless-connector-change',
    'needleless-connector-change',
    'blood-sampling',
  ];
  const encounter = {
    resourceType: 'Encounter',
    id: `${id}-stay`,
    status: 'in-progress',
    class: { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'IMP' },
    subject: refer(patient),
    period: { start: hoursBefore(insertedHours + 20) },
  };
  return [
    ...resources,
    encounter,
    procedure(`${id}-tip`, patient, line, 'tip-confirmation', insertedHours - 1),
    ...[0, 1, 2].map((n) => procedure(`${id}-d${n}`, patient, line, 'dressing-change', upTo(400), used)),
    ...acts.map((act, n) => procedure(`${id}-a${n}`, patient, lumen(), act, upTo(200))),
    procedure(`${id}-site`, patient, line, 'site-assessment', upTo(40)),
    finding(`${id}-f0`, patient, line, 'external-length', upTo(300), quantity(30 + Math.floor(random() * 4))),
    finding(`${id}-f1`, patient, lumen(), 'blood-return', upTo(60), {
      valueCodeableConcept: {
        coding: [{ system: valueSystemOf('blood-return'), code: random() < 0.7 ? 'brisk' : 'sluggish' }],
      },
    }),
    finding(`${id}-f2`, patient, line, 'dressing-condition', upTo(60), {
      valueCodeableConcept: {
        coding: [{ system: valueSystemOf('dressing-condition'), code: random() < 0.8 ? 'intact' : 'damp' }],
      },
    }),
    ...[0, 1, 2, 3, 4, 5].map((n) =>
      result(
        `${id}-n${n}`,
        patient,
        '751-8',
        'Neutrophils [#/volume] in Blood by Automated count',
        upTo(240),
        Math.round(random() * 300) / 100,
        '10*9/L',
      ),
    ),
    ...[0, 1].map((n) =>
      result(`${id}-t${n}`, patient, '777-3', 'Platelets [#/volume] in Blood', upTo(240), 150, '10*9/L'),
    ),
    infusion(`${id}-i0`, patient, lumen(), 20 + upTo(100), 10 + upTo(10)),
    infusion(`${id}-i1`, patient, lumen(), upTo(60)),
  ];
}

/** So many patients, as entries of a record. */
export function inventedPatients(count, seed = 1) {
  return Array.from({ length: count }, (_, number) => inventedPatient(number, seed))
    .flat()
    .map((resource) => ({ resource }));
}

const asEntries = (resources) => resources.map((resource) => ({ resource }));

/** One patient with so many days of leucocytes and a differential of three. */
export function withDifferentials(days) {
  const { patient, resources } = patientWithLine('counted', seeded(7), 24 * days + 50);
  const parts = [
    ['6690-2', 'Leukocytes [#/volume] in Blood by Automated count', '10*9/L', 3],
    ['769-0', 'Segmented neutrophils/Leukocytes in Blood by Manual count', '%', 60],
    ['764-1', 'Band form neutrophils/Leukocytes in Blood by Manual count', '%', 4],
    ['777-3', 'Platelets [#/volume] in Blood by Automated count', '10*9/L', 90],
  ];
  const counts = Array.from({ length: days }, (_, day) =>
    parts.map(([loinc, display, unit, value]) =>
      result(`counted-${loinc}-${day}`, patient, loinc, display, 24 * day + 2, value + (day % 5) / 10, unit),
    ),
  );
  return asEntries([...resources, ...counts.flat()]);
}

/** One line with so many infusions, one after another. */
export function withInfusions(count) {
  const { patient, lumens, resources } = patientWithLine('infused', seeded(8), 6 * count + 50);
  const infusions = Array.from({ length: count }, (_, n) =>
    infusion(`infused-${n}`, patient, lumens[n % 2], 6 * n + 5, 6 * n + 2),
  );
  return asEntries([...resources, ...infusions]);
}

/** One line with so many events on its lumens. */
export function withEvents(count) {
  const { patient, lumens, resources } = patientWithLine('tended', seeded(9), 4 * count + 50);
  const acts = ['flush', 'lock', 'needleless-connector-change', 'flush'];
  const events = Array.from({ length: count }, (_, n) =>
    procedure(`tended-${n}`, patient, lumens[n % 2], acts[n % acts.length], 4 * n + 1),
  );
  return asEntries([...resources, ...events]);
}

/** So many lines whose Devices do not say of whom they are: their Procedures do. */
export function linesWithoutPatient(count) {
  return asEntries(
    Array.from({ length: count }, (_, n) => {
      const { resources } = patientWithLine(`unnamed-${n}`, seeded(n + 1), 300);
      return resources.map(({ patient: _, ...resource }) => resource);
    }).flat(),
  );
}

/** Vital signs and chemistry, which nothing reads: nineteen for each resource of the invented patients. */
export function mostlyUnread(patients) {
  const read = inventedPatients(patients).map(({ resource }) => resource);
  const people = read.filter(({ resourceType }) => resourceType === 'Patient');
  const kinds = [
    ['8867-4', 'Heart rate', '/min'],
    ['9279-1', 'Respiratory rate', '/min'],
    ['2708-6', 'Oxygen saturation', '%'],
    ['2345-7', 'Glucose', 'mg/dL'],
    ['2160-0', 'Creatinine', 'mg/dL'],
    ['2951-2', 'Sodium', 'mmol/L'],
  ];
  const unread = Array.from({ length: 19 * read.length }, (_, i) => {
    const [loinc, display, unit] = kinds[i % kinds.length];
    return result(`unread-${i}`, people[i % people.length], loinc, display, i % 500, i % 200, unit);
  });
  return [...read, ...unread];
}
