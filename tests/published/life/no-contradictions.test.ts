import { activityRow } from '@dwellward/profiles';
import type { DueItem } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import { at, careOf, event, finding, fromSkin, lineOf, policyOf, stepsOf, type Resources } from './line.js';

// Everything that can be found wrong, two at a time: what is asked for then can be done together. That a piece of
// catheter calls for no position, and air for the left side: an expert in a forum (reported), emedicine 761367 (seen).

const policy = policyOf('trouble', 'occlusion', 'repair-care', 'removal', 'post-insertion');

const out = event('out', 'removal', at('08:00:00'));
const when = at('09:00:00');
const length = (id: string, time: string, value: number) => ({
  ...finding(id, 'external-length', time),
  valueBoolean: undefined,
  valueQuantity: { value, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' },
});
const troubles: Readonly<Record<string, Resources>> = {
  air: [finding('air', 'air-entry', when)],
  'damage at the skin': [fromSkin(0.5, finding('damage', 'damage', when, 'cut', 'red'))],
  'damage of a lumen': [fromSkin(8, finding('leak', 'damage', when, 'leak', 'red'))],
  bleeding: [finding('bleeding', 'bleeding', when)],
  extravasation: [finding('extravasation', 'extravasation', when, undefined, 'red')],
  'a retained piece': [finding('retained', 'removed-catheter', when, 'incomplete')],
  'chest symptoms': [finding('chest', 'chest-symptoms', when)],
  sepsis: [finding('sepsis', 'sepsis-signs', when)],
  fever: [finding('fever', 'fever', when)],
  redness: [finding('redness', 'exit-site', when, 'redness')],
  drainage: [finding('drainage', 'exit-site', when, 'drainage')],
  'tunnel signs': [finding('tunnel', 'tunnel-signs', when)],
  'no blood return': [finding('return', 'blood-return', when, 'none', 'red')],
  'a blocked lumen': [finding('blocked', 'flush-resistance', when, 'blocked', 'white')],
  'a sluggish lumen': [finding('sluggish', 'blood-return', when, 'sluggish', 'white')],
  migration: [finding('migration', 'migration', when)],
  'a pull of 3 cm': [length('before', '2026-11-10T10:30:00+01:00', 20), length('after', when, 23)],
  'a swollen arm': [finding('swollen', 'arm-neck-swelling', when)],
  'a soiled dressing': [finding('soiled', 'dressing-condition', when, 'soiled')],
  removal: [out],
  'a repair': [event('mended', 'repair', when)],
};

/** What cannot be followed together: no item says the one while another says the other. */
const contradictions: readonly (readonly [name: string, one: RegExp, other: RegExp])[] = [
  [
    'lie or keep still, and get up',
    /^(Lay the patient|Keep the patient)|left side/,
    /let the patient (sit )?up/i,
  ],
  ['press, and do not press', /^Press /, /no pressure|do not press/i],
  ['keep clamped, and draw back', /Keep the line clamped/, /draw back (?!.*clamp it instead)|Draw back/],
  ['keep still, and move', /limb still/, /lift the arm|have the patient turn/],
  ['dressing stays on, and is taken off', /stays on/, /[Tt]ake .*dressing off/],
];
/** Where a step says that nothing goes through, no item open at that time goes through that line. */
const nothingThrough = /Keep the line clamped|[Dd]o not use the line|nothing in or out/;

const openOf = (resources: Resources): DueItem[] =>
  careOf([...lineOf(), ...resources], policy, at('09:05:00')).items.filter(
    ({ state, heldBy }) => (state === 'due' || state === 'overdue') && heldBy === undefined,
  );

const names = Object.keys(troubles);
const pairs = names.flatMap((one, i) => names.slice(i).map((other) => [one, other] as const));

describe('first steps', () => {
  it(`C11: of ${pairs.length} pairs of findings none asks for two things that can’t both be done`, () => {
    const wrong: string[] = [];
    for (const [one, other] of pairs) {
      const both = one === other ? troubles[one] : [...(troubles[one] ?? []), ...(troubles[other] ?? [])];
      const items = openOf(both ?? []);
      const said = items.map((item) => ({ item, steps: stepsOf(item) }));
      for (const [name, a, b] of contradictions)
        for (const { item: first, steps } of said)
          for (const { item: second, steps: others } of said)
            if (steps.some((step) => a.test(step)) && others.some((step) => b.test(step)))
              wrong.push(`${one} + ${other}: ${name}: ${first.rule.id} / ${second.rule.id}`);
      const postures = new Set(
        said.flatMap(({ steps }) => steps.filter((step) => /^Lay the patient/.test(step))),
      );
      if (postures.size > 1) wrong.push(`${one} + ${other}: ${[...postures].join(' / ')}`);
      for (const { item, steps } of said.filter(({ steps }) =>
        steps.some((step) => nothingThrough.test(step)),
      ))
        for (const through of items)
          if (
            through !== item &&
            (activityRow(through.activity).throughLumen === true ||
              through.activity === 'blockage-response') &&
            (item.target.scope === 'line' || item.target.ref === through.target.ref)
          )
            wrong.push(
              `${one} + ${other}: ${item.rule.id} says “${steps.find((step) => nothingThrough.test(step))}”, and ${through.rule.id} is open`,
            );
    }
    expect([...new Set(wrong)]).toEqual([]);
  });

  it('C11: nobody is let up while the site bleeds, with air in the vein or with a piece of the line in the body', () => {
    const upAt = (...more: Resources) =>
      careOf([...lineOf(), out, ...more], policy, at('09:05:00')).items.find(
        ({ activity }) => activity === 'getting-up',
      )?.state;
    expect(upAt()).toBe('overdue');
    for (const trouble of ['bleeding', 'air', 'a retained piece'])
      expect(upAt(...(troubles[trouble] ?? [])), trouble).toBe('held');
    const stopped = finding('stopped', 'bleeding', at('09:03:00'), 'absent');
    expect(upAt(...(troubles['bleeding'] ?? []), stopped)).toBe('overdue');
  });

  it('C11: a piece of the line in the body calls for no position', () => {
    const item = openOf(troubles['a retained piece'] ?? []).find(
      ({ activity }) => activity === 'retained-catheter-response',
    );
    expect(stepsOf(item).join(' ')).not.toMatch(/left side|flat|lying|lie down/i);
    expect(stepsOf(item)[0]).toMatch(/^Keep the patient and the limb still/);
  });

  it('C20: in an arrest the patient lies flat on the back, and no step puts the head down', () => {
    const steps = stepsOf(
      openOf(troubles['air'] ?? []).find(({ activity }) => activity === 'air-entry-response'),
    );
    expect(steps.join(' ')).toMatch(/No pulse: flat on the back and resuscitate/);
    expect(steps.join(' ')).not.toMatch(/head down/i);
  });
});
