import { codeSystem, standard } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  dressing,
  event,
  finding,
  lab,
  line,
  lumen,
  on,
  patient,
  read,
  readLine,
  type Resource,
  said,
} from '../record.kit.js';
import { readRecords } from './read-records.js';

const at = '2026-11-24T08:00:00+01:00';
const issuesOf = (...resources: Resource[]) =>
  read(...resources).issues.map(({ code, resource, path }) => `${code} ${resource} ${path}`);
const change = (more: object = {}) => event('dressing-change', at, { id: 'change', ...more });
const focal = (reference: string) => ({ focalDevice: [{ manipulated: { reference } }] });

describe('references', () => {
  it.each([
    ['relative', 'Device/line'],
    ['absolute', 'https://ward.example/fhir/Device/line'],
    ['of a version', 'Device/line/_history/7'],
    ['absolute, of a version', 'https://ward.example/fhir/Device/line/_history/7'],
    ['with blanks around it', ' Device/line '],
  ])('%s lead to the line', (_, reference) => {
    const { events } = readLine(patient(), line(), change(focal(reference)));
    expect(events.map(({ ref }) => ref)).toEqual(['Procedure/change']);
  });

  it('by urn:uuid lead to the entry of that full URL, whether it has an id or not', () => {
    const urn = 'urn:uuid:00000000-0000-4000-8000-000000000001';
    const nameless = { ...line(), id: undefined };
    for (const [resource, ref] of [
      [line(), 'Device/line'],
      [nameless, urn],
    ] as const) {
      const { lines, issues } = readRecords([
        { resource: patient() },
        { resource, fullUrl: urn },
        { resource: change(focal(urn)) },
      ]);
      expect(lines.map((one) => [one.ref, one.events.length])).toEqual([[ref, 1]]);
      expect(issues).toEqual([]);
    }
  });

  it('by a full URL of another server lead to its entry', () => {
    const fullUrl = 'https://other.example/base/Device/line';
    const { lines } = readRecords([
      { resource: patient() },
      { resource: line(), fullUrl },
      { resource: change(focal(fullUrl)) },
    ]);
    expect(lines[0]?.events).toHaveLength(1);
  });

  it('to what is contained lead into the resource itself', () => {
    const { infusions } = readLine(patient(), line(), {
      resourceType: 'MedicationAdministration',
      id: 'run',
      status: 'in-progress',
      contained: [
        {
          resourceType: 'Medication',
          id: 'm',
          code: { coding: [{ system: standard.atc, code: 'B05AX01' }] },
        },
      ],
      medicationReference: { reference: '#m' },
      subject: { reference: 'Patient/p' },
      effectivePeriod: { start: at },
      device: [{ reference: 'Device/line' }],
    });
    expect(infusions).toMatchObject([
      { ref: 'MedicationAdministration/run', running: true, infusate: 'blood' },
    ]);
  });

  it('that lead to no line are reported, and the event is not used', () => {
    const { lines, issues } = read(patient(), line(), change(focal('Device/other')));
    expect(lines[0]?.events).toEqual([]);
    expect(issues).toMatchObject([
      {
        code: 'unknown-lumen',
        resource: 'Procedure/change',
        path: 'Procedure.focalDevice',
        patient: 'Patient/p',
      },
    ]);
  });

  it('that are missing are reported', () => {
    expect(issuesOf(patient(), line(), change({ focalDevice: [] }))).toEqual([
      'unresolved-reference Procedure/change Procedure.focalDevice',
    ]);
    expect(issuesOf(patient(), line('picc', { patient: undefined }))).toEqual([
      'unresolved-reference Device/line Device.patient',
    ]);
    expect(issuesOf(line())).toEqual(['unresolved-reference Device/line Device.patient']);
  });

  it('in usedReference stand in where no focal device is given', () => {
    const { events } = readLine(
      patient(),
      line(),
      change({ focalDevice: undefined, usedReference: [{ reference: 'Device/line' }] }),
    );
    expect(events).toHaveLength(1);
  });
});

