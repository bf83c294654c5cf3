import { bloodDraw } from '@dwellward/core';
import { defaultPlans, readPolicy, bundledPlan } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { said, spoken } from '../../said.js';
import {
  at,
  careOf,
  event,
  finding,
  fromSkin,
  infusion,
  itemOf,
  lineOf,
  policyOf,
  recordOf,
  zone,
  type Resources,
} from './line.js';

// What is wrong with the line as a whole, or may be, keeps every lumen of it from use until somebody has looked. That
// air stays clamped: emedicine 761367 (seen). The rest is common practice, no source.

const policy = policyOf('trouble', 'occlusion', 'repair-care');
const found = (code: string, value?: string, device = 'line') =>
  finding('found', code, at('09:00:00'), value, device);
const cleared = finding('cleared', 'cleared-for-use', at('11:00:00'));
const runs = [infusion('run', 'white', at('07:00:00'))];
const heldThrough = (resources: Resources, when = at('12:00:00')) =>
  careOf([...lineOf(), ...resources], policy, when).holds.filter(
    ({ activity, target }) => activity !== 'getting-up' && target.scope === 'line',
  );
const against = (resources: Resources, when = at('09:30:00')) =>
  spoken(
    careOf([...lineOf(), ...runs, ...resources], policy, when).issues.filter(
      ({ code }) => code === 'against-a-hold',
    ),
  );

describe.each([
  ['air has entered', found('air-entry'), 'after-air-entry'],
  ['fluid has left the vein', found('extravasation', undefined, 'red'), 'after-extravasation'],
  [
    'a piece of it has stayed in the body',
    found('removed-catheter', 'incomplete'),
    'after-retained-catheter',
  ],
  ['the arm swells', found('arm-neck-swelling'), 'after-swelling'],
] as const)('a line where %s', (what, resource, why) => {
  it.each([what])('C2: %s: nothing goes through any lumen, and what runs through another is told', () => {
    const holds = heldThrough([resource]);
    expect(holds.map(({ rule }) => rule.id).sort()).toEqual(
      [
        'blockage-response',
        'blood-sampling',
        'flush',
        'infusion-start',
        'lock',
        'occlusion-treatment',
        'patency-assessment',
        'repair',
      ].map((activity) => `${activity}-${why}`),
    );
    expect(against([resource])).toMatchObject([{ resource: 'MedicationAdministration/run' }]);
    const care = careOf([...lineOf(), resource], policy, at('12:00:00'));
    for (const lumen of ['red', 'white'])
      expect(['flush', 'lock'].map((one) => itemOf(care, one, lumen)?.state)).toEqual(['held', 'held']);
  });

  it.each([what])('C2: %s: until it is cleared for use, and not before it was found', () => {
    expect(heldThrough([resource], at('08:59:59'))).toEqual([]);
    expect(heldThrough([resource, cleared], at('10:59:59'))).not.toEqual([]);
    expect(heldThrough([resource, cleared], at('11:00:01'))).toEqual([]);
    const before = { ...cleared, effectiveDateTime: at('08:00:00') };
    expect(heldThrough([resource, before])).not.toEqual([]);
    const not = finding('not', 'cleared-for-use', at('11:00:00'), false);
    expect(heldThrough([resource, not])).not.toEqual([]);
  });
});

it('C2: a line is cleared where the record names it, or every lumen at one time: one lumen clears nothing, and that is said', () => {
  const air = found('air-entry');
  const on = (lumen: string, time = at('11:00:00')) => ({
    ...finding('cleared', 'cleared-for-use', time, undefined, lumen),
    id: `cleared-${lumen}`,
  });
  expect(heldThrough([air, on('red')])).not.toEqual([]);
  expect(heldThrough([air, on('white', at('08:00:00')), on('red')])).not.toEqual([]);
  expect(heldThrough([air, on('red'), on('white')])).toEqual([]);
  const { issues } = careOf([...lineOf(), air, on('red')], policy, at('12:00:00'));
  expect(issues).toContainEqual(
    expect.objectContaining({ code: 'unknown-lumen', resource: 'Observation/cleared-red', severity: 'high' }),
  );
  expect(said(issues.map(({ sentence }) => sentence)).join(' ')).toMatch(
    /cleared for use names one of several lumens.*Chart it on the line/,
  );
});

