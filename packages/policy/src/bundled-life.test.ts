import { describe, expect, it } from 'vitest';
import {
  bundledPlan,
  readPolicy,
  scheduleText,
  type BundledPlanName,
  type Condition,
  type Facts,
  type QuantityRange,
  type Rule,
  type TimeRange,
} from './index.js';

// The layers for the life of a line: each value as its source gives it, typed in here a second time.

function rulesOf(...names: BundledPlanName[]): Map<string, Rule> {
  const reading = readPolicy(names.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return new Map(reading.policy.rules.map((rule) => [rule.id, rule]));
}

function applies(rule: Rule | undefined, given: Facts): boolean {
  if (rule === undefined) throw new Error('no such rule');
  const truth = rule.applicability.evaluate(given);
  return truth.is === 'true' || (truth.is === 'unknown' && rule.whenUnknown === 'protective');
}

/** A moment, hours from a fixed one. */
function at(hours: number): TimeRange {
  const ms = Date.UTC(2026, 10, 20, 12) + hours * 3_600_000;
  return { lowMs: ms, highMs: ms };
}

function celsius(value: string): QuantityRange {
  return { low: value, high: value, lowIncluded: true, highIncluded: true, unit: 'Cel' };
}

function isTrue(condition: Condition | undefined, facts: Facts): boolean {
  return condition?.evaluate(facts).is === 'true';
}

describe('the layers for the life of a line', () => {
  const schedules = (rules: ReadonlyMap<string, Rule>) =>
    [...rules.values()].map((rule) => [rule.id, scheduleText(rule)]);

  it('repair-care: no infusion until the kit’s time is over, splint off after 48 hours', () => {
    const rules = rulesOf('repair-care');
    const whileDamaged = ([id]: string[]) => id?.includes('-while-damaged') === true;
    expect(schedules(rules).filter((row) => !whileDamaged(row))).toEqual([
      ['infusion-start-after-repair', 'not from the repair until a clinician clears the line for use'],
      ['patency-assessment-after-repair', '24 hours after the repair'],
      ['repair', 'when it is ordered'],
      ['repair-after-damage', 'at once after any finding of damage, until it is put right'],
      ['splint-removal-after-repair', '48 hours after the repair'],
    ]);
  });

  it('repair-care: from damage to repair nothing goes in or out of what is damaged', () => {
    const ones = [...rulesOf('repair-care').values()].filter(({ id }) => id.endsWith('-while-damaged'));
    expect(ones.map(({ activity }) => activity).sort()).toEqual([
      'blockage-response',
      'blood-sampling',
      'flush',
      'infusion-start',
      'lock',
      'occlusion-treatment',
      'patency-assessment',
    ]);
    expect([...new Set(ones.map((rule) => scheduleText(rule)))]).toEqual([
      'not from a finding of damage until it is put right',
    ]);
    for (const { scopes } of ones) expect(scopes).toEqual(['line', 'lumen']);
  });

  // Common practice, no source; but the lock after every use: US heparin lock labels (seen).
  it('common-practice: idle lumens daily, cap and clamp weekly', () => {
    const rules = rulesOf('common-practice');
    expect(schedules(rules)).toEqual([
      ['clamp-position-change', 'every 7 days'],
      ['flush-idle-daily', 'every day'],
      ['lock-after-irrigation', 'straight after the flush'],
      ['needleless-connector-change-idle', 'every 7 days'],
    ]);
    const unsourced = [...rules.values()].filter(({ citations }) =>
      citations.some(({ certainty }) => certainty === 'common-practice'),
    );
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
      expect(
        applies(rules.get(id), { 'line.type': type, ...(use === undefined ? {} : { 'lumen.use': use }) }),
        id,
      ).toBe(expected);
  });

  it.each([
    ['none', true],
    ['integral', false],
    [undefined, false],
  ] as const)('common-practice: clamps of its own %s: a new place every week is %s', (clamp, expected) => {
    const rule = rulesOf('common-practice').get('clamp-position-change');
    expect(applies(rule, clamp === undefined ? {} : { 'line.clamp': clamp })).toBe(expected);
  });

  it('post-insertion and trouble: the same first steps for a new site, whichever of them a unit has', () => {
    const [early, trouble] = [rulesOf('post-insertion'), rulesOf('trouble')];
    for (const id of ['new-site-response-exit-site', 'new-site-response-incision']) {
      const plain = (rule: Rule | undefined) =>
        rule && {
          ...rule,
          applicability: rule.applicability.text,
          start: rule.start?.text,
          origin: undefined,
        };
      expect(plain(early.get(id))).toBeDefined();
      expect(plain(early.get(id))).toEqual(plain(trouble.get(id)));
    }
  });

  // INS 2021 (from memory): flat for 30 minutes, length and tip recorded; NCHD survival guide (seen): what stayed in.
  it('removal: whole at once, up after 30 minutes', () => {
    expect(schedules(rulesOf('removal'))).toEqual([
      ['dressing-change-after-removal', 'at once when the dressing is damp, loosened or soiled'],
      ['flat-after-removal', 'not within 30 minutes after the removal'],
      ['getting-up-after-removal', '30 minutes after the removal'],
      ['removal', 'when it is ordered'],
      ['removal-after-insertion-without-asepsis', '48 hours after the insertion'],
      [
        'removed-catheter-check',
        'straight after the removal, until whole or incomplete removed catheter is found',
      ],
    ]);
    const retained = rulesOf('trouble').get('retained-catheter-response');
    expect(scheduleText(retained!)).toBe(
      'at once when removed catheter is incomplete, until a clinician clears the line for use',
    );
  });

  // Common practice, no source, but the first dressing: NHS Ayrshire & Arran G004 (seen).
  it('post-insertion: every lumen in the first hour, the first dressing the day after, stitches after 3 weeks', () => {
    const rules = rulesOf('post-insertion');
    const once = ['patency-assessment-first', 'dressing-change-first', 'suture-removal-tunneled'];
    expect(once.map((id) => scheduleText(rules.get(id)!))).toEqual([
      'once, 1 hour after the insertion',
      'once, 1 day after the insertion',
      'once, 21 days after the insertion',
    ]);
  });

  // Common practice, no source.
  it('post-insertion: the incision daily until the record says that it has healed', () => {
    const rule = rulesOf('post-insertion').get('dressing-change-incision');
    expect([rule?.scopes, rule && scheduleText(rule)]).toEqual([['incision'], 'every day']);
    for (const [healed, days, expected] of [
      [undefined, 21, true],
      [undefined, 22, false],
      [undefined, undefined, false],
      [false, 200, true],
      [true, 3, false],
    ] as const)
      expect(
        applies(rule, {
          'line.type': 'tunneled-cvc',
          ...(days === undefined ? {} : { 'line.dwellDays': days }),
          ...(healed === undefined ? {} : { 'latest.incisionHealed': healed }),
        }),
      ).toBe(expected);
  });

  // Home sheets of two US hospitals (seen): call at 38.0 °C or more. Rules for fever in neutropenia (from memory): an
  // emergency below 0.5 10*9/L.
  it.each([
    ['a fever that was charted', { 'found.fever': at(0) }, 'true'],
    ['38.0 °C', { 'latest.bodyTemperature': celsius('38.0') }, 'true'],
    ['37.9 °C', { 'latest.bodyTemperature': celsius('37.9') }, 'false'],
    [
      '37.2 °C after a fever of the day before',
      { 'found.fever': at(-24), 'latest.bodyTemperature': celsius('37.2') },
      'false',
    ],
    [
      'below 38.5 °C',
      { 'latest.bodyTemperature': { ...celsius('38.5'), lowIncluded: false, low: '0', highIncluded: false } },
      'unknown',
    ],
  ] as const)('trouble: %s begins the first steps of a fever: %j is %s', (_, facts, expected) => {
    const rules = rulesOf('trouble');
    for (const id of ['fever-response', 'fever-response-low-count']) {
      const start = rules.get(id)?.start;
      expect(start?.evaluate({ ...(facts as Facts), began: at(0) }).is, id).toBe(expected);
    }
    const low = { low: '0.4', high: '0.4', lowIncluded: true, highIncluded: true, unit: '10*9/L' };
    expect(applies(rules.get('fever-response-low-count'), { 'labs.anc': low })).toBe(true);
    expect(applies(rules.get('fever-response-low-count'), {})).toBe(true);
    expect(
      applies(rules.get('fever-response-low-count'), { 'labs.anc': { ...low, low: '0.5', high: '0.5' } }),
    ).toBe(false);
  });

  it.each([
    ['nothing since', {}, 'false'],
    ['found open since', { 'lumen.foundOpen': at(1) }, 'true'],
    ['found open at the same time', { 'lumen.foundOpen': at(0) }, 'false'],
    ['found open before', { 'lumen.foundOpen': at(-1) }, 'false'],
  ] as const)('trouble and occlusion: a blocked lumen, %s: %j ends it: %s', (_, facts, expected) => {
    const rules = rulesOf('trouble', 'occlusion');
    for (const id of ['blockage-response', 'occlusion-treatment-second', 'blockage-response-after-two-doses'])
      expect(isTrue(rules.get(id)?.stop, { ...facts, began: at(0) }), id).toBe(expected === 'true');
  });

  // US label of alteplase (seen): where it does not work after 120 minutes a second, equal dose is allowed.
  it.each([
    [undefined, false],
    [119, false],
    [120, true],
  ] as const)(
    'occlusion: found blocked %s minutes after a dose asks for what comes next: %s',
    (minutes, expected) => {
      const dose = minutes === undefined ? {} : { 'last.occlusionTreatment': at(-minutes / 60) };
      const rules = rulesOf('occlusion');
      const begins = (id: string, given: number) =>
        isTrue(rules.get(id)?.start, { ...dose, 'lumen.dosesGiven': given, began: at(0) });
      expect(begins('occlusion-treatment-second', 1)).toBe(expected);
      expect(begins('blockage-response-after-two-doses', 2)).toBe(expected);
      expect(begins('occlusion-treatment-second', 2)).toBe(false);
      expect(begins('blockage-response-after-two-doses', 1)).toBe(false);
    },
  );
});
