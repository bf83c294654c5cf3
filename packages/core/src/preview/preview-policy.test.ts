import { describe, expect, it } from 'vitest';
import type { Policy, Rule } from '@dwellward/policy';
import {
  berlin,
  days,
  dressing,
  event,
  every,
  forbidAfter,
  forbidWhile,
  hours,
  line,
  neutrophils,
  patient,
  policyOf,
  read,
  rule,
} from '../record.kit.js';
import { previewPolicy } from './preview-policy.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const records = read(
  patient(),
  line(),
  event('insertion', '2026-11-01T09:00:00+01:00'),
  event('dressing-change', '2026-11-24T09:00:00+01:00', dressing('gauze-dressing')),
  event('repair', '2026-11-25T11:00:00+01:00'),
);
const two = rule('two', every(days(2)));

function preview(before: Policy, after: Policy) {
  const { changes, ...rest } = previewPolicy(records, before, after, when);
  return {
    ...rest,
    changes: changes.map(({ kind, dueByShiftMs, rule: by, notKnown }) => [
      kind,
      dueByShiftMs,
      by.id,
      notKnown,
    ]),
  };
}

const with_ = (...rules: Rule[]) => policyOf(...rules);

describe('an item', () => {
  it.each<[string, Rule[], Rule[], unknown[]]>([
    ['stays', [two], [two], []],
    ['is due earlier', [two], [two, rule('one', every(days(1)))], [['earlier', -86_400_000, 'one', []]]],
    ['is due later', [two], [rule('two', every(days(3)))], [['later', 86_400_000, 'two', []]]],
    [
      'opens at another time',
      [two],
      [rule('two', every(days(2)), { lead: hours(1) })],
      [['opens', 0, 'two', []]],
    ],
    ['appears', [], [two], [['appears', undefined, 'two', []]]],
    ['vanishes', [two], [], [['vanishes', undefined, 'two', []]]],
    [
      'has the same time for another reason',
      [two],
      [rule('other', every(days(2)))],
      [['reason', 0, 'other', []]],
    ],
    [
      'moves by what is not known',
      [two],
      [two, rule('low', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" })],
      [['earlier', -86_400_000, 'low', ['labs.anc']]],
    ],
  ])('%s', (_, before, after, expected) => {
    const { changes, same } = preview(with_(...before), with_(...after));
    expect(changes).toEqual(expected);
    expect(same).toBe(expected.length === 0 ? 1 : 0);
  });

  it('moves by what is known, where it is', () => {
    const low = rule('low', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" });
    const known = read(
      patient(),
      line(),
      event('insertion', '2026-11-01T09:00:00+01:00'),
      event('dressing-change', '2026-11-24T09:00:00+01:00', dressing('gauze-dressing')),
      neutrophils(0.1, '2026-11-25T06:00:00+01:00'),
    );
    const { changes } = previewPolicy(known, policyOf(two), policyOf(two, low), when);
    expect(changes).toMatchObject([{ kind: 'earlier', rule: { id: 'low' }, notKnown: [] }]);
  });
});

describe('a hold', () => {
  const none = rule('none', forbidAfter('repair', hours(2)), { scope: 'line' });
  const overdue = rule('two', every(hours(20)));

  it('that is new is told, with the item that it holds', () => {
    const { changes, holds, changedPatients } = preview(policyOf(overdue), policyOf(overdue, none));
    // Due by 05:00; held from 11:00 to 13:00, and so due by 13:00.
    expect(changes).toEqual([['later', 8 * 3_600_000, 'two', []]]);
    expect(holds).toMatchObject([{ kind: 'appears', hold: { until: '2026-11-25T13:00:00+01:00' } }]);
    expect(changedPatients).toEqual(['Patient/p']);
  });

  it('that is gone is told', () => {
    const { holds } = preview(policyOf(two, none), policyOf(two));
    expect(holds).toMatchObject([{ kind: 'vanishes' }]);
  });

  it('that waits for an event holds an item at the same time', () => {
    const waits = rule('waits', forbidWhile('%last.teaching.empty()'), { scope: 'line' });
    const { changes } = preview(policyOf(overdue), policyOf(overdue, waits));
    expect(changes).toEqual([['held', 0, 'two', []]]);
    expect(preview(policyOf(overdue, waits), policyOf(overdue)).changes).toEqual([
      ['released', 0, 'two', []],
    ]);
  });
});