describe('resources', () => {
  it('need no meta, and of two versions the newer is used, whichever comes first', () => {
    const older = change({ meta: { versionId: '1', lastUpdated: '2026-11-24T09:00:00Z' } });
    const newer = change({
      status: 'entered-in-error',
      meta: { versionId: '2', lastUpdated: '2026-11-24T10:00:00Z' },
    });
    for (const both of [
      [older, newer],
      [newer, older],
    ]) {
      const { events } = readLine(patient(), line(), ...both);
      expect(events.map(({ status }) => status)).toEqual(['entered-in-error']);
    }
  });

  it('with an element of the wrong type are used but for that element, which is named', () => {
    const { lines, issues } = read(patient(), line(), change({ bodySite: 'arm', usedCode: [5] }));
    expect(lines[0]?.events).toMatchObject([{ ref: 'Procedure/change', activity: 'dressing-change' }]);
    expect(issues.map(({ path }) => path)).toEqual(['Procedure.bodySite', 'Procedure.usedCode[0]']);
  });

  it('that are none are named by their place', () => {
    const { issues } = readRecords([{ resource: null }, { resource: 'x' }, { resource: {} }]);
    expect(issues.map(({ resource }) => resource)).toEqual([
      'Bundle.entry[0].resource',
      'Bundle.entry[1].resource',
      'Bundle.entry[2].resource',
    ]);
  });

  it('of other kinds are passed over in peace', () => {
    expect(issuesOf(patient(), line(), { resourceType: 'Condition', id: 'c' })).toEqual([]);
    expect(
      issuesOf(patient(), line(), {
        resourceType: 'Device',
        id: 'pump',
        patient: { reference: 'Patient/p' },
      }),
    ).toEqual([]);
  });
});

describe('codes', () => {
  it('among several codings are found wherever they stand', () => {
    const coding = (system: string, code: string) => ({
      coding: [{ system: 'https://hospital.example/codes', code: '4711' }, { system, code }, { code: 'x' }],
    });
    const record = readLine(
      patient(),
      line('', { type: coding(codeSystem.lineType, 'picc') }),
      change({ code: coding(codeSystem.lineCareActivity, 'flush') }),
    );
    expect(record.type).toBe('picc');
    expect(record.events.map(({ activity }) => activity)).toEqual(['flush']);
  });

  it.each([
    ['445085009', 'tunneled-cvc'],
    ['398176008', 'picc'],
    ['1344705000', 'midline'],
    ['398013009', 'implanted-port'],
  ])('of SNOMED CT, %s, are a %s', (code, type) => {
    expect(
      readLine(patient(), line('', { type: { coding: [{ system: standard.snomed, code }] } })).type,
    ).toBe(type);
  });

  it('of SNOMED CT for a central line of no said type leave the type unknown, and say so', () => {
    const central = line('', { type: { coding: [{ system: standard.snomed, code: '52124006' }] } });
    expect(readLine(patient(), central)).not.toHaveProperty('type');
    expect(issuesOf(patient(), central)).toEqual(['unknown-code Device/line Device.type']);
  });

  it('that are misspelt are reported', () => {
    expect(issuesOf(patient(), line('pick'))).toEqual(['unknown-code Device/line Device.type']);
    expect(
      read(
        patient(),
        line(),
        change({ code: { coding: [{ system: codeSystem.lineCareActivity, code: 'dressing' }] } }),
      ).notUnderstood,
    ).toMatchObject([{ path: 'Procedure.code', code: 'dressing', examples: ['Procedure/change'] }]);
    expect(issuesOf(patient(), line(), change(dressing('gauze')))).toEqual([
      'unknown-code Procedure/change Procedure.usedCode',
    ]);
    expect(
      issuesOf(patient(), line(), {
        ...finding('dressing-condition', '', at),
        id: 'seen',
        valueCodeableConcept: { coding: [{ system: codeSystem.dressingCondition, code: 'wet' }] },
      }),
    ).toEqual(['unknown-code Observation/seen Observation.value']);
  });

  it('of gauze under a transparent dressing count as gauze', () => {
    const both = {
      usedCode: ['transparent-dressing', 'gauze-dressing'].map((code) => ({
        coding: [{ system: codeSystem.dressingType, code }],
      })),
    };
    expect(readLine(patient(), line(), change(both)).events[0]?.dressing).toBe('gauze-dressing');
  });
});

