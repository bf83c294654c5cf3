import { describe, expect, it } from 'vitest';
import { conditionParts } from './condition-parts.js';

const partsOf = (meaning: string) => conditionParts({ meaning });
const yes = (fact: string) => ({ kind: 'yes', fact });
const known = (fact: string) => ({ kind: 'known', fact });
const not = (of: object) => ({ kind: 'not', of });
const compared = (fact: string, by: string, value: string, unit?: string) => ({
  kind: 'compared',
  fact,
  by,
  value,
  ...(unit === undefined ? {} : { unit }),
});
const oneOf = (fact: string, ...codes: string[]) => ({ kind: 'one-of', fact, codes });
const time = (fact: string, offsetMs = 0) => ({ fact, offsetMs });

describe('what a condition asks, as data that goes into words', () => {
  it.each<[string, object]>([
    ['', { kind: 'always' }],
    ['   ', { kind: 'always' }],
    ['true', { kind: 'always' }],
    ['false', { kind: 'never' }],
    ['%line.cuffed', yes('line.cuffed')],
    ['((%line.cuffed))', yes('line.cuffed')],
    ['%line.cuffed.not()', not(yes('line.cuffed'))],
    ['%line.cuffed = true', yes('line.cuffed')],
    ['%line.cuffed != false', yes('line.cuffed')],
    ['%line.cuffed = false', not(yes('line.cuffed'))],
    ['%line.cuffed != true', not(yes('line.cuffed'))],
    ['%labs.anc.exists()', known('labs.anc')],
    ['%labs.anc.empty()', not(known('labs.anc'))],
    ['%patient.ageDays < 28', compared('patient.ageDays', '<', '28')],
    ['%patient.ageDays <= 28', compared('patient.ageDays', '<=', '28')],
    ['%patient.ageDays > 28', compared('patient.ageDays', '>', '28')],
    ['%patient.ageDays >= 28', compared('patient.ageDays', '>=', '28')],
    ['%patient.ageDays = 28', compared('patient.ageDays', '=', '28')],
    ['%patient.ageDays != 28', compared('patient.ageDays', '!=', '28')],
    ["%labs.anc < 0.5 '10*9/L'", compared('labs.anc', '<', '0.5', '10*9/L')],
    ["%line.dressing = 'gauze-dressing'", oneOf('line.dressing', 'gauze-dressing')],
    ["%line.dressing != 'gauze-dressing'", not(oneOf('line.dressing', 'gauze-dressing'))],
    ["%line.type in ('picc' | 'midline')", oneOf('line.type', 'picc', 'midline')],
    ['%began >= %last.flush', { kind: 'times', left: time('began'), by: '>=', right: time('last.flush') }],
    [
      '%began < %last.flush + 2 hours',
      { kind: 'times', left: time('began'), by: '<', right: time('last.flush', 7_200_000) },
    ],
  ])('%s', (meaning, part) => {
    expect(partsOf(meaning)).toEqual(part);
  });

  it.each<[string, string, string]>([
    ['28 < %patient.ageDays', '>', '28'],
    ['28 <= %patient.ageDays', '>=', '28'],
    ['28 > %patient.ageDays', '<', '28'],
    ['28 >= %patient.ageDays', '<=', '28'],
    ['28 = %patient.ageDays', '=', '28'],
    ['28 != %patient.ageDays', '!=', '28'],
  ])('%s: the fact comes first, the sign turned', (meaning, by, value) => {
    expect(partsOf(meaning)).toEqual(compared('patient.ageDays', by, value));
  });

  it('joins what stands side by side in one list, and keeps and apart from or', () => {
    const three = [yes('line.cuffed'), yes('line.accessed'), known('labs.anc')];
    const text = ['%line.cuffed', '%line.accessed', '%labs.anc.exists()'];
    expect(partsOf(text.join(' and '))).toEqual({ kind: 'all', of: three });
    expect(partsOf(`${text[0]} and (${text[1]} and ${text[2]})`)).toEqual({ kind: 'all', of: three });
    expect(partsOf(text.join(' or '))).toEqual({ kind: 'any', of: three });
    expect(partsOf(`${text[0]} and (${text[1]} or ${text[2]})`)).toEqual({
      kind: 'all',
      of: [three[0], { kind: 'any', of: three.slice(1) }],
    });
    expect(partsOf(`(${text[0]} and ${text[1]}).not()`)).toEqual(not({ kind: 'all', of: three.slice(0, 2) }));
  });

  // Shown as it is written: half of a condition in words would be another condition.
  it.each([
    '%line.cuffed xor %line.accessed',
    '%line.cuffed implies %line.accessed',
    '%line.cuffed and iif(true, true, false)',
    '%line.cuffed or %line.colour',
    'iif(%line.cuffed, true, false)',
    'iif(true, true, false).not()',
    'iif(true, 1, 2) < 3',
    '%line.colour',
    '%line.colour.exists()',
    "%line.colour = 'red'",
    '%patient.ageDays',
    '%patient.ageDays.abs() < 3',
    "%line.type < 'picc'",
    "%line.type ~ 'picc'",
    '%patient.ageDays = %line.dwellDays',
    '%patient.ageDays < (1 | 2)',
    '28 ~ %patient.ageDays',
    "'picc' in %line.type",
    '%line.cuffed.allTrue()',
    '%began.toString().exists()',
    '%line.cuffed and',
  ])('%s: no parts of these kinds', (meaning) => {
    expect(partsOf(meaning)).toBeUndefined();
  });
});
