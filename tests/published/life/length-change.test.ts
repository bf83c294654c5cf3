import { describe, expect, it } from 'vitest';
import {
  at,
  careOf,
  event,
  finding,
  infusion,
  itemOf,
  lineOf,
  policyOf,
  stepsOf,
  type Resources,
} from './line.js';

// INS 2016, 2021 (from memory): measured at the insertion, at every dressing change and when dislodgement is suspected;
// never pushed back in; the tip is imaged before use if the length has changed. No national text gives a limit in cm;
// local rules use 1 to 3 cm (common practice, no source): the bundled layer takes 1 cm, the most careful.

const policy = policyOf('trouble');
const measured = (id: string, when: string, cm: number, unit = 'cm') => ({
  ...finding(id, 'external-length', when),
  valueBoolean: undefined,
  valueQuantity: { value: cm, unit, system: 'http://unitsofmeasure.org', code: unit },
});
const day = (date: number, time = '08:00') => `2026-11-${date}T${time}:00+01:00`;
const asked = ['migration-response', 'tip-confirmation'];

function of(resources: Resources, when = at('12:00:00'), own = policy) {
  const care = careOf([...lineOf(), ...resources], own, when);
  return {
    care,
    asked: asked.filter((activity) => itemOf(care, activity) !== undefined),
    holds: care.holds
      .filter(({ activity }) => activity === 'infusion-start')
      .map(({ rule, from, because }) => [rule.id, from, because]),
  };
}
const hold = (because: string, from: string) => [
  ['infusion-start-after-length-change', from, `Observation/${because}`],
];

describe('an external length that differs from the one at the last tip confirmation', () => {
  it.each<[string, Resources, boolean]>([
    ['6 cm longer', [measured('a', day(24), 30), measured('b', day(25), 36)], true],
    ['1 cm longer: the limit itself', [measured('a', day(24), 30), measured('b', day(25), 31)], true],
    ['0.9 cm longer', [measured('a', day(24), 30), measured('b', day(25), 30.9)], false],
    ['1 cm shorter', [measured('a', day(24), 30), measured('b', day(25), 29)], true],
    ['10 mm longer', [measured('a', day(24), 30), measured('b', day(25), 310, 'mm')], true],
    [
      'creeping: 0.6 cm and 0.6 cm',
      [measured('a', day(20), 30), measured('c', day(22), 30.6), measured('b', day(25), 31.2)],
      true,
    ],
    ['nothing to compare it with', [measured('b', day(25), 36)], false],
    ['nothing measured', [], false],
    // What was measured before the tip was confirmed on the 10th is nearest to it, not the first one after it.
    [
      'against the one before the tip was confirmed',
      [measured('a', day(10, '10:10'), 30), measured('b', day(25), 36)],
      true,
    ],
  ])('%s', (_, resources, changed) => {
    const found = of(resources);
    expect(found.asked).toEqual(changed ? asked : []);
    expect(found.holds).toEqual(changed ? hold('b', day(25)) : []);
  });

  it('is compared with the length that the Device gives of the insertion', () => {
    const property = (cm: number) =>
      lineOf().map((one) =>
        one['id'] === 'line'
          ? {
              ...one,
              property: [
                {
                  type: { coding: [{ code: 'external-length' }] },
                  valueQuantity: [{ value: cm, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' }],
                },
              ],
            }
          : one,
      );
    const holdsWith = (cm: number) =>
      careOf([...property(cm), measured('b', day(25), 36)], policy, at('12:00:00')).holds.map(
        ({ activity }) => activity,
      );
    expect(holdsWith(30)).toContain('infusion-start');
    expect(holdsWith(36)).toEqual([]);
  });

  it('is asked for at once, from the measurement that differs, and the steps say never to push it back', () => {
    const { care } = of([
      measured('a', day(24), 30),
      measured('c', day(24, '20:00'), 30),
      measured('b', day(25), 36),
    ]);
    const item = itemOf(care, 'migration-response');
    expect(item).toMatchObject({ dueBy: day(25), movedBy: ['Observation/b'] });
    expect(stepsOf(item).some((step) => /Never push it back in/.test(step))).toBe(true);
    expect(item?.facts.find(({ fact }) => fact === 'line.externalLengthChange')?.value).toBe('6 cm');
  });

  it('stays a change when it is measured as before again, until the tip is confirmed', () => {
    const moved = [
      measured('a', day(24), 30),
      measured('b', day(25, '08:00'), 36),
      measured('c', day(25, '09:00'), 30),
    ];
    expect(of(moved)).toMatchObject({ asked, holds: hold('b', day(25)) });
    const confirmed = [...moved, event('again', 'tip-confirmation', day(25, '10:00'))];
    expect(of(confirmed)).toMatchObject({ asked: [], holds: [] });
  });

  it('counts from the new tip confirmation on', () => {
    const before = [
      measured('a', day(20), 30),
      measured('b', day(22), 36),
      event('again', 'tip-confirmation', day(22, '10:00')),
    ];
    expect(of([...before, measured('c', day(25), 36)])).toMatchObject({ asked: [], holds: [] });
    expect(of([...before, measured('c', day(25), 33)])).toMatchObject({ asked, holds: hold('c', day(25)) });
  });

  it('is counted anew after a repair, which changes it by itself', () => {
    const repaired = [measured('a', day(20), 30), event('mended', 'repair', day(22))];
    expect(of([...repaired, measured('b', day(25), 26)])).toMatchObject({ asked: [], holds: [] });
    expect(of([...repaired, measured('b', day(24), 26), measured('c', day(25), 28)]).holds).toEqual(
      hold('c', day(25)),
    );
  });

  it('does not know of a measurement that is still to come', () => {
    expect(of([measured('a', day(24), 30), measured('b', day(25), 36)], day(25, '07:59')).holds).toEqual([]);
  });

  it('makes an infusion that is started after it one against a hold', () => {
    const { care } = of([
      measured('a', day(24), 30),
      measured('b', day(25), 36),
      infusion('run', 'red', day(25, '09:00')),
    ]);
    expect(care.issues.filter(({ code }) => code === 'against-a-hold')).toMatchObject([
      { severity: 'high', related: ['Observation/b'] },
    ]);
  });
});
