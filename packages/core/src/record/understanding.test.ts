import { base, standard } from '@dwellward/profiles';
import type { DetectedIssue } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { dueCare } from '../due/due-care.js';
import { dueBundle } from '../fhir/due-bundle.js';
import { issuesNotUnderstood } from '../fhir/issues-not-understood.js';
import { issueId } from '../fhir/others.js';
import { handover } from '../handover/handover.js';
import { renderHandover } from '../handover/render-handover.js';
import { renderTable } from '../table/render-table.js';
import {
  berlin,
  days,
  event,
  every,
  finding,
  line,
  patient,
  policyOf,
  read,
  rule,
  type Resource,
} from '../record.kit.js';

const at = '2026-11-24T08:00:00+01:00';
const ward = 'http://ward.example/codes';
const local = (code: string, text?: string) => ({
  coding: [{ system: ward, code }],
  ...(text === undefined ? {} : { text }),
});
const categorised = (system: string, code: string) => ({ coding: [{ system, code }] });
const observed = 'http://terminology.hl7.org/CodeSystem/observation-category';
const procedure = (id: string, code: object | undefined, more: object = {}): Resource => ({
  ...event('x', at),
  id,
  code,
  focalDevice: undefined,
  ...more,
});
const observation = (id: string, code: object, more: object = {}): Resource => ({
  ...finding('x', 'x', at),
  id,
  code,
  focus: undefined,
  ...more,
});
const device = (id: string, more: object = {}): Resource => ({
  resourceType: 'Device',
  id,
  status: 'active',
  type: local('D-7', 'Hickory catheter'),
  patient: { reference: 'Patient/p' },
  ...more,
});
const onLine = { focalDevice: [{ manipulated: { reference: 'Device/line' } }] };
const seenOn = { focus: [{ reference: 'Device/line' }] };
const listed = (...resources: Resource[]) =>
  read(patient(), line(), ...resources).notUnderstood.map(
    ({ path, code, text, count, onLine: points }) =>
      `${count} ${path} ${code ?? '-'} ${text ?? '-'}${points ? ' on the line' : ''}`,
  );
const others = (...resources: Resource[]) => {
  const { notUnderstood, otherBusiness } = read(patient(), line(), ...resources);
  expect(notUnderstood).toEqual([]);
  return otherBusiness;
};