const drawFrom = (lumen: string, ...resources: Resources) => {
  const reading = readPolicy([...defaultPlans(), bundledPlan('blood-sampling')]);
  if (!reading.ok) throw new Error('The bundled plans are refused.');
  return () =>
    bloodDraw(
      recordOf([...lineOf({ weightKg: 70 }), ...resources]),
      { tests: [{ test: 'chemistry' }], lumen: `Device/${lumen}` },
      reading.policy,
      { asOf: at('12:00:00'), zone },
    );
};

it('C2: a blood draw is refused after air has entered, from every lumen', () => {
  const draw = (...resources: Resources) => drawFrom('white', ...resources);
  expect(draw(found('air-entry'))).toThrow(/No blood is drawn from white.*not to be used.*Air has entered/s);
  expect(draw(found('air-entry'))).toThrow(/draw from a vein/);
});

it('C11: a blood draw is refused while an arm is swollen, from every lumen, until the line is cleared', () => {
  const swollen = found('arm-neck-swelling');
  for (const lumen of ['red', 'white'])
    expect(drawFrom(lumen, swollen)).toThrow(
      new RegExp(`No blood is drawn from ${lumen}.*not to be used.*swollen`, 's'),
    );
  expect(drawFrom('white', swollen, cleared)().steps.length).toBeGreaterThan(3);
});

describe('damage of one lumen', () => {
  const leak = finding('found', 'damage', at('09:00:00'), 'leak', 'red');

  it.each([
    ['at a place that is not said', true, leak],
    ['at the skin', true, fromSkin(0, leak)],
    ['1 cm from the skin', true, fromSkin(1, leak)],
    ['1.1 cm from the skin', false, fromSkin(1.1, leak)],
  ])('C2: damage %s holds the whole line: %s', (_, whole, damage) => {
    const holds = heldThrough([damage]);
    expect(holds.some(({ activity }) => activity === 'infusion-start')).toBe(whole);
    expect(against([damage]).length).toBe(whole ? 1 : 0);
  });

  it('C2: at the skin it ends with the repair of that lumen, or when the line is cleared for use', () => {
    const atSkin = fromSkin(0.5, leak);
    const mended = event('mended', 'repair', at('10:00:00'), 'red');
    expect(heldThrough([atSkin])).not.toEqual([]);
    expect(heldThrough([atSkin, mended])).toEqual([]);
    expect(heldThrough([atSkin, cleared])).toEqual([]);
    // The damaged lumen itself is not freed by a word on the line.
    const care = careOf([...lineOf(), atSkin, cleared], policy, at('12:00:00'));
    expect(itemOf(care, 'flush', 'red')?.state).toBe('held');
    expect(itemOf(care, 'flush', 'white')?.state).not.toBe('held');
  });

  it('C2: of two findings at one moment the one nearer to the skin counts', () => {
    const far = { ...fromSkin(8, leak), id: 'far' };
    expect(heldThrough([far, fromSkin(0.5, leak)])).not.toEqual([]);
    expect(heldThrough([far, leak])).not.toEqual([]);
    expect(heldThrough([far])).toEqual([]);
  });
});

describe('after a repair', () => {
  const mended = event('mended', 'repair', at('09:00:00'));
  it('C20: it is held until the record says that the kit’s time is over, a day later as well', () => {
    const holds = (when: string, ...more: Resources) => heldThrough([mended, ...more], when).length;
    expect(holds(at('11:30:00'))).toBe(1);
    expect(holds('2026-11-26T09:30:00+01:00')).toBe(1);
    expect(holds(at('11:30:00'), cleared)).toBe(0);
  });
});