describe('lumens', () => {
  const counted = (value: number) => ({
    property: [
      {
        type: { coding: [{ system: codeSystem.lineProperty, code: 'lumen-count' }] },
        valueQuantity: [{ value }],
      },
    ],
  });
  const priming = (quantity: object) => ({
    property: [
      {
        type: { coding: [{ system: codeSystem.lineProperty, code: 'priming-volume' }] },
        valueQuantity: [quantity],
      },
    ],
  });

  it('are child Devices, by the unit’s name for them', () => {
    const { lumens } = readLine(patient(), line(), lumen('b', { deviceName: [{ name: 'red' }] }), lumen('a'));
    expect(lumens.map(({ ref, device, name }) => [ref, device, ...said([name])])).toEqual([
      ['Device/a', 'Device/a', 'Device/a'],
      ['Device/b', 'Device/b', 'red'],
    ]);
  });

  it('are so many as the property says, on the line’s own Device', () => {
    const { lumens } = readLine(patient(), line('picc', counted(2)));
    expect(lumens.map(({ ref, device }) => [ref, device])).toEqual([
      ['Device/line#lumen-1', 'Device/line'],
      ['Device/line#lumen-2', 'Device/line'],
    ]);
  });

  it('are one where nothing is said', () => {
    expect(readLine(patient(), line()).lumens.map(({ ref }) => ref)).toEqual(['Device/line']);
  });

  it('on record count more than the number that is said, and the difference is reported', () => {
    expect(readLine(patient(), line('picc', counted(3)), lumen('a')).lumens).toHaveLength(1);
    expect(issuesOf(patient(), line('picc', counted(3)), lumen('a'))).toEqual([
      'conflicting-values Device/line Device.property',
    ]);
  });

  it('without their line are reported', () => {
    expect(issuesOf(patient(), line(), lumen('a', { parent: { reference: 'Device/gone' } }))).toEqual([
      'unresolved-reference Device/a Device.parent',
    ]);
  });

  it.each(['Device/a', 'Device/b'])('of a lumen, %s, is reported, and the lumen not used', (parent) => {
    const odd = lumen('a', { parent: { reference: parent } });
    const { lines, issues } = read(patient(), line(), lumen('b'), odd);
    expect(lines[0]?.lumens.map(({ ref }) => ref)).toEqual(['Device/b']);
    expect(issues).toMatchObject([
      { resource: 'Device/a', severity: 'high', sentence: { code: 'lumen-of-lumen', parent } },
    ]);
  });

  it('have a priming volume in any unit of volume, and one in no such unit is reported', () => {
    const volume = (quantity: object) =>
      readLine(patient(), line(), lumen('a', priming(quantity))).lumens[0]?.primingVolume?.low;
    expect(volume({ value: 0.8, unit: 'mL' })).toBe('0.8');
    expect(volume({ value: 800, unit: 'microlitres', code: 'uL' })).toBe('0.8');
    expect(volume({ value: 0.8, unit: 'cm' })).toBeUndefined();
    expect(issuesOf(patient(), line(), lumen('a', priming({ value: 0.8, unit: 'cm' })))).toEqual([
      'unknown-unit Device/a Device.property[0].valueQuantity',
    ]);
  });

  it('entered in error are none', () => {
    expect(
      readLine(patient(), line(), lumen('a'), lumen('b', { status: 'entered-in-error' })).lumens,
    ).toHaveLength(1);
  });
});

