import { policyExtension, codeSystem } from '@dwellward/profiles';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bundledPlan, lintPlan, readPolicy, scheduleText, type LintFinding } from './index.js';

type Json = Record<string, unknown>;

const cited = { type: 'citation', citation: 'Guideline 2011, recommendation 7 (category IB)' };
const uncited = { type: 'citation', citation: 'Common practice, no source' };
const reason = { type: 'justification', display: 'Agreed in our infection control meeting.' };
const every = (period: number, periodUnit: string) => ({ repeat: { frequency: 1, period, periodUnit } });
const when = (expression: string) => ({
  kind: 'applicability',
  expression: { language: 'text/fhirpath', expression },
});
const code = (activity: string) => [{ coding: [{ system: codeSystem.lineCareActivity, code: activity }] }];
const off = (id: string, more: Json = {}): Json => ({ id, condition: [when('false')], ...more });

function action(id: string, more: Json = {}): Json {
  return { id, code: code('dressing-change'), documentation: [cited], timingTiming: every(7, 'd'), ...more };
}
/** An action without a timing: one that others count from, unless `more` says otherwise. */
function event(id: string, activity: string, more: Json = {}): Json {
  return { id, code: code(activity), documentation: [uncited], ...more };
}
const before = (actionId: string, value?: number) => [
  { ...after(actionId, value)[0], relationship: 'before-start' },
];
const found = (finding: string) => ({
  type: 'data-added',
  data: [
    {
      type: 'Observation',
      codeFilter: [{ path: 'code', code: [{ system: codeSystem.lineFinding, code: finding }] }],
    },
  ],
});
const after = (actionId: string, value?: number, unit = 'h') => [
  {
    actionId,
    relationship: 'after',
    ...(value === undefined ? {} : { offsetDuration: { value, code: unit } }),
  },
];
function plan(name: string, actions: unknown[], more: Json = {}): Json {
  return {
    resourceType: 'PlanDefinition',
    url: `https://hospital.example/${name}`,
    version: '1',
    status: 'active',
    title: name,
    action: actions,
    ...more,
  };
}

function errors(findings: readonly LintFinding[]) {
  return findings.filter(({ severity }) => severity === 'error');
}
function policyOf(...layers: unknown[]) {
  const reading = readPolicy(layers);
  if (!reading.ok) throw new Error(JSON.stringify(errors(reading.findings)));
  return reading.policy;
}
function onlyError(...layers: unknown[]) {
  const found = errors(readPolicy(layers).findings);
  expect(found).toHaveLength(1);
  return found[0]!;
}

