import { codeSystem, policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { asksTheSame, diffPolicies, ruleDifferences } from './diff.js';
import type { Policy } from './model.js';
import { readPolicy } from './read-policy.js';

type Json = Record<string, unknown>;

const every = (period: number, periodUnit = 'd') => ({
  timingTiming: { repeat: { frequency: 1, period, periodUnit } },
});
const condition = (expression: string) => ({
  condition: [{ kind: 'applicability', expression: { language: 'text/fhirpath', expression } }],
});

function action(id: string, more: Json = {}): Json {
  return {
    id,
    title: id,
    code: [{ coding: [{ system: codeSystem.lineCareActivity, code: 'bath' }] }],
    documentation: [{ type: 'citation', citation: 'Common practice, no source: invented for a test.' }],
    ...every(1),
    ...more,
  };
}

function plan(name: string, ...actions: Json[]): Json {
  return {
    resourceType: 'PlanDefinition',
    url: `https://a.example/${name}`,
    version: '1',
    status: 'active',
    action: actions,
  };
}

function policyOf(...layers: Json[]): Policy {
  const reading = readPolicy(layers);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const ruleOf = (more: Json) => {
  const [rule] = policyOf(plan('a', action('x', more))).rules;
  if (!rule) throw new Error('no rule');
  return rule;
};

describe('two rules', () => {
  it.each<[string, Json, boolean]>([
    ['title', { title: 'other' }, true],
    ['schedule', every(2), false],
    ['condition', condition("%line.type = 'picc'"), false],
    [
      'lead',
      { extension: [{ url: policyExtension.ruleLead, valueDuration: { value: 1, code: 'h' } }] },
      false,
    ],
    [
      'minimum spacing',
      { extension: [{ url: policyExtension.ruleMinimumSpacing, valueDuration: { value: 1, code: 'h' } }] },
      false,
    ],
    ['priority', { priority: 'urgent' }, false],
    ['scope', { extension: [{ url: policyExtension.ruleScope, valueCode: 'lumen' }] }, false],
    ['activity', { code: [{ coding: [{ system: codeSystem.lineCareActivity, code: 'teaching' }] }] }, false],
    ['sources', { documentation: [{ type: 'citation', citation: 'Another.' }] }, true],
  ])('that differ in their %s say so', (name, more, same) => {
    const [a, b] = [ruleOf({}), ruleOf(more)];
    expect(ruleDifferences(a, b)).toEqual([name]);
    expect(asksTheSame(a, b)).toBe(same);
  });

  it('of equal content do not differ, whatever the layer and the order of their members', () => {
    const a = ruleOf({});
    const b = {
      ...Object.fromEntries(Object.entries(a).reverse()),
      origin: { ...a.origin, layer: 7 },
    } as typeof a;
    expect(ruleDifferences(a, b)).toEqual([]);
  });
});

describe('two policies', () => {
  const off = (id: string) => ({
    id,
    ...condition('false'),
    documentation: [{ type: 'justification', display: 'Not here.' }],
  });
  const before = policyOf(plan('a', action('keep'), action('change'), action('drop'), action('off')));

  it('are told apart rule by rule', () => {
    const after = policyOf(
      plan('a', action('keep'), action('change'), action('off')),
      plan('b', action('change', every(12, 'h')), off('off'), action('add')),
    );
    const diff = diffPolicies(before, after);
    expect(diff).toMatchObject({
      added: [{ id: 'add' }],
      removed: [{ id: 'drop' }],
      switchedOff: [
        { rule: { id: 'off' }, by: { by: { url: 'https://a.example/b' }, notes: ['Not here.'] } },
      ],
      changed: [{ id: 'change', differences: ['schedule'] }],
      same: 1,
    });
    expect(diff).not.toHaveProperty('labStaleAfter');
  });

  it('are the same as themselves', () => {
    expect(diffPolicies(before, before)).toEqual({
      added: [],
      removed: [],
      switchedOff: [],
      changed: [],
      same: 4,
    });
  });

  it('tell when a result is stale at another time', () => {
    const stale = {
      ...plan('a', action('keep')),
      extension: [{ url: policyExtension.labStaleAfter, valueDuration: { value: 2, code: 'd' } }],
    };
    expect(diffPolicies(before, policyOf(stale)).labStaleAfter).toEqual({
      before: { value: 7, unit: 'd' },
      after: { value: 2, unit: 'd' },
    });
  });
});

describe('what a layer replaced', () => {
  it('is kept from the lowest layer up, also where a rule is replaced twice', () => {
    const policy = policyOf(
      plan('a', action('x')),
      plan('b', action('x', every(12, 'h'))),
      plan('c', action('x', every(6, 'h'))),
    );
    expect(
      policy.replaced?.map(({ id, before, by }) => [id, before.origin.url, before.schedule, by.url]),
    ).toEqual([
      [
        'x',
        'https://a.example/a',
        { kind: 'interval', every: { value: 1, unit: 'd' } },
        'https://a.example/b',
      ],
      [
        'x',
        'https://a.example/b',
        { kind: 'interval', every: { value: 12, unit: 'h' } },
        'https://a.example/c',
      ],
    ]);
  });
});