describe('events', () => {
  it.each([
    ['2026-11-24T08:00:00+01:00', '2026-11-24T08:00:00+01:00', 'instant'],
    ['2026-11-24T08:00Z', '2026-11-24T08:00Z', 'instant'],
    ['2026-11-24', '2026-11-24', 'day'],
    ['2026-11', '2026-11', 'month'],
    ['2026', '2026', 'year'],
    ['2026-11-24T08:00:00', '2026-11-24', 'day'],
  ])('at %s are known to be at %s, to the %s', (recorded, text, precision) => {
    expect(readLine(patient(), line(), change({ performedDateTime: recorded })).events[0]?.at).toEqual({
      text,
      precision,
    });
  });

  it('with an empty time have none', () => {
    expect(issuesOf(patient(), line(), change({ performedDateTime: '' }))).toEqual([
      'missing-time Procedure/change Procedure.performed',
    ]);
  });

  it.each(['2026-02-30', '2026-13', 'yesterday', '2026-11-24T25:00:00Z'])(
    'at “%s” have no time, which is reported, and are kept',
    (recorded) => {
      const record = readLine(patient(), line(), change({ performedDateTime: recorded }));
      expect(record.events).toHaveLength(1);
      expect(record.events[0]).not.toHaveProperty('at');
      expect(issuesOf(patient(), line(), change({ performedDateTime: recorded }))).toEqual([
        'missing-time Procedure/change Procedure.performed',
        'unreadable Procedure/change Procedure.performedDateTime',
      ]);
    },
  );

  it('of a period are at its end; without an end at its start, which is reported', () => {
    const of = (performedPeriod: object) => change({ performedDateTime: undefined, performedPeriod });
    expect(
      readLine(patient(), line(), of({ start: at, end: '2026-11-24T09:00:00+01:00' })).events[0],
    ).toMatchObject({
      at: { text: '2026-11-24T09:00:00+01:00' },
      from: { text: at },
    });
    expect(readLine(patient(), line(), of({ start: at })).events[0]?.at?.text).toBe(at);
    expect(issuesOf(patient(), line(), of({ start: at }))).toEqual([
      'imprecise-time Procedure/change Procedure.performedPeriod.end',
    ]);
  });

  it.each(['completed', 'not-done', 'entered-in-error', 'in-progress', 'stopped', 'preparation', 'on-hold'])(
    'of status %s are kept with it',
    (status) => {
      expect(readLine(patient(), line(), change({ status })).events[0]?.status).toBe(status);
    },
  );

  it('on several devices are on each of them', () => {
    const two = change({
      focalDevice: ['a', 'b'].flatMap((id) => on(id).focalDevice),
      code: { coding: [{ system: codeSystem.lineCareActivity, code: 'flush' }] },
    });
    expect(readLine(patient(), line(), lumen('a'), lumen('b'), two).events.map((one) => one.lumen)).toEqual([
      'Device/a',
      'Device/b',
    ]);
  });

  it('of a lumen that don’t say which are kept and reported', () => {
    const flush = event('flush', at, { id: 'flush' });
    expect(readLine(patient(), line(), lumen('a'), lumen('b'), flush).events).toHaveLength(1);
    expect(issuesOf(patient(), line(), lumen('a'), lumen('b'), flush)).toEqual([
      'unknown-lumen Procedure/flush Procedure.focalDevice',
    ]);
    expect(issuesOf(patient(), line(), lumen('a'), flush)).toEqual([]);
  });

  it('of the incision are not those of the exit site', () => {
    const incision = { bodySite: [{ coding: [{ system: codeSystem.lineSite, code: 'incision' }] }] };
    expect(readLine(patient(), line(), change(incision)).events[0]?.site).toBe('incision');
    expect(readLine(patient(), line(), change()).events[0]?.site).toBe('exit-site');
  });
});