describe('what is given of a line and not understood', () => {
  it.each<[string, Resource, string]>([
    ['a Procedure on the line', procedure('a', local('LF-1'), onLine), '1 Procedure.code LF-1 - on the line'],
    [
      'a Procedure of its patient',
      procedure('a', local('LF-1', 'Line flush')),
      '1 Procedure.code LF-1 Line flush',
    ],
    [
      'a Procedure with a text alone',
      procedure('a', { text: 'Line flush' }),
      '1 Procedure.code - Line flush',
    ],
    ['a Procedure without a code', procedure('a', undefined, onLine), '1 Procedure.code - - on the line'],
    [
      'an Observation on the line',
      observation('a', local('F-1'), seenOn),
      '1 Observation.code F-1 - on the line',
    ],
    [
      'an Observation by the line',
      observation('a', local('F-1'), { device: { reference: 'Device/line' } }),
      '1 Observation.code F-1 - on the line',
    ],
    ['an Observation without a category', observation('a', local('F-1')), '1 Observation.code F-1 -'],
    [
      'an Observation of an examination',
      observation('a', local('F-1'), { category: [categorised(observed, 'exam')] }),
      '1 Observation.code F-1 -',
    ],
    ['a Device of the patient', device('a'), '1 Device.type D-7 Hickory catheter'],
    [
      'a Device of another patient',
      device('a', { patient: { reference: 'Patient/q' } }),
      '1 Device.type D-7 Hickory catheter',
    ],
    [
      'a part of the line',
      device('a', { parent: { reference: 'Device/line' } }),
      '1 Device.type D-7 Hickory catheter on the line',
    ],
    [
      'an Observation that has our code of a line without a map that reads it as a row of a chart',
      observation(
        'a',
        { coding: [{ system: `${base}/CodeSystem/line-type`, code: 'picc' }] },
        { category: [categorised(observed, 'laboratory')], ...seenOn },
      ),
      '1 Observation.code picc - on the line',
    ],
    [
      'a value of a finding',
      finding('blood-return', 'BR-3', at, { id: 'a' }),
      '1 Observation.value BR-3 - on the line',
    ],
    [
      'a dressing',
      event('dressing-change', at, { id: 'a', usedCode: [local('DR-9', 'Film')] }),
      '1 Procedure.usedCode DR-9 Film on the line',
    ],
    ['a status', event('flush', at, { id: 'a', status: 'done' }), '1 Procedure.status done - on the line'],
    [
      'a status that is not given',
      event('flush', at, { id: 'a', status: undefined }),
      '1 Procedure.status - - on the line',
    ],
    [
      'a status of a finding',
      finding('damage', 'leak', at, { id: 'a', status: 'seen' }),
      '1 Observation.status seen - on the line',
    ],
    [
      'a sign of the exit site',
      {
        ...finding('exit-site', 'x', at, { id: 'a' }),
        valueCodeableConcept: undefined,
        component: [{ code: local('S-1', 'Crust'), valueBoolean: true }],
      },
      '1 Observation.component.code S-1 Crust on the line',
    ],
    [
      'a code of ours that is misspelt',
      procedure('a', {
        coding: [
          { system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity', code: 'flushing' },
        ],
      }),
      '1 Procedure.code flushing -',
    ],
    [
      'an order on the line',
      {
        resourceType: 'ServiceRequest',
        id: 'a',
        status: 'active',
        code: local('O-1'),
        subject: { reference: 'Patient/p' },
        supportingInfo: [{ reference: 'Device/line' }],
      },
      '1 ServiceRequest.code O-1 - on the line',
    ],
  ])('I2: is listed by element, code and text: %s', (_, resource, row) => {
    expect(listed(resource)).toEqual([row]);
  });

  it('I2: is one row for all that have one code, what points to a line first, then what there is most of', () => {
    const many = (code: string, count: number, more: object = {}) =>
      Array.from({ length: count }, (__, i) => procedure(`${code}-${i}`, local(code), more));
    expect(listed(...many('few', 2), ...many('many', 7), ...many('on', 1, onLine))).toEqual([
      '1 Procedure.code on - on the line',
      '7 Procedure.code many -',
      '2 Procedure.code few -',
    ]);
  });

  it.each<[string, Resource]>([
    [
      'a result that nobody asks for',
      observation('a', { coding: [{ system: standard.loinc, code: '2160-0' }] }),
    ],
    ['a vital sign', observation('a', local('V-1'), { category: [categorised(observed, 'vital-signs')] })],
    [
      'a result in a code of the laboratory',
      observation('a', local('L-1'), { category: [categorised(observed, 'laboratory')] }),
    ],
    ['counselling', procedure('a', local('C-1'), { category: categorised(standard.snomed, '409063005') })],
    ['a picture', procedure('a', local('X-1'), { category: categorised(standard.snomed, '103693007') })],
    [
      'a Procedure of a patient without a line',
      procedure('a', local('P-1'), { subject: { reference: 'Patient/q' } }),
    ],
    [
      'a catheter for peritoneal dialysis',
      device('a', { type: { coding: [{ system: standard.snomed, code: '360133002' }] } }),
    ],
    ['a Device of nobody', device('a', { patient: undefined })],
    ['a Device that is out of use', device('a', { status: 'inactive' })],
    [
      'a drug that went in another way',
      {
        resourceType: 'MedicationAdministration',
        id: 'a',
        status: 'completed',
        medicationCodeableConcept: local('M-1'),
        subject: { reference: 'Patient/p' },
      },
    ],
    ['a kind of resource that is not read', { resourceType: 'CarePlan', id: 'a' }],
  ])('I2: is not what is plainly of other business, which is counted: %s', (_, resource) => {
    expect(others(resource)).toEqual([{ resourceType: resource.resourceType, count: 1 }]);
  });

  it.each<[string, Resource]>([
    [
      'that it was entered in error',
      procedure('a', local('LF-1'), { ...onLine, status: 'entered-in-error' }),
    ],
    ['that it was not done', procedure('a', local('LF-1'), { status: 'not-done' })],
  ])('asks nobody to look where its status says %s', (_, resource) => {
    expect(others(resource)).toEqual([{ resourceType: 'Procedure', count: 1 }]);
  });
});

describe('what was not understood is said', () => {
  const policy = policyOf(rule('Dressing', every(days(7))));
  const when = berlin('2026-11-25T12:00:00+01:00');
  const records = read(
    patient(),
    line(),
    event('insertion', at),
    ...Array.from({ length: 206 }, (_, i) => procedure(`f${i}`, local('LF-1', 'Line flush'))),
    ...Array.from({ length: 6 }, (_, i) => procedure(`g${i}`, local(`X-${i}`))),
  );
  const cares = records.lines.map((one) => dueCare(one, policy, when));

  it('I2: on top of the table, in a few rows and how many more there are', () => {
    const text = renderTable(records, cares, when, { colour: false, columns: 0 });
    expect(text.split('\n').slice(2, 9)).toEqual([
      '!! Not understood: 212 resources of 7 kinds. Care or signs charted in them count here for nothing: look there before you rely on this list.',
      `     206 × Procedure.code “Line flush” (${ward}|LF-1), such as Procedure/f0`,
      ...[0, 1, 2, 3].map((i) => `     1 × Procedure.code ${ward}|X-${i}, Procedure/g${i}`),
      '     and 2 kinds more: the JSON answer has all of them',
    ]);
  });

  it('I2: on top of the hand-over', () => {
    const shift = { from: when.asOf, to: '2026-11-25T20:00:00+01:00', zone: when.zone };
    const text = renderHandover(handover(records, cares, policy, shift), { colour: false, columns: 200 });
    expect(text.indexOf('Not understood: 212 resources')).toBeGreaterThan(0);
    expect(text.indexOf('Not understood: 212 resources')).toBeLessThan(text.indexOf('(Patient/p)'));
  });

  it('I2: as one DetectedIssue of each patient and kind, the same however many there are', () => {
    const bundle = dueBundle(records, cares, policy, when);
    const found = (bundle.entry ?? [])
      .map(({ resource }) => resource as DetectedIssue)
      .filter(
        ({ resourceType, detail }) => resourceType === 'DetectedIssue' && detail?.includes('not understood'),
      );
    expect(found).toHaveLength(7);
    expect(found.every((one) => one.patient?.reference === 'Patient/p')).toBe(true);
    expect(found.every((one) => (one.implicated ?? []).length <= 6)).toBe(true);
    const fewer = read(patient(), line(), procedure('f9', local('LF-1', 'Line flush')));
    const ids = issuesNotUnderstood(records.notUnderstood).map(issueId);
    expect(ids).toContain(issueId(issuesNotUnderstood(fewer.notUnderstood)[0]!));
  });

  it('I2: with the Devices that were seen where no line was found', () => {
    const none = read(patient(), device('a'), device('b', { patient: undefined }));
    const text = renderTable(none, [], when, { colour: false, columns: 0 });
    expect(text).toContain(
      '!! No line was found, so nothing is asked for anybody. The input has 2 Devices, none of which is a known line.\n',
    );
    expect(text).toContain(`     2 × Device.type “Hickory catheter” (${ward}|D-7), such as Device/a\n`);
    expect(renderTable(read(patient()), [], when, { colour: false, columns: 0 })).toContain(
      'There is no Device in the input.',
    );
  });

  it('I2: with what was done to a Device that is not known as a line, though its code is one of line care', () => {
    const onIt = { focalDevice: [{ manipulated: { reference: 'Device/a' } }] };
    const dressing = { coding: [{ system: standard.snomed, code: '18949003' }] };
    const { notUnderstood } = read(patient(), device('a'), procedure('b', dressing, onIt));
    expect(notUnderstood.flatMap(({ examples }) => examples)).toEqual(['Procedure/b', 'Device/a']);
  });
});