describe('an action becomes a rule', () => {
  it('that comes before another, with or without a time of day', () => {
    const rules = policyOf(
      plan('a', [
        event('in', 'insertion'),
        event('talk', 'teaching', { relatedAction: before('in', 24) }),
        event('wash', 'bath', {
          relatedAction: before('in', 6),
          timingTiming: { repeat: { timeOfDay: ['20:00:00'] } },
        }),
      ]),
    ).rules;
    expect(rules.map(({ id, schedule }) => [id, schedule])).toEqual([
      ['in', { kind: 'anchor' }],
      ['talk', { kind: 'before', of: 'insertion', offset: { value: 24, unit: 'h' } }],
      [
        'wash',
        { kind: 'before', of: 'insertion', offset: { value: 6, unit: 'h' }, timesOfDay: ['20:00:00'] },
      ],
    ]);
  });

  it('that is a hold from a finding until another was done', () => {
    const [hold] = policyOf(
      plan('a', [
        event('hold', 'infusion-start', {
          trigger: [found('damage')],
          relatedAction: after('repair'),
          requiredBehavior: 'could',
        }),
        event('repair', 'repair'),
      ]),
    ).rules;
    expect(hold?.schedule).toEqual({
      kind: 'hold',
      after: 'repair',
      from: { finding: 'damage', values: [] },
    });
  });

  it('with every part of it', () => {
    const policy = policyOf(
      plan('a', [
        action('x', {
          title: 'Change it',
          priority: 'urgent',
          extension: [
            { url: policyExtension.ruleScope, valueCode: 'exit-site' },
            { url: policyExtension.ruleLead, valueDuration: { value: 1, code: 'd' } },
            { url: policyExtension.ruleMinimumSpacing, valueDuration: { value: 96, code: 'h' } },
            { url: policyExtension.ruleWhenUnknown, valueCode: 'default' },
          ],
          condition: [when("%line.type = 'picc'"), when('%line.dwellDays > 1')],
          documentation: [{ ...cited, url: 'https://guideline.example' }, uncited, reason],
        }),
      ]),
    );
    expect(policy.rules).toHaveLength(1);
    expect(policy.rules[0]).toMatchObject({
      id: 'x',
      title: 'Change it',
      activity: 'dressing-change',
      scope: 'exit-site',
      schedule: { kind: 'interval', every: { value: 7, unit: 'd' } },
      whenUnknown: 'default',
      lead: { value: 1, unit: 'd' },
      minimumSpacing: { value: 96, unit: 'h' },
      priority: 'urgent',
      citations: [
        { text: cited.citation, url: 'https://guideline.example', unsourced: false },
        { text: uncited.citation, unsourced: true },
      ],
      notes: [reason.display],
      origin: { url: 'https://hospital.example/a', version: '1', title: 'a', layer: 0 },
    });
    expect(policy.rules[0]?.condition.text).toBe("(%line.type = 'picc') and (%line.dwellDays > 1)");
  });

  it('with scope line, protective reading and routine priority where it states none', () => {
    const [rule] = policyOf(plan('a', [action('x')])).rules;
    expect(rule).toMatchObject({ scope: 'line', whenUnknown: 'protective', priority: 'routine', title: 'x' });
    expect(rule).not.toHaveProperty('lead');
    expect(rule?.condition.evaluate({ line: {}, lumen: {}, patient: {}, labs: {} })).toEqual({ is: 'true' });
  });

  it('with a trigger, a chain, a hold and an anchor', () => {
    const policy = policyOf(
      plan('a', [
        action('damp', {
          timingTiming: undefined,
          trigger: [
            {
              type: 'data-added',
              data: [
                {
                  type: 'Observation',
                  codeFilter: [
                    { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'dressing-condition' }] },
                    { path: 'value', code: [{ code: 'damp' }, { code: 'soiled' }] },
                  ],
                },
              ],
            },
          ],
        }),
        event('repair', 'repair'),
        event('splint', 'splint-removal', { relatedAction: after('repair', 48) }),
        event('wait', 'infusion-start', { relatedAction: after('repair', 2), requiredBehavior: 'could' }),
        event('tip', 'tip-confirmation'),
        event('confirm-first', 'infusion-start', { relatedAction: after('tip'), requiredBehavior: 'could' }),
      ]),
    );
    expect(Object.fromEntries(policy.rules.map(({ id, schedule }) => [id, schedule]))).toEqual({
      damp: { kind: 'at-once', finding: 'dressing-condition', values: ['damp', 'soiled'] },
      repair: { kind: 'anchor' },
      splint: { kind: 'chain', after: 'repair', offset: { value: 48, unit: 'h' } },
      wait: { kind: 'hold', after: 'repair', offset: { value: 2, unit: 'h' } },
      tip: { kind: 'anchor' },
      'confirm-first': { kind: 'hold', after: 'tip-confirmation' },
    });
    expect(policy.rules.map(({ id }) => id)).toEqual([
      'confirm-first',
      'damp',
      'repair',
      'splint',
      'tip',
      'wait',
    ]);
  });

  it('with the work of its ActivityDefinition', () => {
    const input = (path: string, expression: string) => ({
      path: `input:${path}`,
      expression: { language: 'text/fhirpath', expression },
    });
    const work = {
      resourceType: 'ActivityDefinition',
      id: 'w',
      status: 'active',
      dynamicValue: [
        input('lock-volume', '%calculated.lockVolume'),
        input('syringe-size', '%calculated.syringeSize'),
        input('supply', "'gloves'"),
        input('caution', "'Don\\'t force it.'"),
      ],
    };
    const [rule] = policyOf(
      plan('a', [action('x', { definitionCanonical: '#w' })], { contained: [work] }),
    ).rules;
    expect(rule?.work).toEqual({
      computed: ['lock-volume', 'syringe-size'],
      supplies: ['gloves'],
      cautions: ["Don't force it."],
    });
  });

  it('with the shortest limit for stale results that any layer states, 7 days where none does', () => {
    const stale = (value: number, unit: string) => ({
      extension: [{ url: policyExtension.labStaleAfter, valueDuration: { value, code: unit } }],
    });
    expect(policyOf(plan('a', [action('x')])).labStaleAfter).toEqual({ value: 7, unit: 'd' });
    expect(
      policyOf(
        plan('a', [action('x')], stale(7, 'd')),
        plan('b', [action('y')], stale(48, 'h')),
        plan('c', [action('z')], stale(3, 'd')),
      ).labStaleAfter,
    ).toEqual({ value: 48, unit: 'h' });
  });
});

