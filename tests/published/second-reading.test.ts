import {
  bundledPlanNames,
  choiceLayerNames,
  bundledPlan,
  defaultLayerNames,
  defaultPlans,
  readPolicy,
  type Rule,
  type Span,
} from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { secondReading } from './second-reading-rows.js';
import { unitReading } from './second-reading-units.js';

// A second look at every rule of the default policy and of the layers of units, beside the sentence of its source: a rule without a row fails, and
// so does a row with other numbers than its rule.

function rulesOf(plans: readonly unknown[]): readonly Rule[] {
  const reading = readPolicy(plans);
  if (!reading.ok) throw new Error(`Refused: ${JSON.stringify(reading.findings)}`);
  return reading.policy.rules;
}

const planOf = ({ origin }: Rule) => origin.url.split('/').at(-1);
const byDefault = rulesOf(defaultPlans());
const unitLayers = bundledPlanNames.filter(
  (name) => ![...defaultLayerNames, ...choiceLayerNames].some((other) => other === name),
);
const ofUnits = unitLayers.flatMap((name) =>
  rulesOf([bundledPlan('base'), bundledPlan(name)]).filter((rule) => planOf(rule) === name),
);
// One id may be that of a rule by default and of a layer that replaces it.
const rules: ReadonlyMap<string, Rule> = new Map(
  [...byDefault, ...ofUnits].map((rule) => [`${planOf(rule)} ${rule.id}`, rule]),
);

/** The numbers of a compiled rule: its times, and every limit in its conditions. */
function numbersOf(rule: Rule): string[] {
  const { begins } = rule;
  const span = (name: string, one: Span | undefined) => (one ? [`${name} ${one.value} ${one.unit}`] : []);
  const texts = [rule.applicability, rule.start, rule.stop].map((condition) => condition?.meaning ?? '');
  const limits = texts.flatMap((text) => [
    ...[...text.matchAll(/%([\w.]+) (<=|>=|<|>|=) ([\d.]+)(?: '([^']+)')?/g)].map(
      ([, name, sign, value, unit]) => `${name} ${sign} ${value}${unit ? ` ${unit}` : ''}`,
    ),
    ...[...text.matchAll(/\+ \d+ \w+/g)].map(([found]) => found),
  ]);
  return [
    ...(begins.kind === 'interval'
      ? [...span('every', begins.every), ...span('until', begins.untilAfterInsertion)]
      : []),
    ...(begins.kind === 'interval' && begins.atMost !== undefined ? [`at most ${begins.atMost}`] : []),
    ...(begins.kind === 'before' ? span('before', begins.offset) : []),
    ...(begins.kind === 'before' || begins.kind === 'fixed-times' ? (begins.timesOfDay ?? []) : []).map(
      (time) => `at ${time}`,
    ),
    ...(begins.kind === 'triggered' ? span('after', begins.after) : []),
    ...span('lasts', rule.lasts),
    ...span('lead', rule.lead),
    ...span('spacing', rule.minimumSpacing),
    ...new Set(limits),
  ].sort();
}

const rows = [...secondReading, ...unitReading].flatMap((row) =>
  row.rules.map((id) => ({ ...row, id: `${row.plan} ${id}` })),
);

describe('the second reading', () => {
  it('C20: every rule of the default policy and of the layers of units has a row of its own', () => {
    expect(rows.map(({ id }) => id).sort()).toEqual([...rules.keys()].sort());
    expect(unitLayers).toHaveLength(10);
  });

  it.each(rows.map((row) => [row.id, row] as const))('C20: %s has the numbers of its row', (id, row) => {
    const rule = rules.get(id);
    if (!rule) throw new Error(`There is no rule ${id}.`);
    expect(planOf(rule)).toBe(row.plan);
    expect([...(row.states ?? []), ...(row.reads ?? [])].sort()).toEqual(numbersOf(rule));
    expect(Math.min(row.sentence.length, row.source.length, row.verdict.length)).toBeGreaterThan(3);
  });

  it.each(rows.map((row) => [row.id, row] as const))('C20: %s is marked as far as it was read', (id, row) => {
    const marks = new Set(rules.get(id)?.citations.map(({ certainty }) => certainty));
    if (row.mark === 'seen') expect([...marks]).toContain('seen');
    else if (row.mark === 'common practice, no source') expect([...marks]).toContain('common-practice');
    else expect([...marks]).not.toEqual(['seen']);
  });
});
