import { describe, expect, it } from 'vitest';
import { findingsReadBy, readsFinding } from './index.js';
import { act, done, every, found, rulesOf, until, when, type Json } from './plan.kit.js';

const rules = rulesOf(
  act('some', 'dressing-change', { trigger: [found('dressing-condition', 'damp', 'soiled')] }),
  act('any', 'repair', { trigger: [found('damage'), done('repair')] }),
  act('ended', 'patency-assessment', {
    trigger: [done('repair')],
    condition: [when('%line.cuffed'), until('%found.bloodReturn.brisk >= %began or %found.damage >= %began')],
  }),
  act('begun', 'bath', {
    trigger: [done('repair')],
    condition: [when("%latest.bodyTemperature >= 38 'Cel'", 'start')],
  }),
  act('moved', 'tip-confirmation', { condition: [when("%line.externalLengthChange > 2 'cm'")] }),
  act('plain', 'bath', { timingTiming: every(1, 'd') } satisfies Json),
);
const of = (id: string) => {
  const rule = rules[id];
  if (rule === undefined) throw new Error(`no rule ${id}`);
  return rule;
};

// What no rule reads is said to be read by none: a finding that is left out here would be told as unread though it brings
// care, and one too many would let an unread one go by in silence.
describe('the findings that a rule reads', () => {
  it.each([
    [
      'some',
      'those of its trigger, with their values',
      [{ finding: 'dressing-condition', values: ['damp', 'soiled'] }],
    ],
    ['any', 'with any value where the trigger names none, and no act', [{ finding: 'damage' }]],
    ['ended', 'those of its stop', [{ finding: 'blood-return', values: ['brisk'] }, { finding: 'damage' }]],
    ['begun', 'those of its start', [{ finding: 'body-temperature' }]],
    ['moved', 'what a fact is judged by', [{ finding: 'external-length' }]],
    ['plain', 'none', []],
  ])('%s: %s', (id, _, expected) => {
    expect(findingsReadBy(of(id))).toStrictEqual(expected);
  });

  it.each<[string, Parameters<typeof readsFinding>[1], string | undefined, boolean]>([
    ['some', 'dressing-condition', 'damp', true],
    ['some', 'dressing-condition', 'loose', false],
    ['some', 'dressing-condition', undefined, false],
    ['some', 'damage', 'damp', false],
    ['any', 'damage', 'crack', true],
    ['any', 'damage', undefined, true],
    ['any', 'dressing-condition', undefined, false],
    ['ended', 'blood-return', 'brisk', true],
    ['ended', 'blood-return', 'none', false],
    ['ended', 'damage', undefined, true],
    ['plain', 'damage', undefined, false],
  ])('%s reads %s %s: %s', (id, finding, value, expected) => {
    expect(readsFinding([of(id)], finding, value)).toBe(expected);
    expect(readsFinding([of('plain'), of(id)], finding, value)).toBe(expected);
    expect(readsFinding([], finding, value)).toBe(false);
  });
});
