import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { readPolicy } from './read-policy.js';
import { readStep, stepText } from './steps.js';

describe('a step', () => {
  it.each([
    ["'Clamp the line.'", ['Clamp the line.']],
    ["'Flush with ' & %calculated.flushVolume & '.'", ['Flush with ', { calculated: 'flushVolume' }, '.']],
    ['%calculated.tubes', [{ calculated: 'tubes' }]],
    [
      "('Lock: ' & %calculated.lockVolume) & ' (' & %calculated.syringeSize & ')'",
      ['Lock: ', { calculated: 'lockVolume' }, ' (', { calculated: 'syringeSize' }, ')'],
    ],
  ])('reads %s', (expression, step) => {
    expect(readStep(expression)).toEqual({ ok: true, step });
  });

  it.each([
    ["'open", /not FHIRPath/, /single quotes/],
    ["' '", /empty/, /single quotes/],
    ['12', /more than texts/, /joined|join/],
    ["'Flush ' + %calculated.flushVolume", /more than texts/, /&/],
    ["'Flush ' & %calculated.flushVolum", /flushVolum is not a calculated value/, /calculated\.flushVolume/],
    ["'Count ' & %labs.anc", /more than texts/, /&/],
  ])('refuses %s', (expression, message, cure) => {
    const reading = readStep(expression);
    expect(reading).toMatchObject({
      ok: false,
      message: expect.stringMatching(message) as string,
      cure: expect.stringMatching(cure) as string,
    });
  });

  it('shows words in the place of what is still to be worked out', () => {
    const step = ['Flush with ', { calculated: 'flushVolume' }, '.'] as const;
    expect(stepText(step)).toBe('Flush with (the flush volume).');
    expect(stepText(step, () => '6.4 mL')).toBe('Flush with 6.4 mL.');
  });
});

const code = (activity: string) => [{ coding: [{ system: codeSystem.lineCareActivity, code: activity }] }];
const brisk = {
  type: 'Observation',
  codeFilter: [
    { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'blood-return' }] },
    { path: 'value', code: [{ code: 'brisk' }] },
  ],
};
const planWith = (more: Record<string, unknown>) => ({
  resourceType: 'PlanDefinition',
  url: 'https://dwellward.example/fhir/PlanDefinition/a',
  version: '1',
  title: 'A',
  status: 'active',
  action: [
    { id: 'event', code: code('occlusion-treatment'), documentation: [{ type: 'citation', citation: 'x' }] },
    {
      id: 'look',
      code: code('patency-assessment'),
      documentation: [{ type: 'citation', citation: 'x' }],
      relatedAction: [
        {
          actionId: 'event',
          relationship: 'after-end',
          offsetDuration: { value: 120, code: 'min', system: 'http://unitsofmeasure.org' },
        },
      ],
      ...more,
    },
  ],
});

describe('the output of an action', () => {
  it('is the finding that ends a chain or a hold before its time', () => {
    for (const [requiredBehavior, kind] of [
      ['must', 'chain'],
      ['could', 'hold'],
    ]) {
      const reading = readPolicy([planWith({ requiredBehavior, output: [brisk] })]);
      expect(reading.ok && reading.policy.rules.find(({ id }) => id === 'look')?.schedule).toMatchObject({
        kind,
        until: [{ finding: 'blood-return', values: ['brisk'] }],
      });
    }
  });

  it.each([
    [
      'a value that is none',
      [{ ...brisk, codeFilter: [brisk.codeFilter[0], { path: 'value', code: [{ code: 'brsk' }] }] }],
    ],
    ['another type', [{ ...brisk, type: 'Procedure' }]],
  ])('refuses %s, with its path', (_, output) => {
    const reading = readPolicy([planWith({ output })]);
    expect(reading.ok).toBe(false);
    expect(
      reading.findings.some(
        ({ severity, path }) => severity === 'error' && path.startsWith('PlanDefinition.action[1].output'),
      ),
    ).toBe(true);
  });

  const blocked = {
    type: 'data-added',
    data: [
      {
        type: 'Observation',
        codeFilter: [
          { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'flush-resistance' }] },
          { path: 'value', code: [{ code: 'blocked' }] },
        ],
      },
    ],
  };
  const free = {
    type: 'Observation',
    codeFilter: [
      { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'flush-resistance' }] },
      { path: 'value', code: [{ code: 'none' }] },
    ],
  };
  const begun = (more: Record<string, unknown>) =>
    readPolicy([planWith({ relatedAction: undefined, trigger: [blocked], ...more })]);
  const from = { finding: 'flush-resistance', values: ['blocked'] };
  const until = [
    { finding: 'blood-return', values: ['brisk'] },
    { finding: 'flush-resistance', values: ['none'] },
  ];

  it('may be several findings, any of which ends it; beside a trigger alone too', () => {
    const scheduleOf = (reading: ReturnType<typeof readPolicy>) =>
      reading.ok && reading.policy.rules.find(({ id }) => id === 'look')?.schedule;
    expect(scheduleOf(begun({ output: [brisk, free] }))).toEqual({ kind: 'at-once', ...from, until });
    expect(scheduleOf(begun({ output: [brisk, free], requiredBehavior: 'could' }))).toEqual({
      kind: 'hold',
      from,
      until,
    });
  });

  it('is what a hold that begins with a finding and has no other end can’t do without', () => {
    const reading = begun({ requiredBehavior: 'could' });
    expect(reading.ok).toBe(false);
    expect(JSON.stringify(reading.findings)).toContain('makes a hold that nothing ends');
  });

  it('is no loosening where a layer leaves one of its findings out, and one where it adds one', () => {
    const layered = (lower: unknown[], upper: unknown[], more: Record<string, unknown>) => {
      const given = { relatedAction: undefined, trigger: [blocked], ...more };
      const above = planWith({ ...given, output: upper });
      return readPolicy([planWith({ ...given, output: lower }), { ...above, url: `${above.url}-upper` }]).ok;
    };
    for (const more of [{}, { requiredBehavior: 'could' }]) {
      expect(layered([brisk, free], [brisk], more)).toBe(true);
      expect(layered([brisk], [brisk, free], more)).toBe(false);
    }
  });

  it('is a loosening where a layer adds it to a published rule', () => {
    const upper = planWith({ output: [brisk] });
    const reading = readPolicy([planWith({}), { ...upper, url: `${upper.url}-upper` }]);
    expect(reading.ok).toBe(false);
    expect(JSON.stringify(reading.findings)).toContain('unless brisk blood return is found first');
  });
});
