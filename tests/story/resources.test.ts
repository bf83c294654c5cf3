import { isMoment, oneLineSixtyDays } from '@dwellward/fixtures';
import { expect, it } from 'vitest';
import { faultsOf } from '../conformance/r4-validators.js';

const resources = oneLineSixtyDays().steps.flatMap((step) => (isMoment(step) ? [] : [step.resource]));

it('is charted in valid R4, by two independent validators', () => {
  expect(resources.length).toBeGreaterThan(400);
  const faults = resources.flatMap((one) =>
    faultsOf(one).map((fault) => `${one.resourceType}/${one.id ?? ''}: ${fault}`),
  );
  expect(faults).toEqual([]);
});

it('points only to what is charted', () => {
  const charted = new Set(resources.map(({ resourceType, id }) => `${resourceType}/${id ?? ''}`));
  const pointed = [...JSON.stringify(resources).matchAll(/"reference":"([^"]+)"/g)].map((found) => found[1]);
  expect(pointed.length).toBeGreaterThan(400);
  expect([...new Set(pointed)].filter((one) => !charted.has(one!))).toEqual([]);
});

it('never takes the id of one thing for another: a resource that is charted again keeps its type and its subject', () => {
  const first = new Map<string, string>();
  for (const one of resources) {
    const { code, subject } = one as { code?: unknown; subject?: unknown };
    const told = JSON.stringify([code, subject]);
    const key = `${one.resourceType}/${one.id ?? ''}`;
    expect(first.get(key) ?? told, key).toBe(told);
    first.set(key, told);
  }
});
