import { expect, it } from 'vitest';
import type { Version } from './care.js';
import { PendingChanges } from './pending.js';

const early = '2026-11-25T07:30:00.000Z';
const late = '2026-11-25T07:31:00.000Z';
const waits = (wanted: Version, read: Version | undefined) => {
  const pending = new PendingChanges();
  pending.add('p', { name: 'Procedure/1', version: wanted, patients: ['p'], mayBeLine: undefined });
  pending.looked('p', new Map(read === undefined ? [] : [['Procedure/1', read]]));
  return pending.patients.length === 1;
};

it.each<[string, boolean, Version, Version | undefined]>([
  ['it was not in what was read', true, { versionId: '2' }, undefined],
  [
    'an older version was',
    true,
    { versionId: '2', lastUpdated: late },
    { versionId: '1', lastUpdated: early },
  ],
  [
    'the same version was',
    false,
    { versionId: 'x', lastUpdated: late },
    { versionId: 'x', lastUpdated: late },
  ],
  ['a later one was', false, { versionId: 'x', lastUpdated: early }, { versionId: 'a', lastUpdated: late }],
  ['a lower number was, and no times are named', true, { versionId: '10' }, { versionId: '9' }],
  ['a higher number was, and no times are named', false, { versionId: '9' }, { versionId: '10' }],
  ['one was, and nothing is named', false, {}, {}],
])('a change that was seen where %s: waits %s', (_, waiting, wanted, read) => {
  expect(waits(wanted, read)).toBe(waiting);
});

it('a change that no look shows is let go after ten, and named', () => {
  const pending = new PendingChanges();
  pending.add('p', {
    name: 'Procedure/1',
    version: { versionId: '1' },
    patients: ['p'],
    mayBeLine: undefined,
  });
  const lost = Array.from({ length: 10 }, () => pending.looked('p', new Map()));
  expect(lost.slice(0, 9).flat()).toEqual([]);
  expect(lost[9]).toEqual(['Procedure/1']);
  expect(pending.patients).toEqual([]);
});