describe('layers', () => {
  it('add, replace and switch off by id, and say where each rule is from', () => {
    const policy = policyOf(
      plan('base', [action('x'), action('y'), action('z')]),
      plan('unit', [
        action('y', { timingTiming: every(3, 'd') }),
        off('z', { documentation: [reason] }),
        action('new'),
      ]),
    );
    expect(
      policy.rules.map(({ id, origin, schedule }) => [id, origin.layer, scheduleText(schedule)]),
    ).toEqual([
      ['new', 1, 'every 7 days'],
      ['x', 0, 'every 7 days'],
      ['y', 1, 'every 3 days'],
    ]);
    expect(policy.layers.map(({ title, layer }) => [title, layer])).toEqual([
      ['base', 0],
      ['unit', 1],
    ]);
  });

  it('link to actions of a layer below, and take over what replaced it', () => {
    const base = plan('base', [event('anchor', 'repair')]);
    const unit = plan('unit', [event('splint', 'splint-removal', { relatedAction: after('anchor', 48) })]);
    expect(policyOf(base, unit).rules.find(({ id }) => id === 'splint')?.schedule).toMatchObject({
      after: 'repair',
    });
    const top = plan('top', [event('anchor', 'occlusion-treatment')]);
    expect(policyOf(base, unit, top).rules.find(({ id }) => id === 'splint')?.schedule).toMatchObject({
      after: 'occlusion-treatment',
    });
  });

  const base = plan('base', [action('x')]);
  const x = (more: Json) => plan('unit', [action('x', more)]);

  it('may not loosen a published maximum in silence', () => {
    const found = onlyError(base, x({ timingTiming: every(10, 'd') }));
    expect(found).toMatchObject({ layer: 1, path: 'PlanDefinition.action[0]', ruleId: 'x' });
    expect(found.message).toContain('x is loosened from "every 7 days" to "every 10 days"');
    expect(found.message).toContain(cited.citation);
    expect(found.cure).toContain('justification');
  });

  it.each<[string, Json]>([
    ['1 month instead of 4 weeks', { timingTiming: every(1, 'mo') }],
    [
      'fixed days further apart',
      {
        timingTiming: {
          repeat: { dayOfWeek: ['mon'], timeOfDay: ['08:00:00', '09:00:00'], period: 1, periodUnit: 'wk' },
        },
      },
    ],
    [
      'an end',
      { timingTiming: { repeat: { ...every(7, 'd').repeat, boundsDuration: { value: 3, code: 'wk' } } } },
    ],
    ['a greatest number', { timingTiming: { repeat: { ...every(7, 'd').repeat, count: 3 } } }],
    [
      'a later first time',
      {
        timingTiming: { repeat: { ...every(7, 'd').repeat, boundsRange: { low: { value: 20, code: 'd' } } } },
      },
    ],
    ['no timing', { timingTiming: undefined }],
    ['a narrower condition', { condition: [when("%line.type = 'picc'")] }],
    ['another activity', { code: code('flush') }],
    ['another scope', { extension: [{ url: policyExtension.ruleScope, valueCode: 'lumen' }] }],
    ['switched off', { condition: [when('false')] }],
  ])('%s loosens', (name, more) => {
    const below = name.includes('4 weeks')
      ? plan('base', [action('x', { timingTiming: every(4, 'wk') })])
      : base;
    const gap = name.includes('fixed') ? { timingTiming: every(6, 'd') } : {};
    const lower = name.includes('fixed') ? plan('base', [action('x', gap)]) : below;
    expect(onlyError(lower, x({ ...more, documentation: [uncited] })).message).toContain(cited.citation);
    expect(readPolicy([lower, x({ ...more, documentation: [uncited, reason] })]).ok).toBe(true);
  });

  it.each<[string, Json]>([
    ['a shorter interval', { timingTiming: every(5, 'd') }],
    ['the same in other units', { timingTiming: every(168, 'h') }],
    ['fixed days as close', { timingTiming: { repeat: { dayOfWeek: ['mon'], timeOfDay: ['08:00:00'] } } }],
    [
      'an earlier first time',
      {
        timingTiming: { repeat: { ...every(7, 'd').repeat, boundsRange: { low: { value: 1, code: 'd' } } } },
      },
    ],
  ])('%s does not loosen', (_, more) => {
    expect(readPolicy([base, x({ ...more, documentation: [uncited] })]).ok).toBe(true);
  });

  it('loosens an at-once rule by fewer findings, a hold by a shorter time, a condition by reading unknown as false', () => {
    const damp = (...values: string[]) =>
      action('x', {
        timingTiming: undefined,
        trigger: [
          {
            type: 'data-added',
            data: [
              {
                type: 'Observation',
                codeFilter: [
                  { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'dressing-condition' }] },
                  { path: 'value', code: values.map((value) => ({ code: value })) },
                ],
              },
            ],
          },
        ],
      });
    expect(
      onlyError(plan('base', [damp('damp', 'soiled')]), plan('unit', [damp('soiled')])).message,
    ).toContain('loosened');
    expect(readPolicy([plan('base', [damp('damp')]), plan('unit', [damp('damp', 'soiled')])]).ok).toBe(true);

    const hold = (hours: number) =>
      event('x', 'infusion-start', {
        documentation: [cited],
        relatedAction: after('r', hours),
        requiredBehavior: 'could',
      });
    const holds = plan('base', [event('r', 'repair'), hold(2)]);
    expect(onlyError(holds, plan('unit', [hold(1)])).message).toContain('2 hours');
    expect(readPolicy([holds, plan('unit', [hold(3)])]).ok).toBe(true);

    const onPicc = { condition: [when("%line.type = 'picc'")] };
    const unknownIsFalse = {
      ...onPicc,
      extension: [{ url: policyExtension.ruleWhenUnknown, valueCode: 'default' }],
    };
    expect(onlyError(plan('base', [action('x', onPicc)]), x(unknownIsFalse)).message).toContain('unknown');
  });

  it('needs no reason over a rule without a published source, nor a second one in the layer above', () => {
    expect(
      readPolicy([
        plan('base', [action('x', { documentation: [uncited] })]),
        x({ timingTiming: every(10, 'd') }),
      ]).ok,
    ).toBe(true);
    const hospital = plan('hospital', [
      action('x', { timingTiming: every(10, 'd'), documentation: [uncited, reason] }),
    ]);
    expect(readPolicy([base, hospital, x({ timingTiming: every(8, 'd') })]).ok).toBe(true);
    expect(onlyError(base, hospital, x({ timingTiming: every(14, 'd') })).layer).toBe(2);
  });

  it('with one url are refused', () => {
    const found = onlyError(base, plan('base', [action('y')]));
    expect(found).toMatchObject({ layer: 1, path: 'PlanDefinition.url' });
    expect(found.message).toContain('layer 0');
  });

  it('may not switch off what another rule counts from', () => {
    const chain = plan('base', [
      event('r', 'repair'),
      event('s', 'splint-removal', { relatedAction: after('r', 48) }),
    ]);
    expect(onlyError(chain, plan('unit', [off('r')]))).toMatchObject({ layer: 1, ruleId: 'r' });
    expect(readPolicy([chain, plan('unit', [off('r'), off('s')])]).ok).toBe(true);
  });

  it('that switch off what is not there are told so', () => {
    const reading = readPolicy([base, plan('unit', [off('xx')])]);
    expect(reading.ok).toBe(true);
    expect(reading.findings).toMatchObject([{ severity: 'warning', ruleId: 'xx', cure: 'Did you mean x?' }]);
  });
});

