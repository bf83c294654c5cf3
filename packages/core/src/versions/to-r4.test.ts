import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { event, line, patient, said, type Resource } from '../record.kit.js';
import { readRecords } from '../record/read-records.js';
import { fhirVersionOf, versionOfProfiles } from './fhir-version.js';
import { toR4 } from './to-r4.js';

const monday = '2026-11-23T08:00:00+01:00';
const coded = (system: keyof typeof codeSystem, code: string) => ({
  coding: [{ system: codeSystem[system], code }],
});
const entriesOf = (...resources: object[]) => resources.map((resource) => ({ resource }));
const turned = (resource: object) => toR4([{ resource }]).entries[0]?.resource;

const newLine: Resource = {
  resourceType: 'Device',
  id: 'line',
  status: 'active',
  type: [{ text: 'catheter' }, coded('lineType', 'tunneled-cvc')],
  name: [{ value: 'blue line', type: 'user-friendly-name' }],
};
const association = (status: string, more: object = {}): Resource => ({
  resourceType: 'DeviceAssociation',
  id: 'a',
  device: { reference: 'Device/line' },
  subject: { reference: 'Patient/p' },
  status: { coding: [{ code: status }] },
  ...more,
});

describe('a record of R5 in the shape of R4', () => {
  it('leaves a record of R4 as it is: the very same entries', () => {
    const given = entriesOf(patient(), line(), event('flush', monday), {
      resourceType: 'Medication',
      id: 'm',
    });
    const { entries, ...rest } = toR4(given, 'R4');
    expect(entries.every((entry, i) => entry === given[i])).toBe(true);
    expect(rest).toEqual({ doubts: [], contradictions: [] });
  });

  it('reads a line by its DeviceAssociation, and names that as it came', () => {
    const { lines, issues } = readRecords(
      entriesOf(
        patient(),
        newLine,
        association('explanted', { period: { start: '2026-11-01T08:00:00Z', end: '2026-11-20T08:00:00Z' } }),
      ),
    );
    expect(issues).toEqual([]);
    expect(lines).toMatchObject([
      {
        ref: 'Device/line',
        type: 'tunneled-cvc',
        name: { name: 'blue line' },
        patient: { ref: 'Patient/p' },
      },
    ]);
    expect(lines[0]?.events.map(({ ref, activity }) => [ref, activity])).toEqual([
      ['DeviceAssociation/a', 'insertion'],
      ['DeviceAssociation/a', 'removal'],
    ]);
  });

  it('takes no line for removed because its association has an end while it is still attached', () => {
    const { lines } = readRecords(
      entriesOf(patient(), newLine, association('attached', { period: { end: '2026-11-20T08:00:00Z' } })),
    );
    expect(lines[0]?.events).toEqual([]);
  });

  it('keeps one id on two servers apart by the name that it came by', () => {
    const use = (base: string, status: string) => ({
      resource: association(status, { period: { start: `2026-11-0${base.length % 9}T08:00:00Z` } }),
      fullUrl: `${base}/DeviceAssociation/a`,
    });
    const { lines } = readRecords([
      ...['https://north.example', 'https://southern.example'].flatMap((base) => [
        use(base, 'attached'),
        { resource: newLine, fullUrl: `${base}/Device/line` },
        { resource: patient({ name: [{ text: base }] }), fullUrl: `${base}/Patient/p` },
      ]),
    ]);
    expect(lines.map(({ patient: whose, events }) => [whose.name, events.length])).toEqual([
      ['https://north.example', 1],
      ['https://southern.example', 1],
    ]);
  });

  it.each<[string, object, object]>([
    [
      'a Procedure at one moment of a Timing',
      { resourceType: 'Procedure', occurrenceTiming: { event: [monday] } },
      { resourceType: 'Procedure', performedDateTime: monday },
    ],
    [
      'what was used: devices by reference, supplies by code',
      {
        resourceType: 'Procedure',
        used: [{ reference: { reference: 'Device/l' } }, { concept: { text: 'gauze' } }],
      },
      {
        resourceType: 'Procedure',
        usedReference: [{ reference: 'Device/l' }],
        usedCode: [{ text: 'gauze' }],
      },
    ],
    [
      'an administration, as 5.0.0 spells its time',
      {
        resourceType: 'MedicationAdministration',
        occurencePeriod: { start: monday },
        medication: { reference: { reference: '#m' } },
        device: [{ reference: { reference: 'Device/l' } }],
        contained: [
          { resourceType: 'Medication', id: 'm', ingredient: [{ item: { concept: { text: 'x' } } }] },
        ],
      },
      {
        resourceType: 'MedicationAdministration',
        effectivePeriod: { start: monday },
        medicationReference: { reference: '#m' },
        device: [{ reference: 'Device/l' }],
        contained: [
          { resourceType: 'Medication', id: 'm', ingredient: [{ itemCodeableConcept: { text: 'x' } }] },
        ],
      },
    ],
    [
      'an order by an ActivityDefinition alone: what it names is kept as text',
      { resourceType: 'ServiceRequest', code: { reference: { reference: 'ActivityDefinition/flush' } } },
      { resourceType: 'ServiceRequest', code: { text: 'ActivityDefinition/flush' } },
    ],
    [
      'a stay in hospital',
      {
        resourceType: 'Encounter',
        status: 'discharged',
        class: [{ text: 'x' }, { coding: [{ code: 'IMP' }] }],
        actualPeriod: { start: monday },
      },
      { resourceType: 'Encounter', status: 'finished', class: { code: 'IMP' }, period: { start: monday } },
    ],
    [
      'an appointment whose patient takes part by being its subject',
      {
        resourceType: 'Appointment',
        subject: { reference: 'Patient/p' },
        serviceType: [{ concept: { text: 'a' } }],
        reason: [{ concept: { text: 'b' } }],
      },
      {
        resourceType: 'Appointment',
        serviceType: [{ text: 'a' }],
        reasonCode: [{ text: 'b' }],
        participant: [{ actor: { reference: 'Patient/p' } }],
      },
    ],
    [
      'properties of a device: one value each',
      {
        resourceType: 'Device',
        property: [
          { valueQuantity: { value: 2, unit: 'mm' } },
          { valueInteger: 3 },
          { valueBoolean: true },
          { valueCodeableConcept: { text: 'c' } },
        ],
      },
      {
        resourceType: 'Device',
        property: [
          { valueQuantity: [{ value: 2, unit: 'mm' }] },
          { valueQuantity: [{ value: 3 }] },
          { valueCode: [{ coding: [{ code: 'true' }] }] },
          { valueCode: [{ text: 'c' }] },
        ],
      },
    ],
    [
      'a use of a device, with the structure of the body that it is in',
      {
        resourceType: 'DeviceUsage',
        patient: { reference: 'Patient/p' },
        device: { reference: { reference: 'Device/l' } },
        bodySite: { reference: { reference: 'BodyStructure/b' } },
      },
      {
        resourceType: 'DeviceUseStatement',
        subject: { reference: 'Patient/p' },
        device: { reference: 'Device/l' },
        bodySite: {
          extension: [
            {
              url: 'http://hl7.org/fhir/StructureDefinition/bodySite',
              valueReference: { reference: 'BodyStructure/b' },
            },
          ],
        },
      },
    ],
  ])('turns %s', (_, resource, wanted) => {
    expect(turned(resource)).toEqual(wanted);
  });

  it('keeps neither of two times that the two versions’ elements say, and tells of them', () => {
    const { lines, issues } = readRecords(
      entriesOf(
        patient(),
        line(),
        event('dressing-change', monday, { occurrenceDateTime: '2026-11-24T08:00:00+01:00' }),
      ),
    );
    expect(lines[0]?.events[0]).not.toHaveProperty('at');
    expect(said(issues.map(({ sentence }) => sentence))).toContain(
      'There may be one of Procedure.performedDateTime and Procedure.occurrenceDateTime, and there are 2: none of them is used.',
    );
  });

  it('tells what of a resource of R5 can’t be read, and uses the rest', () => {
    const { lines, issues } = readRecords(
      entriesOf(patient(), { ...newLine, name: 'blue', parent: 7 }, association('attached')),
    );
    expect(lines).toHaveLength(1);
    expect(issues.map(({ path }) => path).sort()).toEqual(['Device.deviceName', 'Device.parent']);
  });

  it('does not stumble over anything', () => {
    for (const value of [
      null,
      0,
      'x',
      [],
      [null],
      [[]],
      {},
      { concept: 1, reference: null },
      { coding: 3 },
    ]) {
      for (const resourceType of [
        'Device',
        'DeviceAssociation',
        'DeviceUsage',
        'Procedure',
        'MedicationAdministration',
        'Medication',
        'ServiceRequest',
        'Encounter',
        'Location',
        'Appointment',
        'BodyStructure',
      ]) // prettier-ignore
      {
        const names = 'type name displayName property availabilityStatus subject association status period bodyStructure device bodySite category occurrenceDateTime occurrenceTiming used medication occurencePeriod ingredient code orderDetail supportingInfo class actualPeriod form serviceType reason participant includedStructure contained patient'; // prettier-ignore
        const all = Object.fromEntries(names.split(' ').map((name) => [name, value]));
        expect(() => readRecords(entriesOf({ resourceType, id: 'x', ...all }))).not.toThrow();
      }
    }
  });
});

