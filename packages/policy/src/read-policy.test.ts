import { codeSystem, policyExtension } from '@dwellward/profiles';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lintCodes, lintPlan, readPolicy, scheduleText } from './index.js';
import {
  act,
  action,
  ban,
  before,
  done,
  errors,
  every,
  found,
  lasting,
  off,
  onlyError,
  options,
  ordered,
  plan,
  policyOf,
  read,
  reason,
  span,
  until,
  when,
  type Json,
} from './plan.kit.js';

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
    expect(policy.rules.map((rule) => [rule.id, rule.origin.layer, scheduleText(rule)])).toEqual([
      ['new', 1, 'every 7 days'],
      ['x', 0, 'every 7 days'],
      ['y', 1, 'every 3 days'],
    ]);
    expect(policy.layers.map(({ title, layer }) => [title, layer])).toEqual([
      ['base', 0],
      ['unit', 1],
    ]);
  });

  const planned = (id: string, activity: string) => act(id, activity, { trigger: [ordered(activity)] });
  const counted = act('talk', 'teaching', { relatedAction: before('anchor', 48) });

  it('count back from an act that a layer below plans, and take over what replaced it', () => {
    const base = plan('base', [planned('anchor', 'insertion')]);
    const unit = plan('unit', [counted]);
    const begins = (...layers: Json[]) => policyOf(...layers).rules.find(({ id }) => id === 'talk')?.begins;
    expect(begins(base, unit)).toMatchObject({ kind: 'before', of: 'insertion' });
    expect(begins(base, unit, plan('top', [planned('anchor', 'removal')]))).toMatchObject({ of: 'removal' });
  });

  it('may not switch off an act that another rule is counted back from, nor take its order away', () => {
    const base = plan('base', [planned('anchor', 'insertion'), counted]);
    expect(onlyError(base, plan('unit', [off('anchor')]))).toMatchObject({
      layer: 1,
      ruleId: 'anchor',
      code: 'switched-off',
    });
    expect(read(base, plan('unit', [off('anchor'), off('talk')])).ok).toBe(true);
    const unplanned = act('anchor', 'insertion', { timingTiming: every(1, 'd') });
    expect(onlyError(base, plan('unit', [unplanned]))).toMatchObject({ layer: 1, code: 'not-planned' });
  });

  it('may not count back from what a layer below switched off', () => {
    const base = plan('base', [planned('anchor', 'insertion')]);
    expect(onlyError(base, plan('unit', [off('anchor')]), plan('top', [counted]))).toMatchObject({
      layer: 2,
      ruleId: 'talk',
      code: 'switched-off',
      path: 'PlanDefinition.action[0].relatedAction[0].actionId',
    });
  });

  it('with one url are refused', () => {
    const found = onlyError(plan('base', [action('x')]), plan('base', [action('y')]));
    expect(found).toMatchObject({ layer: 1, path: 'PlanDefinition.url', code: 'same-url' });
    expect(found.message).toContain('layer 0');
  });

  it('that switch off what is not there are told so', () => {
    const reading = read(plan('base', [action('x')]), plan('unit', [off('xx')]));
    expect(reading.ok).toBe(true);
    expect(reading.findings).toMatchObject([
      { severity: 'warning', code: 'nothing-to-switch-off', ruleId: 'xx', cure: 'Did you mean x?' },
    ]);
  });
});

describe('a plan is refused, with path and cure:', () => {
  it.each<[string, unknown, string, string]>([
    ['a Bundle', { resourceType: 'Bundle' }, '', 'not-a-plan'],
    ['nothing', null, '', 'not-a-plan'],
    ['no url', { ...plan('a', [action('x')]), url: undefined }, '.url', 'missing-url'],
    ['a status that is none', plan('a', [action('x')], { status: 'in force' }), '.status', 'bad-status'],
    [
      'a modifier',
      plan('a', [action('x')], { modifierExtension: [{ url: 'x' }] }),
      '.modifierExtension',
      'unknown-modifier',
    ],
    [
      'a limit of 0 for results',
      plan('a', [action('x')], {
        extension: [{ url: policyExtension.labStaleAfter, valueDuration: span(0, 'd') }],
      }),
      '.extension[0].valueDuration.value',
      'bad-extension',
    ],
    ['no list of actions', plan('a', 'x' as unknown as unknown[]), '.action', 'not-fhir'],
  ])('%s', (_, layer, path, code) => {
    expect(onlyError(layer)).toMatchObject({ path: `PlanDefinition${path}`, code });
  });

  it('no layer at all', () => {
    expect(onlyError()).toMatchObject({
      code: 'no-layer',
      cure: expect.stringContaining('at least one') as string,
    });
  });
});