describe('refused, with path and cure', () => {
  const trigger = (more: Json, filters?: unknown[]) => ({
    timingTiming: undefined,
    trigger: [
      {
        type: 'data-added',
        data: [
          {
            type: 'Observation',
            codeFilter: filters ?? [
              { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'damage' }] },
            ],
          },
        ],
        ...more,
      },
    ],
  });
  const filter = (code_: string, value?: string, system: string = codeSystem.lineFinding) => [
    { path: 'code', code: [{ system, code: code_ }] },
    ...(value === undefined ? [] : [{ path: 'value', code: [{ code: value }] }]),
  ];

  it.each<[string, unknown, string, string]>([
    [
      'a fact that is none',
      action('x', { condition: [when('%labs.ank < 1')] }),
      'condition[0].expression.expression',
      '%labs.anc',
    ],
    [
      'a unit that is none',
      action('x', { condition: [when("%labs.anc < 1 'kg'")] }),
      'condition[0].expression.expression',
      '10*9/L',
    ],
    [
      'the second condition',
      action('x', { condition: [when('true'), when('%line.typ')] }),
      'condition[1].expression.expression',
      '%line.type',
    ],
    [
      'another language',
      action('x', {
        condition: [{ kind: 'applicability', expression: { language: 'text/cql', expression: 'true' } }],
      }),
      'condition[0].expression.language',
      'text/fhirpath',
    ],
    [
      'a stop condition',
      action('x', { condition: [{ ...when('true'), kind: 'stop' }] }),
      'condition[0].kind',
      'applicability',
    ],
    [
      'a lumen fact of a line rule',
      action('x', { condition: [when("%lumen.use = 'locked'")] }),
      'condition',
      'lumen',
    ],
    [
      'an activity that is none',
      action('x', { code: code('dresing-change') }),
      'code',
      'Did you mean dressing-change?',
    ],
    ['no activity', action('x', { code: undefined }), 'code', codeSystem.lineCareActivity],
    [
      'a timing with when',
      action('x', { timingTiming: { repeat: { ...every(1, 'd').repeat, when: ['AC'] } } }),
      'timingTiming.repeat.when[0]',
      'timeOfDay',
    ],
    [
      'a fixed date',
      action('x', { timingTiming: undefined, timingDateTime: '2026-01-01' }),
      'timingDateTime',
      'timingTiming',
    ],
    [
      'timing and trigger',
      action('x', { ...trigger({}), timingTiming: every(1, 'd') }),
      '',
      'an action of each',
    ],
    ['a named event', action('x', trigger({ type: 'named-event' })), 'trigger[0].type', 'data-added'],
    [
      'a finding that is none',
      action('x', trigger({}, filter('damag'))),
      'trigger[0].data[0].codeFilter',
      'Did you mean damage?',
    ],
    [
      'a value that is none',
      action('x', trigger({}, filter('dressing-condition', 'moist'))),
      'trigger[0].data[0].codeFilter',
      'damp',
    ],
    [
      'a finding of another system',
      action('x', trigger({}, filter('damage', undefined, 'http://loinc.org'))),
      'trigger[0].data[0].codeFilter[0].code',
      codeSystem.lineFinding,
    ],
    [
      'a value set',
      action(
        'x',
        trigger({}, [...filter('damage'), { path: 'value', code: [{ code: 'leak' }], valueSet: 'http://x' }]),
      ),
      'trigger[0].data[0].codeFilter[1].valueSet',
      'one by one',
    ],
    ['a trigger with a condition', action('x', trigger({ condition: {} })), 'trigger[0].condition', 'action'],
    [
      'a link to nothing',
      event('x', 'flush', { relatedAction: after('repare', 1) }),
      'relatedAction[0].actionId',
      'Did you mean repair?',
    ],
    [
      'a chain with no offset',
      event('x', 'flush', { relatedAction: after('repair') }),
      'relatedAction[0].offsetDuration',
      'how long',
    ],
    [
      'while another is done',
      event('x', 'flush', { relatedAction: [{ ...after('repair', 1)[0], relationship: 'concurrent' }] }),
      'relatedAction[0].relationship',
      'after',
    ],
    [
      'before another, with no offset',
      event('x', 'flush', { relatedAction: before('repair') }),
      'relatedAction[0].offsetDuration',
      'how long before',
    ],
    [
      'a hold before another',
      event('x', 'flush', { relatedAction: before('repair', 1), requiredBehavior: 'could' }),
      'requiredBehavior',
      'relationship after',
    ],
    [
      'before itself',
      event('x', 'repair', { relatedAction: before('repair', 1) }),
      'relatedAction[0].actionId',
      'another activity',
    ],
    [
      'an interval before another',
      event('x', 'flush', { relatedAction: before('repair', 1), timingTiming: every(1, 'd') }),
      'timingTiming',
      'timeOfDay',
    ],
    [
      'a time of day after another',
      event('x', 'flush', {
        relatedAction: after('repair', 1),
        timingTiming: { repeat: { timeOfDay: ['20:00:00'] } },
      }),
      '',
      'an action of each',
    ],
    [
      'a finding before a chain',
      event('x', 'flush', { relatedAction: after('repair', 1), trigger: [found('damage')] }),
      '',
      'an action of each',
    ],
    [
      'a hold from a finding for a time',
      event('x', 'flush', {
        relatedAction: after('repair', 1),
        trigger: [found('damage')],
        requiredBehavior: 'could',
      }),
      'relatedAction[0].offsetDuration',
      'begins with a finding',
    ],
    [
      'a range of offsets',
      event('x', 'flush', { relatedAction: [{ ...after('repair', 1)[0], offsetRange: {} }] }),
      'relatedAction[0].offsetRange',
      'offsetDuration',
    ],
    [
      'after itself',
      event('x', 'repair', { relatedAction: after('repair', 1) }),
      'relatedAction[0].actionId',
      'another activity',
    ],
    [
      'a scope that is none',
      action('x', { extension: [{ url: policyExtension.ruleScope, valueCode: 'arm' }] }),
      'extension[0].valueCode',
      'exit-site',
    ],
    [
      'a lead with no unit',
      action('x', { extension: [{ url: policyExtension.ruleLead, valueDuration: { value: 1 } }] }),
      'extension[0].valueDuration.code',
      'Duration',
    ],
    ['a modifier', action('x', { modifierExtension: [] }), 'modifierExtension', 'Leave it out'],
    ['work that is not there', action('x', { definitionCanonical: '#w' }), 'definitionCanonical', 'Contain'],
    ['a priority that is none', action('x', { priority: 'soon' }), 'priority', 'R4'],
    ['an id that is none', action('x y'), 'id', 'letters'],
    ['no id', { code: code('flush'), timingTiming: every(1, 'd') }, 'id', 'letters'],
    ['no action', 'x', '', 'R4'],
  ])('%s', (_, wrong, path, cure) => {
    const error = onlyError(plan('a', [event('repair', 'repair'), wrong]));
    expect(error.path).toBe(path === '' ? 'PlanDefinition.action[1]' : `PlanDefinition.action[1].${path}`);
    expect(error.cure).toContain(cure);
    expect(error.message).toMatch(/\S.*\.$/s);
  });

  it('two actions with one id', () => {
    expect(onlyError(plan('a', [action('x'), action('x')]))).toMatchObject({
      path: 'PlanDefinition.action[1].id',
      ruleId: 'x',
    });
  });

  it('actions that wait for one another, within a layer and across layers', () => {
    const chain = (id: string, activity: string, target: string) =>
      event(id, activity, { relatedAction: after(target, 1) });
    const found = onlyError(
      plan('a', [chain('a', 'flush', 'b'), chain('b', 'lock', 'c'), chain('c', 'bath', 'a')]),
    );
    expect(found.message).toContain('a after b after c after a');
    const across = onlyError(
      plan('a', [event('a', 'flush'), chain('b', 'lock', 'a')]),
      plan('u', [chain('a', 'flush', 'b')]),
    );
    expect(across).toMatchObject({ layer: 1, ruleId: 'a' });
  });

  it.each<[string, unknown, string]>([
    ['a Bundle', { resourceType: 'Bundle' }, 'PlanDefinition'],
    ['nothing', null, 'PlanDefinition'],
    ['no url', { ...plan('a', [action('x')]), url: undefined }, 'PlanDefinition.url'],
    ['a status that is none', plan('a', [action('x')], { status: 'in force' }), 'PlanDefinition.status'],
    [
      'a modifier',
      plan('a', [action('x')], { modifierExtension: [{ url: 'x' }] }),
      'PlanDefinition.modifierExtension',
    ],
    [
      'a limit of 0 for results',
      plan('a', [action('x')], {
        extension: [{ url: policyExtension.labStaleAfter, valueDuration: { value: 0, code: 'd' } }],
      }),
      'PlanDefinition.extension[0].valueDuration.value',
    ],
    ['no list of actions', plan('a', 'x' as unknown as unknown[]), 'PlanDefinition.action'],
  ])('%s', (_, layer, path) => {
    expect(onlyError(layer).path).toBe(path);
  });

  it('no layer at all', () => {
    expect(onlyError().cure).toContain('at least one');
  });
});