describe('a DeviceUseStatement', () => {
  const use = (more: object = {}): Resource => ({
    resourceType: 'DeviceUseStatement',
    id: 'use',
    status: 'active',
    subject: { reference: 'Patient/p' },
    device: { reference: 'Device/line' },
    timingPeriod: { start: '2026-11-01', end: '2026-11-20' },
    ...more,
  });
  const told = (...resources: Resource[]) =>
    readLine(patient(), line(), ...resources).events.map(({ activity, ref }) => `${activity} ${ref}`);

  it('tells of the insertion where no Procedure does, and of the removal when it is completed', () => {
    expect(told(use())).toEqual(['insertion DeviceUseStatement/use']);
    expect(told(use({ status: 'completed' }))).toEqual([
      'insertion DeviceUseStatement/use',
      'removal DeviceUseStatement/use',
    ]);
    expect(told(use({ status: 'entered-in-error' }))).toEqual([]);
  });

  it('tells of nothing that a Procedure tells of', () => {
    expect(told(use(), event('insertion', at, { id: 'in' }))).toEqual(['insertion Procedure/in']);
  });

  it('says whose line it is where the Device doesn’t', () => {
    expect(readLine(patient(), line('picc', { patient: undefined }), use()).patient.ref).toBe('Patient/p');
  });
});

describe('where a patient is', () => {
  const stay = (more: object = {}): Resource => ({
    resourceType: 'Encounter',
    id: 'stay',
    status: 'in-progress',
    subject: { reference: 'Patient/p' },
    location: [{ location: { reference: 'Location/bed' } }],
    ...more,
  });
  const physical = (code: string) => ({
    physicalType: {
      coding: [{ system: 'http://terminology.hl7.org/CodeSystem/location-physical-type', code }],
    },
  });
  const locations: Resource[] = [
    {
      resourceType: 'Location',
      id: 'bed',
      name: 'Bed 4',
      ...physical('bd'),
      partOf: { reference: 'Location/room' },
    },
    {
      resourceType: 'Location',
      id: 'room',
      name: 'Room 2',
      ...physical('ro'),
      partOf: { reference: 'Location/ward' },
    },
    {
      resourceType: 'Location',
      id: 'ward',
      name: 'East',
      ...physical('wa'),
      partOf: { reference: 'Location/bed' },
    },
  ];
  const place = (...resources: Resource[]) => {
    const { unit, bed } = readLine(patient(), line(), ...locations, ...resources).patient;
    return { unit, bed };
  };

  it('is the unit and the bed of the open Encounter, through the locations above it, even in a circle', () => {
    expect(place(stay())).toEqual({ unit: 'East', bed: 'Bed 4' });
  });

  it('is not where the Encounter is over, or the stay in its location', () => {
    expect(place(stay({ status: 'finished' }))).toEqual({ unit: undefined, bed: undefined });
    expect(place(stay({ period: { end: '2026-11-20' } }))).toEqual({ unit: undefined, bed: undefined });
    expect(
      place(stay({ location: [{ location: { reference: 'Location/bed' }, status: 'completed' }] })),
    ).toEqual({ unit: undefined, bed: undefined });
  });

  it('is that of the newest of several', () => {
    const older = stay({
      id: 'older',
      period: { start: '2026-10-01' },
      location: [{ location: { display: 'West' } }],
    });
    const newer = stay({ period: { start: '2026-11-01' } });
    expect(place(older, newer).unit).toBe('East');
    expect(
      place(
        { ...newer, location: [{ location: { display: 'West' } }] },
        { ...older, location: stay()['location'] },
      ).unit,
    ).toBe('West');
  });
});

