import type { Task } from 'fhir/r4.js';
import { identifierSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { ownIdentity, withIdentity } from './own.js';

const task = (...systems: string[]): Task => ({
  resourceType: 'Task',
  status: 'requested',
  intent: 'plan',
  ...(systems.length === 0 ? {} : { identifier: systems.map((system) => ({ system, value: system })) }),
});
const others = 'https://hospital.example/tasks';

describe('the identity of a Task of ours', () => {
  it('is the identifier of our system, and none of another', () => {
    expect(ownIdentity(task(others, identifierSystem.dueItem))).toBe(identifierSystem.dueItem);
    expect(ownIdentity(task(others))).toBeUndefined();
  });

  it('is none where a Task of somebody has no identifier at all', () => {
    expect(ownIdentity(task())).toBeUndefined();
    expect(withIdentity(task(), 'x')).toEqual(task());
  });

  it('is changed without those of others', () => {
    expect(withIdentity(task(others, identifierSystem.dueItem), 'x').identifier).toEqual([
      { system: others, value: others },
      { system: identifierSystem.dueItem, value: 'x' },
    ]);
  });
});
