import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  said,
  berlin,
  care,
  event,
  lab,
  line,
  patient,
  policyOf,
  read,
  type Resource,
  rule,
} from '../record.kit.js';

// Home care sheets of two hospitals (seen): call for 100.5 °F (38.06 °C), and 38.0 °C; the lower counts. 38.0 °C is
// 100.4 °F: 38 × 9 / 5 + 32. LOINC 8310-5 seen; 8331-1, 8328-7, 8332-9, 8333-7 from memory.

const time = '2026-11-25T08:00:00+01:00';
const temperature = (value: number, unit: string | undefined = 'Cel', more: object = {}, loinc = '8310-5') =>
  lab(loinc, value, unit, time, { id: 't', ...more });
const inserted = event('insertion', '2026-11-20T10:00:00+01:00');
const respond = policyOf(
  rule(
    'respond',
    {
      kind: 'triggered',
      by: [
        { kind: 'finding', finding: 'fever', values: [] },
        { kind: 'finding', finding: 'body-temperature', values: [] },
      ],
    },
    {
      activity: 'fever-response',
      scope: 'line',
      startsIf: "(%found.fever.exists() and %found.fever = %began) or %latest.bodyTemperature >= 38.0 'Cel'",
    },
  ),
);
const noon = berlin('2026-11-25T12:00:00+01:00');
const asked = (...resources: Resource[]) => care([patient(), line(), ...resources], respond, noon);
const issuesOf = (one: Resource) =>
  read(patient(), line(), inserted, one).issues.map(
    ({ code, resource, path }) => `${code} ${resource} ${path}`,
  );

describe('a body temperature', () => {
  it.each<[string, Resource, boolean]>([
    ['38.0 °C', temperature(38), true],
    ['37.9 °C', temperature(37.9), false],
    ['39.1 °C', temperature(39.1), true],
    ['100.4 °F', temperature(100.4, '[degF]'), true],
    ['100.3 °F', temperature(100.3, '[degF]'), false],
    ['38.5 in °C as people write it', temperature(38.5, '°C'), true],
    ['oral', temperature(38.2, 'Cel', {}, '8331-1'), true],
    ['axillary', temperature(38.2, 'Cel', {}, '8328-7'), true],
    ['rectal', temperature(38.2, 'Cel', {}, '8332-9'), true],
    ['tympanic', temperature(38.2, 'Cel', {}, '8333-7'), true],
    ['another vital sign', temperature(38.2, 'Cel', {}, '8867-4'), false],
    ['entered in error', temperature(39, 'Cel', { status: 'entered-in-error' }), false],
    [
      // Not known to be below 38.0: the protective reading, as of a laboratory’s comparator.
      'less than 38.5',
      temperature(38.5, 'Cel', { valueQuantity: { value: 38.5, unit: 'Cel', comparator: '<' } }),
      true,
    ],
    [
      'less than 37.5',
      temperature(37.5, 'Cel', { valueQuantity: { value: 37.5, unit: 'Cel', comparator: '<' } }),
      false,
    ],
  ])('%s is a fever or none', (_, one, fever) => {
    const { items } = asked(inserted, one);
    expect(items.map(({ activity, movedBy }) => [activity, movedBy])).toEqual(
      fever ? [['fever-response', ['Observation/t']]] : [],
    );
    expect(issuesOf(one)).toEqual([]);
  });

  it('by the code of the finding is read of the patient, and needs no line', () => {
    const own = temperature(39, 'Cel', {
      code: { coding: [{ system: codeSystem.lineFinding, code: 'body-temperature' }] },
    });
    expect(asked(inserted, own).items.map(({ activity }) => activity)).toEqual(['fever-response']);
    expect(issuesOf(own)).toEqual([]);
  });

  it('says in the item what was measured', () => {
    expect(said(asked(inserted, temperature(39.1)).items[0]?.remarks ?? [])).toContain(
      'Body temperature 39.1 °C.',
    );
  });

  it('among vital signs in one Observation is read as well', () => {
    const { code, valueQuantity, ...rest } = temperature(39);
    const panel = { ...rest, code: { coding: [{ system: 'http://loinc.org', code: '85353-1' }] } };
    const one = { ...panel, component: [{ code, valueQuantity }] } as Resource;
    expect(asked(inserted, one).items).toHaveLength(1);
  });

  it('below the limit ends no fever', () => {
    const later = lab('8310-5', 36.8, 'Cel', '2026-11-25T10:00:00+01:00');
    expect(asked(inserted, temperature(39), later).items).toHaveLength(1);
  });

  it('is answered by the response that follows it', () => {
    const response = event('fever-response', '2026-11-25T08:30:00+01:00');
    expect(asked(inserted, temperature(39), response).items).toEqual([]);
  });

  it.each<[string, Resource, string]>([
    ['45.1 °C', temperature(45.1), 'implausible-value Observation/t Observation.valueQuantity'],
    ['24.9 °C', temperature(24.9), 'implausible-value Observation/t Observation.valueQuantity'],
    ['101 °C: the wrong unit', temperature(101), 'implausible-value Observation/t Observation.valueQuantity'],
    [
      'no unit',
      lab('8310-5', 39, undefined, time, { id: 't' }),
      'unknown-unit Observation/t Observation.valueQuantity',
    ],
    ['kelvin', temperature(312, 'K'), 'unknown-unit Observation/t Observation.valueQuantity'],
    [
      'no time',
      temperature(39, 'Cel', { effectiveDateTime: undefined }),
      'missing-time Observation/t Observation.effective',
    ],
    [
      'no value',
      temperature(39, 'Cel', { valueQuantity: undefined }),
      'unreadable Observation/t Observation.valueQuantity',
    ],
  ])('%s is an issue and no fever', (_, one, issue) => {
    expect(issuesOf(one)).toEqual([issue]);
    expect(asked(inserted, one).items).toEqual([]);
  });

  it.each([25, 45])('%d °C is one that can be', (value) => {
    expect(issuesOf(temperature(value))).toEqual([]);
  });
});

describe('it concerns a line that is in place at that time', () => {
  it('not one that was put in later, or was out', () => {
    const later = event('insertion', '2026-11-25T09:00:00+01:00');
    expect(asked(later, temperature(39)).items).toEqual([]);
    const out = event('removal', '2026-11-24T09:00:00+01:00');
    const stat = policyOf({ ...respond.rules[0]!, priority: 'stat' });
    expect(care([patient(), line(), inserted, out, temperature(39)], stat, noon).items).toEqual([]);
  });

  it('and one whose insertion is not on record, of which it is no sign', () => {
    const { items, issues } = asked(temperature(39));
    expect(items).toHaveLength(1);
    expect(issues).toMatchObject([{ code: 'no-insertion', related: [] }]);
  });

  it('every line of the patient', () => {
    const { lines } = read(patient(), line(), line('picc', { id: 'other' }), temperature(39));
    expect(lines.map(({ findings }) => findings.map(({ ref }) => ref))).toEqual([
      ['Observation/t'],
      ['Observation/t'],
    ]);
  });
});