describe('results', () => {
  const measured = (...resources: Resource[]) =>
    readLine(patient(), line(), ...resources).patient.measurements.map(({ kind, value, derived }) => ({
      kind,
      low: value.low,
      high: value.high,
      derived,
    }));

  it('of the leucocytes and a differential give a count, and bands are added to segmented only', () => {
    const whole = lab('6690-2', 2, '10*9/L', at);
    const count = (...shares: Resource[]) =>
      measured(whole, ...shares).find(({ kind }) => kind === 'anc')?.low;
    expect(count(lab('769-0', 20, '%', at), lab('764-1', 20, '%', at))).toBe('0.8');
    expect(count(lab('769-0', 20, '%', at))).toBe('0.4');
    expect(count(lab('770-8', 20, '%', at), lab('764-1', 20, '%', at))).toBe('0.4');
    expect(count(lab('769-0', 20, '%', '2026-11-23T08:00:00+01:00'))).toBeUndefined();
    expect(measured(lab('768-2', 0.3, '10*9/L', at), lab('26507-4', 0.2, '10*9/L', at))).toMatchObject([
      { kind: 'anc', low: '0.5', derived: true },
    ]);
  });

  it('measured directly stand before the ones worked out, where both agree', () => {
    const both = measured(
      lab('751-8', 0.8, '10*9/L', at),
      lab('6690-2', 2, '10*9/L', at),
      lab('769-0', 40, '%', at),
    );
    expect(both.filter(({ kind }) => kind === 'anc')).toEqual([
      { kind: 'anc', low: '0.8', high: '0.8', derived: false },
    ]);
  });

  it('of leucocytes alone stand beside them, and a share alone is said', () => {
    expect(measured(lab('6690-2', 2, '10*9/L', at))).toEqual([
      { kind: 'leucocytes', low: '2', high: '2', derived: false },
    ]);
    for (const code of ['770-8', '769-0', '764-1'])
      expect(issuesOf(patient(), line(), lab(code, 40, '%', at, { id: 'share' }))).toEqual([
        'part-of-no-count Observation/share Observation.code',
      ]);
  });

  it('and orders: one in a state that R4 does not know, and one of a patient without a line, are said', () => {
    const order = (status: string): Resource => ({
      resourceType: 'ServiceRequest',
      id: 'order',
      status,
      intent: 'order',
      code: { coding: [{ system: codeSystem.lineCareActivity, code: 'flush' }] },
      subject: { reference: 'Patient/p' },
      occurrenceDateTime: '2026-11-25',
    });
    expect(read(patient(), line(), order('ACTIVE')).notUnderstood).toMatchObject([
      { path: 'ServiceRequest.status', code: 'ACTIVE' },
    ]);
    expect(issuesOf(patient(), order('active'))).toEqual([
      'unknown-lumen ServiceRequest/order ServiceRequest.subject',
    ]);
  });

  it('and infusions: one through a device that has a name and no reference is said', () => {
    const drip: Resource = {
      resourceType: 'MedicationAdministration',
      id: 'drip',
      status: 'in-progress',
      subject: { reference: 'Patient/p' },
      effectivePeriod: { start: at },
      device: [{ display: 'red lumen' }],
    };
    expect(issuesOf(patient(), line(), drip)).toEqual([
      'unresolved-reference MedicationAdministration/drip MedicationAdministration.device',
    ]);
  });

  it('with a state that R4 does not know are used with least trust, and said', () => {
    const { notUnderstood } = read(patient(), line(), {
      ...lab('751-8', 1, '10*9/L', at),
      status: 'CORRECTED',
    });
    expect(notUnderstood).toMatchObject([{ path: 'Observation.status', code: 'CORRECTED' }]);
  });

  it('whose shares add up to more than all are refused', () => {
    expect(
      issuesOf(
        patient(),
        line(),
        lab('6690-2', 2, '10*9/L', at, { id: 'w' }),
        lab('769-0', 80, '%', at),
        lab('764-1', 30, '%', at),
      ),
    ).toEqual(['implausible-value Observation/w Observation.value']);
  });

  it.each([
    ['<', '0', '0.1', false],
    ['<=', '0', '0.1', true],
    ['>', '0.1', undefined, false],
    ['>=', '0.1', undefined, false],
  ])('with %s are known between limits', (comparator, low, high, highIncluded) => {
    const [one] = readLine(
      patient(),
      line(),
      lab('751-8', 0.1, '10*9/L', at, { valueQuantity: { value: 0.1, unit: '10*9/L', comparator } }),
    ).patient.measurements;
    expect(one?.value).toMatchObject({ low, highIncluded });
    expect(one?.value.high).toBe(high);
    expect(one?.asSent).toEqual([{ comparator, value: 0.1, unit: '10*9/L' }]);
  });

  it.each([
    ['corrected', 3],
    ['amended', 3],
    ['final', 2],
    ['preliminary', 1],
  ])('that are %s are trusted %d', (status, trust) => {
    expect(
      readLine(patient(), line(), lab('751-8', 1, '10*9/L', at, { status })).patient.measurements[0]?.trust,
    ).toBe(trust);
  });

  it.each(['cancelled', 'entered-in-error', 'registered'])('that are %s are none, and no error', (status) => {
    const result = lab('751-8', 1, '10*9/L', at, { status });
    expect(measured(result)).toEqual([]);
    expect(issuesOf(patient(), line(), result)).toEqual([]);
  });

  it.each([
    ['below zero', -1, '10*9/L', 'implausible-value'],
    ['without a unit', 0.8, undefined, 'unknown-unit'],
    ['in a unit of something else', 0.8, 'mmol/L', 'unknown-unit'],
  ])('%s are refused and reported', (_, value, unit, code) => {
    const result = { ...lab('751-8', value, unit, at), id: 'bad' };
    expect(measured(result)).toEqual([]);
    expect(issuesOf(patient(), line(), result)).toEqual([
      `${code} Observation/bad Observation.valueQuantity`,
    ]);
  });

  it('without a time are reported', () => {
    const timeless = lab('751-8', 1, '10*9/L', at, { id: 'x', effectiveDateTime: undefined });
    expect(issuesOf(patient(), line(), timeless)).toEqual([
      'missing-time Observation/x Observation.effective',
    ]);
  });

  it('that disagree within a collection are reported and the lowest is used', () => {
    const [a, b] = [lab('751-8', 1, '10*9/L', at, { id: 'a' }), lab('753-4', 0.1, '10*9/L', at, { id: 'b' })];
    expect(measured(a, b)).toMatchObject([{ low: '0.1' }]);
    expect(issuesOf(patient(), line(), a, b)).toEqual(['conflicting-values Observation/b Observation.value']);
  });

  it('of a component are read like those of their own', () => {
    const panel: Resource = {
      resourceType: 'Observation',
      id: 'panel',
      status: 'final',
      code: { text: 'blood count' },
      subject: { reference: 'Patient/p' },
      effectiveDateTime: at,
      component: [
        {
          code: { coding: [{ system: standard.loinc, code: '751-8' }] },
          valueQuantity: { value: 1.2, unit: 'K/uL' },
        },
      ],
    };
    expect(measured(panel)).toMatchObject([{ kind: 'anc', low: '1.2' }]);
  });
});

