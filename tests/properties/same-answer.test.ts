import { dueBundle, dueCare, readRecords, renderTable, transactionFor, type LineCare } from '@dwellward/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entriesOf, runs, units, whenOf, type Entry, type Unit } from './generators.js';
import { widePolicy } from './policies.js';

const policy = widePolicy();

function answer(entries: readonly Entry[], when: ReturnType<typeof whenOf>) {
  const records = readRecords(entries);
  const cares = records.lines.map((line): LineCare => dueCare(line, policy, when));
  const bundle = JSON.stringify(dueBundle(records, cares, policy, when));
  return {
    bundle,
    table: renderTable(records, cares, when, { colour: true, columns: 100 }),
    transaction: JSON.stringify(transactionFor({ records, cares, policy, when, existing: [] })),
  };
}

function freeze<Value>(value: Value): Value {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const part of Object.values(value)) freeze(part);
  }
  return value;
}

const shuffled = units.chain((unit) =>
  fc
    .shuffledSubarray([...unit.resources], { minLength: unit.resources.length })
    .map((other): [Unit, readonly unknown[]] => [unit, other]),
);

describe('the same record', () => {
  it('gives the same answer to the byte, whatever the order of its resources', () => {
    fc.assert(
      fc.property(shuffled, ([unit, other]) => {
        const when = whenOf(unit);
        expect(answer(entriesOf(other), when)).toEqual(answer(entriesOf(unit.resources), when));
      }),
      runs(),
    );
  });

  it('gives the same answer to the byte with the keys of its resources in another order', () => {
    const turned = (value: unknown): unknown =>
      Array.isArray(value)
        ? value.map(turned)
        : typeof value === 'object' && value !== null
          ? Object.fromEntries(
              Object.entries(value)
                .reverse()
                .map(([key, part]) => [key, turned(part)]),
            )
          : value;
    fc.assert(
      fc.property(units, (unit) => {
        const when = whenOf(unit);
        expect(answer(entriesOf(unit.resources.map(turned)), when)).toEqual(
          answer(entriesOf(unit.resources), when),
        );
      }),
      runs(0.5),
    );
  });

  it('gives the same answer twice, and is not written to', () => {
    fc.assert(
      fc.property(units, (unit) => {
        const when = freeze(whenOf(unit));
        const entries = freeze(entriesOf(unit.resources));
        const before = JSON.stringify(entries);
        expect(answer(entries, when)).toEqual(answer(entries, when));
        expect(JSON.stringify(entries)).toBe(before);
      }),
      runs(0.5),
    );
  });

  it('is not written to by what is made of it: records, cares and policy stay as they are', () => {
    freeze(
      policy.rules.map(({ id, scopes, begins, citations, work }) => ({
        id,
        scopes,
        begins,
        citations,
        work,
      })),
    );
    fc.assert(
      fc.property(units, (unit) => {
        const when = freeze(whenOf(unit));
        const records = freeze(readRecords(entriesOf(unit.resources)));
        const cares = freeze(records.lines.map((line) => dueCare(line, policy, when)));
        dueBundle(records, cares, policy, when);
        renderTable(records, cares, when, { colour: false, columns: 80 });
        const first = transactionFor({ records, cares, policy, when, existing: [] });
        const existing = freeze(
          (first?.entry ?? []).flatMap(({ resource }, i) => (resource ? [{ ...resource, id: `e${i}` }] : [])),
        );
        expect(() =>
          transactionFor({ records, cares, policy, when, existing: existing as never }),
        ).not.toThrow();
      }),
      runs(0.5),
    );
  });

  it('gives an answer in which every time stands in the unit’s zone and every item names its facts', () => {
    fc.assert(
      fc.property(units, (unit) => {
        const when = whenOf(unit);
        for (const line of readRecords(entriesOf(unit.resources)).lines) {
          const care = dueCare(line, policy, when);
          for (const item of care.items) {
            for (const text of [item.opens, item.dueBy])
              expect(Number.isNaN(Date.parse(text)), text).toBe(false);
            expect(Date.parse(item.opens)).toBeLessThanOrEqual(Date.parse(item.dueBy));
            const used = new Set(item.facts.map(({ fact }) => fact));
            const { applicability, start } = item.rule;
            const asked = [...applicability.uses, ...(start?.uses ?? [])];
            // When it began is told by what it counts from.
            for (const fact of asked.filter((name) => name !== 'began'))
              expect(used.has(fact), fact).toBe(true);
            expect(new Set(care.items.map(({ id }) => id)).size).toBe(care.items.length);
          }
        }
      }),
      runs(0.5),
    );
  });
});