describe('not used, and said so', () => {
  it.each<[string, Json]>([
    ['action', { action: [action('y')] }],
    ['dynamicValue', { dynamicValue: [] }],
    ['participant', { participant: [] }],
    ['output', { output: [] }],
    ['cardinalityBehavior', { cardinalityBehavior: 'multiple' }],
    ['selectionBehavior', { selectionBehavior: 'all' }],
    ['requiredBehavior', { requiredBehavior: 'could' }],
    ['documentation', { documentation: [] }],
    ['extension[0].url', { extension: [{ url: `${policyExtension.ruleScope}s`, valueCode: 'lumen' }] }],
    ['definitionCanonical', { definitionCanonical: 'https://elsewhere.example/ActivityDefinition/x' }],
  ])('%s of an action', (path, more) => {
    const reading = readPolicy([plan('a', [action('x', more)])]);
    expect(reading.ok).toBe(true);
    expect(reading.findings).toMatchObject([
      { severity: 'warning', path: `PlanDefinition.action[0].${path}`, ruleId: 'x' },
    ]);
  });

  it.each<[string, Json]>([
    ['goal', { goal: [] }],
    ['library', { library: [] }],
    ['version', { version: undefined }],
    ['status', { status: 'retired' }],
    ['contained[0]', { contained: [{ resourceType: 'ActivityDefinition', id: 'w' }] }],
  ])('%s of a plan', (path, more) => {
    expect(readPolicy([plan('a', [action('x')], more)])).toMatchObject({
      ok: true,
      findings: [{ severity: 'warning', path: `PlanDefinition.${path}` }],
    });
  });

  it('the reading that was taken of a range, also in the notes of the rule', () => {
    const range = { repeat: { frequency: 1, period: 5, periodMax: 7, periodUnit: 'd' } };
    const reading = readPolicy([plan('a', [action('x', { timingTiming: range })])]);
    expect(reading.findings).toMatchObject([
      { severity: 'information', path: 'PlanDefinition.action[0].timingTiming' },
    ]);
    if (reading.ok) expect(reading.policy.rules[0]?.notes.join()).toContain('read as 5 d');
  });
});