describe('findings', () => {
  it('are on the line or the lumen of their focus', () => {
    const seen = finding('connector-condition', 'debris', at, { focus: [{ reference: 'Device/a' }] });
    expect(readLine(patient(), line(), lumen('a'), lumen('b'), seen).findings).toMatchObject([
      { lumen: 'Device/a', values: ['debris'] },
    ]);
  });

  it('have the components that are present as their values', () => {
    const part = (code: string, value: object) => ({
      code: { coding: [{ system: codeSystem.lineFinding, code }] },
      ...value,
    });
    const site = finding('exit-site', '', at, {
      valueCodeableConcept: undefined,
      component: [
        part('redness', { valueBoolean: true }),
        part('swelling', { valueBoolean: false }),
        part('tenderness', { valueInteger: 2 }),
        part('drainage', { valueCodeableConcept: { coding: [{ code: 'absent' }] } }),
      ],
    });
    expect(readLine(patient(), line(), site).findings[0]?.values).toEqual(['redness', 'tenderness']);
  });

  it('without a focus, a time or a value are reported', () => {
    const seen = (more: object) =>
      issuesOf(patient(), line(), { ...finding('dressing-condition', 'damp', at), id: 'seen', ...more });
    expect(seen({ focus: [] })).toEqual(['unresolved-reference Observation/seen Observation.focus']);
    expect(seen({ effectiveDateTime: undefined })).toEqual([
      'missing-time Observation/seen Observation.effective',
    ]);
    expect(seen({ valueCodeableConcept: undefined })).toEqual([
      'unreadable Observation/seen Observation.value',
    ]);
  });
});

