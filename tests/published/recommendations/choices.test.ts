import { calculators } from '@dwellward/calculators/catalog';
import {
  bundledPlan,
  bundledPlanNames,
  choiceLayerNames,
  choices,
  diffPolicies,
  readPolicy,
  scheduleText,
  type BundledPlanName,
  type Policy,
} from '@dwellward/policy';
import { describe, expect, it } from 'vitest';

// The 23 points on which the published sources differ are each a choice by name: nothing is merged in silence, and
// every layer, rule and calculator that the table names is there.

function policyOf(...names: BundledPlanName[]): Policy {
  const reading = readPolicy(names.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}
const base = policyOf('base');

describe('the choices', () => {
  it('are all 23, each with a name of its own and more than one reading', () => {
    expect(choices.map(({ number }) => number)).toEqual(Array.from({ length: 23 }, (_, i) => i + 1));
    expect(new Set(choices.map(({ name }) => name)).size).toBe(23);
    for (const { name, about, readings, taken, why } of choices) {
      expect(readings.length, name).toBeGreaterThan(1);
      expect(`${taken}${why}`.length, name).toBeGreaterThan(20);
      for (const text of [name, about, taken, why, ...readings.flatMap(({ says, source }) => [says, source])])
        expect(text, name).not.toBe('');
      for (const { mark } of readings) expect(['seen', 'reported', 'from memory'], name).toContain(mark);
    }
  });

  it.each(choices.map((choice) => [choice.name, choice] as const))('%s: every place exists', (_, choice) => {
    for (const { says, source, place } of choice.readings) {
      expect(source.length).toBeGreaterThan(2);
      if (place.by === 'base') {
        for (const id of place.rules) expect(base.rules.map((rule) => rule.id)).toContain(id);
      } else if (place.by === 'layer') {
        expect(bundledPlanNames, says).toContain(place.layer);
      } else if (place.by === 'calculator') {
        const entry = Object.values(calculators).find(({ name }) => name === place.calculator);
        expect(entry, place.calculator).toBeDefined();
        if (place.input) expect(Object.keys(entry!.inputs)).toContain(place.input[0]);
      } else {
        expect((place.by === 'later' ? place.part : place.why).length).toBeGreaterThan(10);
      }
    }
  });

  // A hang time and the life of a set are two items; the set of blood or fat has the shortest life that a source gives.
  it('C9: for blood and fat the base takes the shortest life of a set, and every longer one gives its reason', () => {
    const ofSets = choices.filter(({ name }) => /^(blood|fat-emulsion)-set$/.test(name));
    expect(ofSets).toHaveLength(2);
    for (const { name, readings } of ofSets) {
      const hours = readings.map((reading) => reading.hours ?? Infinity);
      const shortest = Math.min(...hours);
      expect(readings[0]?.place.by, name).toBe('base');
      for (const reading of readings) {
        expect(reading.place.by === 'base', `${name}: ${reading.says}`).toBe(reading.hours === shortest);
        if (reading.place.by === 'layer') {
          const [rule] = policyOf('base', reading.place.layer).rules.filter(
            ({ id, origin }) => id.startsWith('administration-set-change-') && origin.url.includes('choice-'),
          );
          expect(rule && scheduleText(rule), reading.says).toBe(`every ${reading.hours} hours`);
        }
      }
      const rule = base.rules.find(
        ({ id }) => id === `administration-set-change-${name.replace('-set', '')}`,
      );
      expect(rule && scheduleText(rule)).toBe(`every ${shortest} hours`);
    }
  });

  it.each([
    ['blood', 'every 4 hours'],
    ['fat-emulsion', 'every 12 hours'],
    ['nutrition-with-fat', 'every 24 hours'],
  ])('C9: no choice changes how long the bag of %s may hang', (what, schedule) => {
    for (const layers of [[], ...choiceLayerNames.map((name) => [name])]) {
      const rule = policyOf('base', ...layers).rules.find(({ id }) => id === `bag-change-${what}`);
      expect(rule && scheduleText(rule), layers.join()).toBe(schedule);
    }
  });

  it('name every choice layer', () => {
    const named = choices.flatMap(({ readings }) =>
      readings.flatMap(({ place }) => (place.by === 'layer' ? [place.layer as string] : [])),
    );
    expect(choiceLayerNames.filter((name) => !named.includes(name))).toEqual([]);
  });
});

describe('a choice layer', () => {
  it.each([...choiceLayerNames])('%s changes the base, and nothing beside what it is about', (name) => {
    const { added, removed, switchedOff, changed } = diffPolicies(base, policyOf('base', name));
    const touched = added.length + removed.length + switchedOff.length + changed.length;
    expect(touched).toBeGreaterThan(0);
    // At most: the locks of five kinds of lines, and the two after use.
    expect(touched).toBeLessThanOrEqual(7);
  });

  // What each source says, typed in from it.
  it.each([
    ['choice-set-96-hours', 'administration-set-change', 'every 96 hours', undefined],
    ['choice-set-cdc-2002-72-hours', 'administration-set-change', 'every 7 days', '72 h'],
    [
      'choice-fat-emulsion-set-cdc-24-hours',
      'administration-set-change-fat-emulsion',
      'every 24 hours',
      undefined,
    ],
    ['choice-blood-set-cdc-24-hours', 'administration-set-change-blood', 'every 24 hours', undefined],
    ['choice-blood-set-epic3-12-hours', 'administration-set-change-blood', 'every 12 hours', undefined],
    [
      'choice-parenteral-nutrition-set-96-hours',
      'administration-set-change-parenteral-nutrition',
      'every 96 hours',
      undefined,
    ],
    ['choice-transparent-dressing-5-days', 'dressing-change-transparent', 'every 5 days', undefined],
    [
      'choice-transparent-dressing-tunneled-weekly',
      'dressing-change-transparent-tunneled',
      'every 7 days',
      '7 d',
    ],
    ['choice-connector-cdc-72-hours', 'needleless-connector-change', 'every 7 days', '72 h'],
    ['choice-port-8-weeks', 'flush-port-not-accessed', 'every 8 weeks', undefined],
    ['choice-port-8-weeks', 'lock-port-not-accessed', 'every 8 weeks', undefined],
    ['choice-port-3-months', 'flush-port-not-accessed', 'every 3 months', undefined],
    ['choice-port-3-months', 'lock-port-not-accessed', 'every 3 months', undefined],
    ['choice-dialysis-lock-weekly-enzyme', 'lock-dialysis-weekly-enzyme', 'every Monday at 08:00', undefined],
  ] as const)('%s: %s is %s, spacing %s', (name, id, schedule, spacing) => {
    const rule = policyOf('base', name).rules.find((one) => one.id === id);
    expect(rule && scheduleText(rule)).toBe(schedule);
    const given = rule?.minimumSpacing;
    expect(given && `${given.value} ${given.unit}`).toBe(spacing);
    expect(rule?.origin.url).toContain(name);
    expect(rule?.work.cautions[0]).toContain('Local policy');
  });

  it.each([
    ['choice-intermittent-set-cdc-unresolved', 'administration-set-change-intermittent'],
    ['choice-parenteral-nutrition-set-cdc-none', 'administration-set-change-parenteral-nutrition'],
  ] as const)('%s leaves %s out', (name, id) => {
    expect(base.rules.map((rule) => rule.id)).toContain(id);
    expect(policyOf('base', name).rules.map((rule) => rule.id)).not.toContain(id);
  });

  it.each([
    ['choice-lock-saline', 'lock-picc-tunneled', /sodium chloride 0\.9 %/],
    ['choice-lock-heparin', 'lock-picc-tunneled', /heparin lock solution/],
    ['choice-dialysis-lock-heparin-1000', 'lock-dialysis', /heparin 1000 units\/mL/],
    ['choice-dialysis-lock-heparin-5000', 'lock-dialysis', /heparin 5000 units\/mL/],
    ['choice-dialysis-lock-citrate-4', 'lock-dialysis', /citrate 4 %/],
  ] as const)('%s: %s names %s in place of the solution as prescribed', (name, id, supply) => {
    const rule = policyOf('base', name).rules.find((one) => one.id === id)!;
    expect(rule.work.supplies.filter((text) => supply.test(text))).toHaveLength(1);
    expect(rule.work.supplies).not.toContain('lock solution as prescribed');
    expect(rule.begins).toEqual(base.rules.find((one) => one.id === id)!.begins);
  });

  it.each([
    ['choice-chlorhexidine-dressing-cdc-18-years', /from 18 years/],
    ['choice-chlorhexidine-dressing-shea-2-months', /above 2 months/],
  ] as const)('%s says so on the work', (name, caution) => {
    const rule = policyOf('base', name).rules.find(({ id }) => id === 'dressing-change-chlorhexidine')!;
    expect(rule.work.cautions.some((text) => caution.test(text))).toBe(true);
  });
});