describe('lintPlan', () => {
  it('only points out what a layer below may have', () => {
    const unit = plan('unit', [
      event('s', 'splint-removal', { relatedAction: after('repair', 48) }),
      off('x'),
    ]);
    expect(lintPlan(unit).map(({ severity, ruleId }) => [severity, ruleId])).toEqual([
      ['warning', 's'],
      ['information', 'x'],
    ]);
    expect(errors(readPolicy([unit]).findings)).toHaveLength(1);
  });
});

describe('whatever it is given', () => {
  const plausible = fc.letrec((tie) => ({
    value: fc.oneof(
      { maxDepth: 4 },
      fc.constantFrom<unknown>(
        'x',
        'applicability',
        'false',
        '%line.accessed',
        'text/fhirpath',
        1,
        -1,
        null,
        true,
        codeSystem.lineCareActivity,
        'flush',
        'after',
        'data-added',
      ),
      fc.array(tie('value'), { maxLength: 3 }),
      fc.dictionary(
        fc.constantFrom(
          'id',
          'code',
          'coding',
          'system',
          'condition',
          'kind',
          'expression',
          'language',
          'timingTiming',
          'repeat',
          'period',
          'periodUnit',
          'trigger',
          'type',
          'data',
          'codeFilter',
          'relatedAction',
          'actionId',
          'relationship',
          'extension',
          'url',
          'contained',
          'definitionCanonical',
          'documentation',
          '__proto__',
          'toString',
          'toJSON',
          'constructor',
        ),
        tie('value'),
        { maxKeys: 5 },
      ),
    ),
  })).value;

  it('never throws, and says something of whatever it refuses', () => {
    const layer = fc.oneof(
      fc.jsonValue(),
      fc.array(plausible, { maxLength: 4 }).map((actions) => plan('a', actions)),
      fc.tuple(plausible, fc.integer({ min: 0, max: 30 })).map(([value, index]) => {
        const base = bundledPlan('base') as unknown as { action: Json[] };
        const chosen = base.action[index];
        const keys = Object.keys(chosen ?? {});
        if (chosen !== undefined) chosen[keys[index % keys.length] ?? 'id'] = value;
        return base;
      }),
    );
    fc.assert(
      fc.property(fc.array(layer, { maxLength: 3 }), (layers) => {
        const before = JSON.stringify(layers);
        const reading = readPolicy(layers);
        expect(reading.ok).toBe(errors(reading.findings).length === 0);
        for (const one of layers) expect(Array.isArray(lintPlan(one))).toBe(true);
        expect(JSON.stringify(layers)).toBe(before);
      }),
      { numRuns: 150 },
    );
  });

  it('does not take a lone plan or nothing for layers', () => {
    expect(readPolicy(undefined as unknown as unknown[]).ok).toBe(false);
    expect(readPolicy(bundledPlan('base') as unknown as unknown[]).ok).toBe(true);
  });
});