describe('not used of a plan, and said so', () => {
  it.each<[string, Json, string]>([
    ['goal', { goal: [] }, 'unused-element'],
    ['library', { library: [] }, 'unused-element'],
    ['version', { version: undefined }, 'missing-version'],
    ['status', { status: 'retired' }, 'retired'],
    ['contained[0]', { contained: [{ resourceType: 'ActivityDefinition', id: 'w' }] }, 'unused-definition'],
    ['useContext', { useContext: [] }, 'plan-reach'],
    ['extension[0].url', { extension: [{ url: 'https://x.example' }] }, 'unused-extension'],
  ])('%s', (path, more, code) => {
    expect(read(plan('a', [action('x')], more))).toMatchObject({
      ok: true,
      findings: [{ severity: 'warning', path: `PlanDefinition.${path}`, code }],
    });
  });
});

describe('lintPlan', () => {
  it('only points out what a layer below may have', () => {
    const unit = plan('unit', [act('s', 'teaching', { relatedAction: before('insertion', 48) }), off('x')]);
    expect(lintPlan(unit).map(({ severity, code, ruleId }) => [severity, code, ruleId])).toEqual([
      ['information', 'nothing-to-switch-off', 'x'],
      ['warning', 'unknown-action', 's'],
    ]);
    expect(errors(read(unit).findings)).toHaveLength(1);
  });
});

it('every finding has a code that stands in the list, once', () => {
  expect(new Set(lintCodes).size).toBe(lintCodes.length);
  for (const code of lintCodes) expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
});

/** One action of every kind. */
const soundActions = (): Json[] => [
  action('interval', { condition: [when('%line.cuffed')] }),
  act('in', 'insertion', { trigger: [ordered('insertion')] }),
  act('before', 'teaching', { relatedAction: before('in', 24) }),
  act('after', 'splint-removal', { trigger: [done('repair')], timingDuration: span(48, 'h') }),
  ban('ban', 'bath', { trigger: [found('damage', 'leak')], condition: [until('%last.repair >= %began')] }),
  ban('for-a-time', 'flush', { trigger: [done('repair')], timingTiming: lasting(2, 'h') }),
  {
    id: 'group',
    trigger: [found('fever')],
    documentation: [reason],
    action: [{ id: 'member', code: act('x', 'fever-response')['code'] }],
  },
];

describe('whatever it is given', () => {
  it('reads these as they are', () => {
    expect(policyOf(plan('a', soundActions())).rules).toHaveLength(7);
  });

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
        'stop',
        '%began > %last.flush',
        'Procedure',
        'ServiceRequest',
        codeSystem.lineFinding,
        policyExtension.namedExpression,
        policyExtension.ruleScope,
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
          'action',
          'valueExpression',
          'valueCode',
          'name',
          'timingDuration',
          'boundsDuration',
          'participant',
          'requiredBehavior',
          'output',
          'dynamicValue',
          'path',
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
        const actions = soundActions();
        const chosen = actions[index % actions.length];
        const keys = Object.keys(chosen ?? {});
        if (chosen !== undefined) chosen[keys[index % keys.length] ?? 'id'] = value;
        return plan('a', actions);
      }),
      fc.tuple(plausible, plausible).map(([extension, contained]) =>
        plan('a', [action('x', { definitionCanonical: '#w' })], {
          extension: [extension],
          contained: [contained],
        }),
      ),
    );
    fc.assert(
      fc.property(fc.array(layer, { maxLength: 3 }), (layers) => {
        const before = JSON.stringify(layers);
        const reading = readPolicy(layers, { activities: [...layers, ...(options.activities ?? [])] });
        expect(reading.ok).toBe(errors(reading.findings).length === 0);
        for (const one of layers) expect(Array.isArray(lintPlan(one, options))).toBe(true);
        expect(JSON.stringify(layers)).toBe(before);
      }),
      { numRuns: 150 },
    );
  });

  it('does not take a lone plan or nothing for layers', () => {
    expect(readPolicy(undefined as unknown as unknown[]).ok).toBe(false);
    expect(readPolicy(plan('a', [action('x')]) as unknown as unknown[], options).ok).toBe(true);
  });
});