it('a result that is charted as text is not used, and the issue quotes it', () => {
  const text = { ...lab('777-3', 0, undefined, at), valueQuantity: undefined, valueString: '<20' };
  const { issues } = readRecords([patient(), line(), text].map((resource) => ({ resource })));
  expect(said(issues.map(({ sentence }) => sentence))).toEqual([
    'The platelet count is charted as text, “<20”, not as a quantity; it is not used.',
  ]);
});

describe('orders', () => {
  const order = (more: object = {}): Resource => ({
    resourceType: 'ServiceRequest',
    id: 'order',
    status: 'active',
    intent: 'order',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: 'flush' }] },
    subject: { reference: 'Patient/p' },
    authoredOn: at,
    occurrenceTiming: { repeat: { frequency: 1, period: 12, periodUnit: 'h' } },
    ...more,
  });
  const ordersOf = (...resources: Resource[]) => readLine(patient(), line(), ...resources).orders;

  it('of the patient, active and with a timing that can be kept, are read', () => {
    expect(ordersOf(order())).toMatchObject([
      {
        ref: 'ServiceRequest/order',
        activity: 'flush',
        begins: { kind: 'interval', every: { value: 12, unit: 'h' } },
        from: { text: at },
      },
    ]);
    expect(ordersOf(order({ status: 'revoked' }))).toEqual([]);
    expect(ordersOf(order({ subject: { reference: 'Patient/other' } }))).toEqual([]);
    expect(ordersOf(order({ supportingInfo: [{ reference: 'Device/line' }] }))).toMatchObject([
      { target: 'Device/line' },
    ]);
  });

  it('that name a Device which is no line of the patient are reported, and not used for another', () => {
    const pump: Resource = { resourceType: 'Device', id: 'pump' };
    const forPump = order({ supportingInfo: [{ reference: 'Device/pump' }] });
    const { lines, issues } = read(patient(), line(), pump, forPump);
    expect(lines[0]?.orders).toEqual([]);
    expect(issues).toMatchObject([
      {
        resource: 'ServiceRequest/order',
        severity: 'high',
        sentence: { code: 'order-of-no-line', activity: 'flush', device: 'Device/pump' },
      },
    ]);
  });

  it('that name a pump beside the line are for the line', () => {
    const pump: Resource = { resourceType: 'Device', id: 'pump' };
    const both = order({ supportingInfo: [{ reference: 'Device/pump' }, { reference: 'Device/line' }] });
    expect(ordersOf(pump, both)).toMatchObject([{ target: 'Device/line' }]);
  });

  it('whose timing can’t be kept, or that have none, are reported with its path', () => {
    expect(issuesOf(patient(), line(), order({ occurrenceTiming: { repeat: { when: ['HS'] } } }))).toContain(
      'unreadable-order ServiceRequest/order ServiceRequest.occurrenceTiming.repeat.when[0]',
    );
    expect(issuesOf(patient(), line(), order({ occurrenceTiming: undefined }))).toEqual([
      'unreadable-order ServiceRequest/order ServiceRequest.occurrence',
    ]);
  });
});