describe('the version that is said', () => {
  it.each([
    ['R5', 'R5'],
    ['r4b', 'R4B'],
    ['4.0.1', 'R4'],
    ['4.3', 'R4B'],
    ['5.0.0-ballot', 'R5'],
    ['3.0.2', undefined],
    ['6.0.0', undefined],
    ['', undefined],
  ])('%s is %s', (text, version) => {
    expect(fhirVersionOf(text)).toBe(version);
  });

  it('is named by profiles of the standard, and by no others', () => {
    const of = (...profile: unknown[]) => versionOfProfiles({ meta: { profile } });
    expect(of(7, 'http://hl7.org/fhir/5.0/StructureDefinition/Device')).toBe('R5');
    expect(of('http://hl7.org/fhir/StructureDefinition/Patient|4.0.1')).toBe('R4');
    expect(of('http://hl7.org/fhir/us/core/StructureDefinition/us-core-patient|5.0.1')).toBeUndefined();
    expect(versionOfProfiles(null)).toBeUndefined();
  });

  it('does not keep a resource from being read as what it is, and what does not fit is said', () => {
    const r4 = { ...line(), meta: { profile: ['http://hl7.org/fhir/5.0/StructureDefinition/Device'] } };
    const { lines, issues } = readRecords(entriesOf(patient(), r4));
    expect(lines).toHaveLength(1);
    expect(said(issues.map(({ sentence }) => sentence))).toEqual([
      'R5 is said to be the version of FHIR, and it has Device.patient as R4 does: read as R4. Say which version it is, or have it put right.',
    ]);
  });

  it('is said where it is that of the Bundle', () => {
    const { issues } = readRecords([{ resource: { ...newLine, id: 'x' }, fhirVersion: '4.0.1' }]);
    expect(issues.map(({ sentence }) => sentence)).toContainEqual(
      expect.objectContaining({ code: 'another-version', elements: ['Device.name', 'Device.type'] }),
    );
  });
});
