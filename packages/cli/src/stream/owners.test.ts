import { expect, it } from 'vitest';
import { Owners } from './owners.js';

function usedBy(count: number): { readonly owners: Owners; readonly ofWard: ReadonlySet<string> } {
  const owners = new Owners();
  owners.device('Device/monitor', [], ['Device/monitor']);
  for (let i = 0; i < count; i++) owners.uses(`Patient/${i}`, 'Device/monitor');
  return { owners, ofWard: owners.settle() };
}

it('joins the eight patients who use one Device of nobody, and no more of them', () => {
  const few = usedBy(8);
  expect([...few.ofWard]).toEqual([]);
  expect(few.owners.groupOf('Patient/7')).toBe('Patient/0');
  expect(few.owners.groupOf('Device/monitor')).toBe('Patient/0');
  const many = usedBy(9);
  expect([...many.ofWard]).toEqual(['Device/monitor']);
  expect(many.owners.groupOf('Patient/8')).toBe('Patient/8');
});

it('joins no one by a Device that is not in the record', () => {
  const owners = new Owners();
  owners.uses('Patient/a', 'Device/elsewhere');
  owners.uses('Patient/b', 'Device/elsewhere');
  owners.settle();
  expect(owners.groupOf('Patient/b')).toBe('Patient/b');
});
