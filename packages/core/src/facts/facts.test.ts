import { codeSystem } from '@dwellward/profiles';
import type { FactName } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { berlin, days, event, finding, line, patient, readLine, type Resource } from '../record.kit.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { changesOf, known } from './facts.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf } from '../timeline/timeline.js';

const inserted = event('insertion', '2026-11-01T10:00:00+01:00');

function factOf(name: FactName, resources: readonly Resource[], asOf = '2026-11-25T12:00:00+01:00') {
  const record = readLine(patient(), line(), ...resources);
  const timeline = timelineOf(record, new Calendar('Europe/Berlin'), instantMs(berlin(asOf).asOf));
  const [target] = targetsOf(record, name.startsWith('lumen.') ? 'lumen' : 'line');
  const { value, refs } = known(name, {
    timeline,
    target: target!,
    ms: timeline.asOfMs,
    staleAfter: days(7),
  });
  const changes = changesOf([name], timeline, days(7)).map(({ ms }) => new Date(ms).toISOString());
  return { value, refs, changes };
}

const used = (...codes: string[]) => ({
  usedCode: [{ coding: codes.map((code) => ({ system: codeSystem.securementType, code })) }],
});

const infusion = (id: string, from: string, until?: string, code = 'other'): Resource => ({
  resourceType: 'MedicationAdministration',
  id,
  status: until ? 'completed' : 'in-progress',
  subject: { reference: 'Patient/p' },
  device: [{ reference: 'Device/line' }],
  effectivePeriod: { start: from, ...(until ? { end: until } : {}) },
  medicationCodeableConcept: { coding: [{ system: codeSystem.infusate, code }] },
});

