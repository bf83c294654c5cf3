import { describe, expect, it } from 'vitest';
import {
  bundledPlan,
  readPolicy,
  scheduleText,
  type BundledPlanName,
  type Facts,
  type Rule,
} from './index.js';

// The layers for the life of a line: each value as its source gives it, typed in here a second time.

function rulesOf(...names: BundledPlanName[]): Map<string, Rule> {
  const reading = readPolicy(names.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return new Map(reading.policy.rules.map((rule) => [rule.id, rule]));
}

function holds(rule: Rule | undefined, given: Partial<Facts>): boolean {
  if (rule === undefined) throw new Error('no such rule');
  const truth = rule.condition.evaluate({ line: {}, lumen: {}, patient: {}, labs: {}, ...given });
  return truth.is === 'true' || (truth.is === 'unknown' && rule.whenUnknown === 'protective');
}

describe('the layers for the life of a line', () => {
  const schedules = (rules: ReadonlyMap<string, Rule>) =>
    [...rules.values()].map(({ id, schedule }) => [id, scheduleText(schedule)]);

  it('repair-care: 2 hours without infusion, splint off after 48 hours', () => {
    const rules = rulesOf('repair-care');
    const whileDamaged = ([id]: string[]) => id?.includes('-while-damaged') === true;
    expect(schedules(rules).filter((row) => !whileDamaged(row))).toEqual([
      ['infusion-start-after-repair', 'not within 2 hours after the repair'],
      ['patency-assessment-after-repair', '2 hours after the repair'],
      ['repair', 'when it is needed'],
      ['repair-after-damage', 'at once after any finding of damage'],
      ['repair-after-damage-lumen', 'at once after any finding of damage'],
      ['splint-removal-after-repair', '48 hours after the repair'],
    ]);
  });

  it('repair-care: from damage to repair nothing goes in or out of what is damaged', () => {
    const ones = [...rulesOf('repair-care').values()].filter(({ id }) => id.includes('-while-damaged'));
    expect(ones.map(({ activity }) => activity).sort()).toEqual([
      'blood-sampling',
      'flush',
      'infusion-start',
      'lock',
      'occlusion-treatment',
      'patency-assessment',
    ]);
    expect([...new Set(ones.map(({ schedule }) => scheduleText(schedule)))]).toEqual([
      'not from a finding of damage until the repair',
    ]);
    for (const { scope } of ones) expect(scope).toBe('line');
  });

  // Common practice, no source; but the lock after every use: US heparin lock labels (seen).
  it('common-practice: idle lumens daily, cap and clamp weekly', () => {
    const rules = rulesOf('common-practice');
    expect(schedules(rules)).toEqual([
      ['clamp-position-change', 'every 7 days'],
      ['flush-idle', 'when it is needed'],
      ['flush-idle-daily', 'every day'],
      ['lock-after-irrigation', 'straight after the flush'],
      ['needleless-connector-change-idle', 'every 7 days'],
    ]);
    const unsourced = [...rules.values()].filter(({ citations }) => citations.some((one) => one.unsourced));
    expect(unsourced.map(({ id }) => id)).toEqual(
      [...rules.keys()].filter((id) => id !== 'lock-after-irrigation'),
    );
  });

  it.each([
    ['picc', 'locked', true],
    ['tunneled-cvc', undefined, true],
    ['tunneled-cvc', 'infusing', false],
    ['tunneled-dialysis-catheter', 'locked', false],
    ['implanted-port', 'locked', false],
  ] as const)('common-practice: a %s whose lumen is %s is irrigated daily: %s', (type, use, expected) => {
    const rules = rulesOf('common-practice');
    for (const id of ['flush-idle-daily', 'lock-after-irrigation', 'needleless-connector-change-idle'])
      expect(holds(rules.get(id), { line: { type }, lumen: use === undefined ? {} : { use } }), id).toBe(
        expected,
      );
  });

  it.each([
    ['none', true],
    ['integral', false],
    [undefined, false],
  ] as const)('common-practice: clamps of its own %s: a new place every week is %s', (clamp, expected) => {
    const rule = rulesOf('common-practice').get('clamp-position-change');
    expect(holds(rule, { line: clamp === undefined ? {} : { clamp } })).toBe(expected);
  });

  it('post-insertion and trouble: the same first steps for a new site, whichever of them a unit has', () => {
    const [early, trouble] = [rulesOf('post-insertion'), rulesOf('trouble')];
    for (const id of ['new-site-response-exit-site', 'new-site-response-incision']) {
      const plain = (rule: Rule | undefined) =>
        rule && { ...rule, condition: rule.condition.text, origin: undefined };
      expect(plain(early.get(id))).toBeDefined();
      expect(plain(early.get(id))).toEqual(plain(trouble.get(id)));
    }
  });

  // INS 2021 (from memory): flat for 30 minutes, length and tip recorded; NCHD survival guide (seen): what stayed in.
  it('removal: whole at once, up after 30 minutes, first steps for what stayed in', () => {
    expect(schedules(rulesOf('removal'))).toEqual([
      ['dressing-change-after-removal', 'at once when the dressing is damp, loosened or soiled'],
      ['flat-after-removal', 'not within 30 minutes after the removal'],
      ['getting-up-after-removal', '30 minutes after the removal'],
      ['insertion-without-asepsis', 'when it is needed'],
      ['removal', 'when it is needed'],
      ['removal-after-insertion-without-asepsis', '48 hours after the insertion'],
      [
        'removed-catheter-check',
        'straight after the removal, unless whole or incomplete removed catheter is found first',
      ],
      ['retained-catheter-response', 'at once when removed catheter is incomplete'],
    ]);
  });

  // Common practice, no source.
  it('post-insertion: the incision daily until the record says that it has healed', () => {
    const rule = rulesOf('post-insertion').get('dressing-change-incision');
    expect([rule?.scope, rule && scheduleText(rule.schedule)]).toEqual(['incision', 'every day']);
    for (const [healed, expected] of [
      [undefined, true],
      [false, true],
      [true, false],
    ] as const)
      expect(
        holds(rule, {
          line: { type: 'tunneled-cvc', ...(healed === undefined ? {} : { incisionHealed: healed }) },
        }),
      ).toBe(expected);
  });
});
