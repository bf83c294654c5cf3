import { dueCare, readRecords, type LineCare } from '@dwellward/core';
import { bundledPlan, bundledPlanNames, readPolicy, type Policy } from '@dwellward/policy';
import type { PlanDefinition } from 'fhir/r4.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entriesOf, runs, units, whenOf, type Unit } from './generators.js';

const dayMs = 86_400_000;
const dateOf = (ms: number) => new Date(ms).toISOString().slice(0, 10);

function policyOf(plans: readonly unknown[]): Policy {
  const reading = readPolicy(plans);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const plans: readonly PlanDefinition[] = bundledPlanNames.map(bundledPlan);
const whole = policyOf(plans);

/** The plan as it is until the day before, and the same again as a version of another name from the day on. */
function inTwo(plan: PlanDefinition, dayMsUtc: number): readonly PlanDefinition[] {
  return [
    { ...plan, effectivePeriod: { end: dateOf(dayMsUtc - dayMs) } },
    { ...plan, version: 'another', effectivePeriod: { start: dateOf(dayMsUtc) } },
  ];
}

/** Due care without the words for where a rule was written. */
function said(care: LineCare): unknown {
  return JSON.parse(
    JSON.stringify(care, (key, value: unknown) => (key === 'origin' ? undefined : value)),
  ) as unknown;
}

const caresOf = (unit: Unit, policy: Policy): readonly LineCare[] =>
  readRecords(entriesOf(unit.resources)).lines.map((line) => dueCare(line, policy, whenOf(unit)));

/** A unit with a day near its moment, before it more often than after. */
const withDay = fc
  .tuple(units, fc.integer({ min: -12, max: 2 }))
  .map(([unit, days]) => [unit, unit.asOfMs + days * dayMs] as const);

describe('a policy over time', () => {
  it('in two versions of equal content gives the same as in one, apart from the version named', () => {
    fc.assert(
      fc.property(withDay, ([unit, day]) => {
        const split = policyOf(plans.flatMap((plan) => inTwo(plan, day)));
        expect(caresOf(unit, split).map(said)).toEqual(caresOf(unit, whole).map(said));
      }),
      runs(0.3),
    );
  });

  it('is its first version alone until the second comes into force', () => {
    const [base] = plans;
    if (!base) throw new Error('there is a base');
    fc.assert(
      fc.property(units, (unit) => {
        const later = unit.asOfMs + 2 * dayMs;
        const first = { ...base, effectivePeriod: { end: dateOf(later - dayMs) } };
        const second = { ...base, version: 'another', effectivePeriod: { start: dateOf(later) }, action: [] };
        const both = caresOf(unit, policyOf([first, second]));
        expect(both.map(said)).toEqual(caresOf(unit, policyOf([base])).map(said));
      }),
      runs(0.3),
    );
  });

  it('never has a rule open or due before the version that brought it', () => {
    const [base, ...layers] = plans;
    if (!base) throw new Error('there is a base');
    fc.assert(
      fc.property(withDay, ([unit, day]) => {
        const from = dateOf(day);
        const added = layers.map((plan) => ({ ...plan, effectivePeriod: { start: from } }));
        // Whatever the zone, the day begins less than a day before its midnight in UTC.
        const earliest = Date.parse(`${from}T00:00:00Z`) - dayMs;
        // A rule of the base that a layer only replaces has been there before.
        const there = new Set(
          base.action?.flatMap(({ id, action = [] }) => [id, ...action.map((one) => one.id)]),
        );
        for (const { items } of caresOf(unit, policyOf([base, ...added]))) {
          for (const { rule, opens, dueBy } of items.filter(
            (item) => item.rule.origin.layer > 0 && !item.rule.origin.order && !there.has(item.rule.id),
          )) {
            expect([rule.id, Date.parse(opens) >= earliest, Date.parse(dueBy) >= earliest]).toEqual([
              rule.id,
              true,
              true,
            ]);
          }
        }
      }),
      runs(0.3),
    );
  });
});