describe('where the patient is looked after', () => {
  const actCode = 'http://terminology.hl7.org/CodeSystem/v3-ActCode';
  const encounter = (code: string, more: object = {}): Resource => ({
    resourceType: 'Encounter',
    id: 'e',
    status: 'in-progress',
    class: { system: actCode, code },
    subject: { reference: 'Patient/p' },
    period: { start: '2026-11-20T08:00:00+01:00' },
    ...more,
  });
  const icu: Resource = {
    resourceType: 'Location',
    id: 'icu',
    name: 'Intensive care',
    type: [{ coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v3-RoleCode', code: 'ICU' }] }],
  };
  const bed: Resource = { resourceType: 'Location', id: 'bed', partOf: { reference: 'Location/icu' } };

  it.each([
    ['IMP', 'inpatient'],
    ['ACUTE', 'inpatient'],
    ['NONAC', 'inpatient'],
    ['AMB', 'ambulatory'],
    ['HH', 'home'],
    ['EMER', undefined],
  ])('class %s of the open Encounter: %s', (code, value) => {
    expect(factOf('patient.setting', [encounter(code)]).value).toBe(value);
  });

  it('is intensive care where the bed lies in one, since the stay there began', () => {
    const stay = [
      { location: { reference: 'Location/bed' }, period: { start: '2026-11-22T08:00:00+01:00' } },
    ];
    const resources = [encounter('IMP', { location: stay }), icu, bed];
    expect(factOf('patient.setting', resources)).toEqual({
      value: 'intensive-care',
      refs: ['Location/icu'],
      changes: ['2026-11-22T07:00:00.000Z', '2026-11-20T07:00:00.000Z'],
    });
    expect(factOf('patient.setting', resources, '2026-11-21T12:00:00+01:00').value).toBe('inpatient');
    expect(factOf('patient.setting', resources, '2026-11-19T12:00:00+01:00').value).toBeUndefined();
  });

  it('is what it was at the time, also where that stay is over', () => {
    const stays = [
      encounter('IMP', {
        id: 'first',
        status: 'finished',
        period: { start: '2026-11-01T08:00:00+01:00', end: '2026-11-05T10:00:00+01:00' },
        location: [
          {
            location: { reference: 'Location/bed' },
            status: 'completed',
            period: { start: '2026-11-02T08:00:00+01:00', end: '2026-11-03T08:00:00+01:00' },
          },
        ],
      }),
      encounter('HH', {
        id: 'home',
        status: 'finished',
        period: { start: '2026-11-05T10:00:00+01:00', end: '2026-11-20T08:00:00+01:00' },
      }),
      encounter('IMP'),
      icu,
      bed,
    ];
    const at = (asOf: string) => factOf('patient.setting', stays, asOf).value;
    expect(at('2026-11-01T07:59:00+01:00')).toBeUndefined();
    expect(at('2026-11-01T08:00:00+01:00')).toBe('inpatient');
    expect(at('2026-11-02T08:00:00+01:00')).toBe('intensive-care');
    expect(at('2026-11-03T08:00:00+01:00')).toBe('inpatient');
    expect(at('2026-11-05T10:00:00+01:00')).toBe('home');
    expect(at('2026-11-20T08:00:00+01:00')).toBe('inpatient');
  });

  it.each(['planned', 'cancelled', 'entered-in-error'])(
    'is not told by an Encounter that is %s',
    (status) => {
      expect(factOf('patient.setting', [encounter('IMP', { status })]).value).toBeUndefined();
    },
  );

  it('is not known of a closed Encounter without an end, of none, and of a class of another system', () => {
    expect(factOf('patient.setting', []).value).toBeUndefined();
    expect(factOf('patient.setting', [encounter('IMP', { status: 'finished' })]).value).toBeUndefined();
    const other = encounter('IMP', { class: { system: 'https://other.example', code: 'IMP' } });
    expect(factOf('patient.setting', [other]).value).toBeUndefined();
  });
});

describe('what holds the catheter', () => {
  const withDevice = event('insertion', '2026-11-01T10:00:00+01:00', used('sutures', 'adhesive-device'));

  it('is known from what was put on', () => {
    expect(factOf('line.sutured', [withDevice]).value).toBe(true);
    expect(factOf('line.securement', [withDevice]).value).toBe('adhesive-device');
  });

  it('changes with a new one, which leaves the stitches in', () => {
    const change = event('securement-change', '2026-11-10T10:00:00+01:00', used('subcutaneous-anchor'));
    expect(factOf('line.securement', [withDevice, change]).value).toBe('subcutaneous-anchor');
    expect(factOf('line.sutured', [withDevice, change]).value).toBe(true);
    const out = event('suture-removal', '2026-11-20T10:00:00+01:00');
    expect(factOf('line.sutured', [withDevice, change, out]).value).toBe(false);
  });

  it('is not known where nothing is said of it; an insertion that names another has no stitches', () => {
    expect(factOf('line.sutured', [inserted]).value).toBeUndefined();
    expect(factOf('line.securement', [inserted]).value).toBeUndefined();
    const anchored = event('insertion', '2026-11-01T10:00:00+01:00', used('subcutaneous-anchor'));
    expect(factOf('line.sutured', [anchored]).value).toBe(false);
  });
});

describe('whether a line was used', () => {
  it('is no where only the insertion is on record, unknown where not even that is', () => {
    expect(factOf('line.used', [inserted]).value).toBe(false);
    expect(factOf('line.used', [event('flush', '2026-11-20T10:00:00+01:00')]).value).toBeUndefined();
    expect(factOf('line.used', [inserted, event('flush', '2026-11-20T10:00:00+01:00')]).value).toBe(false);
  });

  it('is yes once something ran through it or blood was drawn', () => {
    for (const one of [
      infusion('i', '2026-11-20T10:00:00+01:00'),
      event('infusion-start', '2026-11-20T10:00:00+01:00'),
      event('blood-sampling', '2026-11-20T10:00:00+01:00'),
    ]) {
      const fact = factOf('line.used', [inserted, one]);
      expect(fact.value, one.id).toBe(true);
      expect(fact.changes).toContain('2026-11-20T09:00:00.000Z');
      expect(factOf('line.used', [inserted, one], '2026-11-19T10:00:00+01:00').value).toBe(false);
    }
  });
});

describe('continuous or intermittent', () => {
  const first = infusion('a', '2026-11-25T02:00:00+01:00', '2026-11-25T03:00:00+01:00');
  const lock = event('lock', '2026-11-25T03:10:00+01:00');
  const second = infusion('b', '2026-11-25T10:00:00+01:00', '2026-11-25T11:00:00+01:00');
  const pattern = (resources: Resource[], asOf?: string) =>
    factOf('lumen.infusionPattern', [inserted, ...resources], asOf).value;

  it('is intermittent where the lumen was locked between two infusions', () => {
    expect(pattern([first, lock, second])).toBe('intermittent');
    expect(pattern([first, lock, second], '2026-11-26T03:00:00+01:00')).toBe('intermittent');
  });

  it('is not known any more when that is 24 hours ago', () => {
    expect(pattern([first, lock, second], '2026-11-26T03:00:01+01:00')).toBeUndefined();
    expect(
      factOf('lumen.infusionPattern', [first, lock, second], '2026-11-27T03:00:00+01:00').changes,
    ).toContain('2026-11-26T02:00:00.001Z');
  });

  it('is continuous where one bag follows another, unknown where nothing runs', () => {
    const running = infusion('c', '2026-11-25T03:05:00+01:00');
    expect(pattern([first, running])).toBe('continuous');
    expect(pattern([first, lock])).toBeUndefined();
    expect(pattern([])).toBeUndefined();
  });

  it('is read from charted starts and stops too', () => {
    const chart = [
      event('infusion-start', '2026-11-25T02:00:00+01:00'),
      event('infusion-stop', '2026-11-25T03:00:00+01:00'),
    ];
    expect(pattern(chart)).toBeUndefined();
    expect(pattern([...chart, event('infusion-start', '2026-11-25T08:00:00+01:00')])).toBe('intermittent');
  });
});

describe('further facts', () => {
  it('parenteral nutrition without fat is told from what holds fat, and the shortest-lived decides', () => {
    const nutrition = infusion('n', '2026-11-25T08:00:00+01:00', undefined, 'parenteral-nutrition');
    const amino: Resource = {
      ...infusion('m', '2026-11-25T08:00:00+01:00'),
      medicationCodeableConcept: { coding: [{ system: 'http://www.whocc.no/atc', code: 'B05BA01' }] },
    };
    const fat = infusion('f', '2026-11-25T08:00:00+01:00', undefined, 'fat-emulsion');
    expect(factOf('lumen.infusate', [nutrition]).value).toBe('parenteral-nutrition');
    expect(factOf('lumen.infusate', [amino]).value).toBe('parenteral-nutrition');
    expect(factOf('lumen.infusate', [nutrition, fat]).value).toBe('fat-emulsion');
  });

  it('asepsis at the insertion is what the finding says', () => {
    const said = (flag: boolean) =>
      finding('aseptic-insertion', '', '2026-11-01T10:00:00+01:00', {
        valueBoolean: flag,
        valueCodeableConcept: undefined,
      });
    expect(factOf('latest.asepticInsertion', [inserted]).value).toBeUndefined();
    expect(factOf('latest.asepticInsertion', [inserted, said(false)]).value).toBe(false);
    expect(factOf('latest.asepticInsertion', [inserted, said(true)]).value).toBe(true);
  });

  it('days since the removal are calendar days, unknown while the line is in place', () => {
    const removed = event('removal', '2026-11-23T23:00:00+01:00');
    expect(factOf('line.removedDays', [inserted]).value).toBeUndefined();
    expect(factOf('line.removedDays', [inserted, removed]).value).toBe(2);
    const again = event('insertion', '2026-11-24T08:00:00+01:00');
    expect(factOf('line.removedDays', [inserted, removed, again]).value).toBeUndefined();
  });
});

it('a port that somebody put a needle in was put to use', () => {
  const needle = event('access-needle-change', '2026-11-18T10:00:00+01:00');
  expect(factOf('line.used', [inserted]).value).toBe(false);
  expect(factOf('line.used', [inserted, needle]).value).toBe(true);
});
