import { defaultLayerNames, defaultPlans, defaultPolicy, overDefault, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { at, careOf, event, finding, itemOf, lineOf, stepsOf, type Resources } from './line.js';

// What everybody gets who chooses no policy: with it every emergency that is charted has its first steps, and nothing
// goes into what must not be used.

const policy = defaultPolicy();

describe('the default policy', () => {
  it('C7: is the base with the first year, first steps, blocked lumens and repair, in one call', () => {
    expect(defaultLayerNames).toEqual(['base', 'first-year', 'trouble', 'occlusion', 'repair-care']);
    expect(policy.layers.map(({ url }) => url.split('/').at(-1))).toEqual([...defaultLayerNames]);
  });

  it('C7: a layer of it is left out by its name alone, and others lie over it', () => {
    expect(overDefault([])).toEqual([...defaultLayerNames]);
    expect(overDefault(['base', 'neutropenia', 'our-unit.json'])).toEqual([
      ...defaultLayerNames,
      'neutropenia',
      'our-unit.json',
    ]);
    expect(overDefault(['neutropenia'], ['occlusion'])).toEqual([
      'base',
      'first-year',
      'trouble',
      'repair-care',
      'neutropenia',
    ]);
    expect(overDefault(['trouble'], ['trouble'])).not.toContain('trouble');
    const reading = readPolicy(defaultPlans(['trouble']));
    expect(reading.ok && reading.policy.layers).toHaveLength(4);
  });
});

interface Emergency {
  readonly charted: string;
  readonly resources: Resources;
  readonly activity: string;
  readonly priority: 'stat' | 'asap' | 'urgent';
  /** What nothing may be done with meanwhile, as `activity target`; none where the facts call for none. */
  readonly held?: readonly string[];
  readonly lumen?: string;
}

const found = (code: string, value?: string, device = 'line') =>
  finding('found', code, at('09:00:00'), value, device);
const count = {
  resourceType: 'Observation',
  id: 'count',
  status: 'final',
  code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
  subject: { reference: 'Patient/maple' },
  effectiveDateTime: at('06:00:00'),
  valueQuantity: { value: 0.1, unit: '10*9/L', system: 'http://unitsofmeasure.org', code: '10*9/L' },
};
const lengthOf = (id: string, when: string, value: number) => ({
  ...finding(id, 'external-length', when),
  valueBoolean: undefined,
  valueQuantity: { value, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' },
});

const nothingThrough = [
  'flush',
  'lock',
  'infusion-start',
  'blood-sampling',
  'patency-assessment',
  'occlusion-treatment',
  'blockage-response',
  'repair',
].map((activity) => `${activity} line`);

const emergencies: readonly Emergency[] = [
  {
    charted: 'air entry',
    resources: [found('air-entry')],
    activity: 'air-entry-response',
    priority: 'stat',
    held: nothingThrough,
  },
  {
    charted: 'fever at 0.1 10*9/L neutrophils',
    resources: [count, found('fever')],
    activity: 'fever-response',
    priority: 'stat',
  },
  {
    charted: 'swelling of the arm',
    resources: [found('arm-neck-swelling')],
    activity: 'swelling-response',
    priority: 'asap',
    held: nothingThrough,
  },
  {
    charted: 'infection of the tunnel',
    resources: [found('tunnel-signs')],
    activity: 'infection-sign-response',
    priority: 'asap',
  },
  {
    charted: 'a pull of 3 cm',
    resources: [lengthOf('before', '2026-11-10T10:30:00+01:00', 20), lengthOf('found', at('09:00:00'), 23)],
    activity: 'migration-response',
    priority: 'asap',
    held: ['infusion-start line'],
  },
  {
    charted: 'a blocked lumen',
    resources: [found('flush-resistance', 'blocked', 'red')],
    activity: 'blockage-response',
    priority: 'urgent',
    lumen: 'red',
    held: ['flush red', 'lock red', 'infusion-start red', 'blood-sampling red'],
  },
  {
    charted: 'bleeding',
    resources: [found('bleeding')],
    activity: 'bleeding-response',
    priority: 'stat',
  },
  {
    charted: 'breakage',
    resources: [found('damage', 'cut')],
    activity: 'breakage-response',
    priority: 'stat',
    held: ['flush line', 'lock line', 'infusion-start line', 'blood-sampling line'],
  },
  {
    charted: 'extravasation',
    resources: [found('extravasation', undefined, 'red')],
    activity: 'extravasation-response',
    priority: 'stat',
    held: nothingThrough,
  },
  {
    charted: 'a piece of the line in the body',
    resources: [found('removed-catheter', 'incomplete')],
    activity: 'retained-catheter-response',
    priority: 'stat',
    held: nothingThrough,
  },
  {
    charted: 'chest pain after the insertion',
    resources: [event('inserted', 'insertion', at('08:00:00')), found('chest-symptoms')],
    activity: 'chest-symptom-response',
    priority: 'stat',
    held: ['infusion-start line'],
  },
  {
    charted: 'shortness of breath of an old line',
    resources: [found('chest-symptoms')],
    activity: 'chest-symptom-response',
    priority: 'stat',
  },
  {
    charted: 'signs of sepsis',
    resources: [found('sepsis-signs')],
    activity: 'sepsis-response',
    priority: 'stat',
  },
];

describe.each(emergencies)('$charted', ({ charted, resources, activity, priority, held = [], lumen }) => {
  const again = new Set(resources.map(({ id }) => id));
  const line = lineOf().filter(({ id }) => !again.has(id));
  const care = careOf([...line, ...resources], policy, at('09:05:00'));

  it.each([charted])('C7: %s has first steps with the default policy', () => {
    const item = itemOf(care, activity, lumen);
    expect(stepsOf(item).length).toBeGreaterThan(2);
    expect(item?.rule.priority).toBe(priority);
    expect(item?.dueBy).toBe(at('09:00:00'));
    expect(item?.heldBy).toBeUndefined();
  });

  it.each([charted])('C7: %s holds what must wait with the default policy', () => {
    const names = care.holds.map(
      (hold) => `${hold.activity} ${(hold.target.ref ?? '').replace('Device/', '')}`,
    );
    for (const hold of held) expect(names).toContain(hold);
    if (held.length === 0) expect(names).toEqual([]);
  });
});

it('C7: without a charted emergency none of the first steps is asked for', () => {
  const care = careOf(
    [...lineOf(), event('looked', 'site-assessment', at('08:00:00'))],
    policy,
    at('09:05:00'),
  );
  expect(care.items.filter(({ rule }) => rule.priority === 'stat')).toEqual([]);
  expect(care.holds).toEqual([]);
});
