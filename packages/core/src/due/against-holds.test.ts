import { describe, expect, it } from 'vitest';
import { berlin, care, event, forbidAfter, line, patient, policyOf, rule } from '../record.kit.js';

// That what was done against a hold has to be told: common practice, no source. What was not forbidden must not be told
// beside it, or the one that matters is lost among the others.

const inserted = event('insertion', '2026-11-20T09:00:00+01:00');
const repair = event('repair', '2026-11-24T10:00:00+01:00', { id: 'repair' });
const noFlush = policyOf(
  rule('No flush', forbidAfter('repair', { value: 48, unit: 'h' }), { activity: 'flush', scope: 'line' }),
);
const told = (activity: string, at: string, now = '2026-11-25T12:00:00+01:00') =>
  care(
    [patient(), line(), inserted, repair, event(activity, at, { id: 'done' })],
    noFlush,
    berlin(now),
  ).issues.filter(({ code }) => code === 'against-a-hold');

describe('what was done while a hold forbade it', () => {
  it('is told, with the event that began the hold', () => {
    expect(told('flush', '2026-11-24T12:00:00+01:00')).toMatchObject([
      { severity: 'high', resource: 'Procedure/done', related: ['Procedure/repair'] },
    ]);
  });

  it.each(['dressing-change', 'lock', 'site-assessment', 'repair'])(
    'is not told of what it does not forbid: %s',
    (activity) => {
      expect(told(activity, '2026-11-24T12:00:00+01:00')).toEqual([]);
    },
  );

  it('is not told of what was done before it, or at the moment it began', () => {
    expect(told('flush', '2026-11-24T09:59:00+01:00')).toEqual([]);
    expect(told('flush', '2026-11-24T10:00:00+01:00')).toEqual([]);
    expect(told('flush', '2026-11-24T10:01:00+01:00')).toHaveLength(1);
  });

  it('is told until the hold is over', () => {
    const at = '2026-11-24T12:00:00+01:00';
    expect(told('flush', at, '2026-11-26T09:59:00+01:00')).toHaveLength(1);
    expect(told('flush', at, '2026-11-26T10:00:00+01:00')).toEqual([]);
  });
});
