import { describe, expect, it } from 'vitest';
import { berlin, care, days, event, every, line, lumen, on, patient, policyOf, rule } from '../record.kit.js';

// A target never has two open items of one activity: of a line with one lumen, line and lumen are one target.

const test = { activity: 'patency-assessment' } as const;
const policy = policyOf(
  rule('of-the-line', every(days(2)), { ...test, scope: 'line' }),
  rule('of-the-lumen', every(days(7)), { ...test, scope: 'lumen' }),
);
const noon = berlin('2026-11-25T12:00:00+01:00');
const base = [patient(), line(), event('insertion', '2026-11-01T10:00:00+01:00')];
const done = event('patency-assessment', '2026-11-24T10:00:00+01:00');
const said = (resources: typeof base) =>
  care(resources, policy, noon).items.map(({ rule: { id }, target, dueBy, others }) => [
    id,
    target.scope,
    target.ref,
    dueBy.slice(0, 10),
    others.length,
  ]);

describe('rules of one activity for the line and for its lumen', () => {
  it('make one item of a line with one lumen, the most protective', () => {
    expect(said([...base, done])).toEqual([['of-the-line', 'lumen', 'Device/line', '2026-11-26', 1]]);
  });

  it('make one item of a line whose one lumen has a Device of its own', () => {
    const lumenDone = event('patency-assessment', '2026-11-24T10:00:00+01:00', on('red'));
    expect(said([...base, lumen('red'), lumenDone])).toEqual([
      ['of-the-line', 'lumen', 'Device/red', '2026-11-26', 1],
    ]);
  });

  it('stand beside each other where there are several lumens', () => {
    expect(said([...base, lumen('blue'), lumen('red'), done]).map(([id, , ref]) => [id, ref])).toEqual([
      ['of-the-lumen', 'Device/blue'],
      ['of-the-line', 'Device/line'],
      ['of-the-lumen', 'Device/red'],
    ]);
  });

  it('leave a policy alone that asks only for the line', () => {
    const only = policyOf(rule('of-the-line', every(days(2)), { ...test, scope: 'line' }));
    expect(care([...base, done], only, noon).items.map(({ target }) => target.scope)).toEqual(['line']);
  });
});
