import { codeSystem, standard } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { event, line, patient, readLine, type Resource } from '../record.kit.js';
import { readRecords } from '../record/read-records.js';
import type { CodeMaps } from './code-maps.js';
import { readCodeMaps } from './read-code-maps.js';

const local = 'https://hospital.example/codes';
const at = '2026-11-25T06:00:00+01:00';

function mapsOf(...groups: [target: string, elements: object[], source?: string][]): CodeMaps {
  const group = groups.map(([target, element, source = local]) => ({ source, target, element }));
  const reading = readCodeMaps([{ name: 'm', resource: { resourceType: 'ConceptMap', group } }]);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.maps;
}

const to = (code: string, ...more: object[]) =>
  Object.assign({ code, equivalence: 'equivalent' }, ...more) as object;
const when = (value: string, property = 'Observation.value') => ({ dependsOn: [{ property, value }] });

function read(maps: CodeMaps, ...resources: Resource[]) {
  return readRecords(
    [patient(), line(), ...resources].map((resource) => ({ resource })),
    { maps },
  );
}

const charted = (value: object, more: object = {}): Resource => ({
  resourceType: 'Observation',
  id: 'o',
  status: 'final',
  code: { coding: [{ system: local, code: 'OCCL' }] },
  subject: { reference: 'Patient/p' },
  focus: [{ reference: 'Device/line' }],
  effectiveDateTime: at,
  ...value,
  ...more,
});

describe('one code that means several things', () => {
  const value = (code: string) => ({
    product: [{ property: 'Observation.value', system: codeSystem.dressingCondition, value: code }],
  });
  const maps = mapsOf([
    codeSystem.lineFinding,
    [
      {
        code: 'OCCL',
        target: [
          to('dressing-condition', when('Yes'), value('intact')),
          to('dressing-condition', when('No'), value('loosened')),
          to('dressing-condition', when('false'), value('loosened')),
        ],
      },
    ],
  ]);
  it.each<[object, string[]]>([
    [{ valueString: 'Yes' }, ['intact']],
    [{ valueString: ' no ' }, ['loosened']],
    [{ valueBoolean: false }, ['loosened']],
    [{ valueCodeableConcept: { text: 'No' } }, ['loosened']],
    [{ valueCodeableConcept: { coding: [{ system: local, code: '0', display: 'No' }] } }, ['loosened']],
  ])('is read by its value: %j', (given, values) => {
    expect(read(maps, charted(given)).lines[0]!.findings.map((one) => one.values)).toEqual([values]);
  });

  it('is not understood where its value is none of the map', () => {
    const { lines, notUnderstood } = read(maps, charted({ valueString: 'Partly' }));
    expect(lines[0]!.findings).toEqual([]);
    expect(notUnderstood.map(({ path, system, code }) => [path, system, code])).toEqual([
      ['Observation.code', local, 'OCCL'],
    ]);
  });

  it('is read by its unit', () => {
    const byUnit = mapsOf(
      [
        standard.loinc,
        [{ code: 'OCCL', target: [to('751-8', when('10*9/L', 'Observation.valueQuantity.unit'))] }],
      ],
      [
        codeSystem.lineFinding,
        [{ code: 'OCCL', target: [to('external-length', when('cm', 'Observation.valueQuantity.unit'))] }],
      ],
    );
    const count = read(
      byUnit,
      charted({ valueQuantity: { value: 0.4, unit: '10*9/L' } }, { focus: undefined }),
    );
    expect(count.lines[0]!.patient.measurements.map(({ kind }) => kind)).toEqual(['anc']);
    const length = read(byUnit, charted({ valueQuantity: { value: 12, unit: 'cm' } }));
    expect(length.lines[0]!.findings.map(({ finding }) => finding)).toEqual(['external-length']);
  });
});

describe('what a map says is not so', () => {
  const change = (system: string, code: string) => event('x', at, { code: { coding: [{ system, code }] } });
  it('takes the reading away that the code would have by itself', () => {
    const dressing = change(standard.snomed, '18949003');
    expect(readLine(patient(), line(), dressing).events).toHaveLength(1);
    const maps = mapsOf([
      codeSystem.lineCareActivity,
      [{ code: '18949003', target: [{ code: 'dressing-change', equivalence: 'disjoint' }] }],
      standard.snomed,
    ]);
    const { lines, notUnderstood } = read(maps, dressing);
    expect(lines[0]!.events).toEqual([]);
    expect(notUnderstood.map(({ path }) => path)).toEqual(['Procedure.code']);
  });
  it('stays listed where it is unmatched, and is counted where it is other business', () => {
    const unmatched = mapsOf([
      codeSystem.lineCareActivity,
      [{ code: 'W', target: [{ equivalence: 'unmatched' }] }],
    ]);
    expect(read(unmatched, change(local, 'W')).notUnderstood.map(({ code }) => code)).toEqual(['W']);
    const other = mapsOf([codeSystem.chartedItem, [{ code: 'W', target: [to('other-business')] }]]);
    const records = read(other, change(local, 'W'));
    expect(records.notUnderstood).toEqual([]);
    expect(records.otherBusiness).toContainEqual({ resourceType: 'Procedure', count: 1 });
  });
});

describe('a text', () => {
  const maps = mapsOf([
    codeSystem.lineCareActivity,
    [{ code: 'Flushed, 10 mL', target: [to('flush')] }],
    codeSystem.chartedText,
  ]);
  const flush = (code: object) => event('x', at, { code });
  it('is read as it is written or written alike, and that is said', () => {
    const { lines, issues } = read(maps, flush({ text: ' FLUSHED 10  ml ' }));
    expect(lines[0]!.events.map(({ activity }) => activity)).toEqual(['flush']);
    expect(issues.filter(({ code }) => code === 'assumed').map(({ sentence }) => sentence)).toEqual([
      { code: 'read-by-text', text: 'FLUSHED 10  ml', as: 'flush', resources: 1 },
    ]);
  });
  it('never decides where there is a code', () => {
    const { lines, notUnderstood } = read(
      maps,
      flush({ coding: [{ system: local, code: 'Z' }], text: 'Flushed, 10 mL' }),
    );
    expect(lines[0]!.events).toEqual([]);
    expect(notUnderstood.map(({ code }) => code)).toEqual(['Z']);
  });
});

it('a code of ours that stands there already is kept', () => {
  const maps = mapsOf([codeSystem.lineCareActivity, [{ code: 'Q', target: [to('lock')] }]]);
  const both = event('flush', at);
  (both['code'] as { coding: object[] }).coding.push({ system: local, code: 'Q' });
  expect(read(maps, both).lines[0]!.events.map(({ activity }) => activity)).toEqual(['flush']);
});

it('two codes of one act that are mapped to different ones decide nothing', () => {
  const maps = mapsOf([
    codeSystem.lineCareActivity,
    [
      { code: 'Q', target: [to('lock')] },
      { code: 'R', target: [to('flush')] },
    ],
  ]);
  const both = event('x', at, {
    code: {
      coding: [
        { system: local, code: 'Q' },
        { system: local, code: 'R' },
      ],
    },
  });
  const { lines, notUnderstood } = read(maps, both);
  expect(lines[0]!.events).toEqual([]);
  expect(notUnderstood).toHaveLength(1);
});
