import { describe, expect, it } from 'vitest';
import { activitiesWhere, activityCodes, activityOfRole, activityRow } from './activity-queries.js';
import { codeSystem } from './base.js';
import { codeSystems } from './code-systems.js';
import { connectorConditions, dressingConditions } from './codes.js';
import { insertionCodes } from './standard-codes.js';
import { findingCodes, findingRow, gradeOf, saysNo, valuesOf } from './findings.js';

const systemOf = (url: string) => codeSystems().find((one) => one.url === url)!;
const propertiesOf = (url: string, code: string) =>
  (systemOf(url).concept?.find((one) => one.code === code)?.property ?? []).map(
    ({ code: name, ...value }) => [name, ...Object.values(value)] as const,
  );

describe('the code systems of activities and findings', () => {
  it.each([codeSystem.lineCareActivity, codeSystem.lineFinding])(
    '%s defines each property it uses',
    (url) => {
      const { property = [], concept = [] } = systemOf(url);
      const types = new Map(property.map(({ code, type }) => [code, type] as const));
      expect(types.size).toBe(property.length);
      const used = concept.flatMap((one) => one.property ?? []);
      expect(used.length).toBeGreaterThan(concept.length);
      for (const { code, ...value } of used) {
        const type = types.get(code) ?? '';
        expect(Object.keys(value), code).toEqual([`value${type.charAt(0).toUpperCase()}${type.slice(1)}`]);
      }
      // A property that no concept has would be a column that nobody fills.
      expect([...types.keys()].filter((code) => !used.some((one) => one.code === code))).toEqual([]);
    },
  );

  it('say what the table says', () => {
    expect(propertiesOf(codeSystem.lineCareActivity, 'insertion')).toEqual([
      ['default-scope', 'line'],
      ['role', 'begins-line'],
      ['puts-dressing-on', 'where-said'],
      ['sets-external-length', true],
      ['at-home', 'unit'],
      ['may-use', 'chlorhexidine'],
      ['may-use', 'povidone-iodine'],
      ['may-use', 'alcohol'],
      ['may-use', 'octenidine'],
      ['may-use', 'adhesive'],
      ['may-use', 'latex'],
      ...[...insertionCodes.keys()].map((code) => ['read-from', { system: 'http://snomed.info/sct', code }]),
    ]);
    expect(propertiesOf(codeSystem.lineFinding, 'flush-resistance')).toEqual([
      ['default-scope', 'lumen'],
      ['kind', 'coded'],
      ['value', 'none'],
      ['value', 'some'],
      ['value', 'blocked'],
      ['says-no', 'none'],
      ['grade-0', 'none'],
      ['grade-1', 'some'],
      ['grade-2', 'blocked'],
      ['tells-patency', true],
    ]);
    expect(propertiesOf(codeSystem.lineFinding, 'connector-condition')).toContainEqual([
      'values-from',
      codeSystem.connectorCondition,
    ]);
  });
});

describe('the table of activities', () => {
  it('has one activity with which a line begins, and one with which it ends', () => {
    expect(activitiesWhere(({ role }) => role === 'begins-line')).toEqual([activityOfRole('begins-line')]);
    expect(activitiesWhere(({ role }) => role === 'ends-line')).toEqual([activityOfRole('ends-line')]);
  });

  it('gives each use of a lumen a turn of its own', () => {
    const uses = activitiesWhere(({ leavesLumen }) => leavesLumen);
    expect(activitiesWhere(({ turn }) => turn)).toEqual(uses);
    expect(new Set(uses.map((one) => activityRow(one).turn)).size).toBe(uses.length);
    expect(uses.filter((one) => !activityRow(one).throughLumen)).toEqual([]);
  });

  it('reads no code of another system as two activities', () => {
    const read = activityCodes.flatMap((code) => {
      const { snomed = [], snomedOnLine = [] } = activityRow(code);
      return [...snomed, ...snomedOnLine];
    });
    expect(new Set(read).size).toBe(read.length);
  });
});

describe('the table of findings', () => {
  it('refers to the value sets that are there, and lists the others', () => {
    expect(valuesOf('dressing-condition')).toEqual(dressingConditions.map(([code]) => code));
    expect(valuesOf('connector-condition')).toEqual(connectorConditions.map(([code]) => code));
    expect(valuesOf('exit-site')).toEqual(['redness', 'swelling', 'tenderness', 'drainage', 'pus']);
    expect(valuesOf('blood-return')).toEqual(['brisk', 'sluggish', 'none']);
    // A hospital may grade it in words of its own.
    expect(valuesOf('bleeding')).toBeUndefined();
    expect(valuesOf('body-temperature')).toBeUndefined();
  });

  it('has values for what is coded, and a unit for what is measured', () => {
    for (const code of findingCodes) {
      const { kind, values, valuesFrom, unit } = findingRow(code);
      if (kind === 'coded') expect((values === undefined) !== (valuesFrom === undefined), code).toBe(true);
      if (kind === 'quantity') expect(unit, code).toBeDefined();
      if (kind === 'components') expect(valuesOf(code)?.length, code).toBeGreaterThan(0);
    }
  });

  it.each([
    ['bleeding', 'absent', true],
    ['bleeding', 'present', false],
    ['flush-resistance', 'none', true],
    ['flush-resistance', 'some', false],
    // In words that are not ours.
    ['damage', 'none', true],
    ['fever', 'negative', true],
    ['fever', 'severe', false],
    // That there is no blood return is the worst there is to find.
    ['blood-return', 'none', false],
    ['blood-return', 'absent', false],
  ] as const)('%s %s says no: %s', (finding, value, no) => {
    expect(saysNo(finding, value)).toBe(no);
  });

  it('grades how far from open a lumen is', () => {
    expect(['brisk', 'sluggish', 'none', 'other'].map((one) => gradeOf('blood-return', one))).toEqual([
      0,
      1,
      2,
      undefined,
    ]);
    expect(['none', 'some', 'blocked'].map((one) => gradeOf('flush-resistance', one))).toEqual([0, 1, 2]);
    expect(gradeOf('damage', 'none')).toBeUndefined();
  });
});
