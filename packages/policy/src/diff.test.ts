import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { asksTheSame, diffPolicies, ruleDifferences } from './diff.js';
import type { Rule } from './model.js';
import {
  act,
  ban,
  cited,
  code,
  done,
  every,
  found,
  lasting,
  named,
  plan as planOf,
  policyOf,
  reason,
  ruleOf as oneRule,
  scope,
  until,
  when,
  type Json,
} from './plan.kit.js';

const condition = (expression: string) => ({ condition: [when(expression)] });
const timing = (period: number, unit = 'd') => ({ timingTiming: every(period, unit) });
const action = (id: string, more: Json = {}): Json => act(id, 'bath', { title: id, ...timing(1), ...more });
const plan = (name: string, ...actions: Json[]): Json => planOf(name, actions);
const url = (name: string) => `https://hospital.example/${name}`;

const ruleOf = (more: Json) => oneRule(action('x', more));

describe('two rules', () => {
  it.each<[string, Partial<Rule>, boolean]>([
    ['reading of unknown facts', { whenUnknown: 'default' }, false],
    ['notes', { notes: ['A note.'] }, true],
    ['work', { work: { computed: ['flush-volume'], supplies: [], cautions: [] } }, true],
  ])('that differ in their %s alone say so, from either side', (name, more, same) => {
    const rule = ruleOf({});
    const other = { ...rule, ...more };
    for (const [a, b] of [
      [rule, other],
      [other, rule],
    ] as const) {
      expect(ruleDifferences(a, b)).toEqual([name]);
      expect(asksTheSame(a, b)).toBe(same);
      expect(asksTheSame(a, { ...b, lead: { value: 1, unit: 'h' } })).toBe(false);
    }
  });

  it.each<[string, Json, boolean]>([
    ['title', { title: 'other' }, true],
    ['beginning', timing(2), false],
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
    ['participants', { participant: [{ type: 'patient' }] }, true],
    ['scope', { extension: [scope('lumen')] }, false],
    ['activity', { code: code('teaching') }, false],
    ['sources', { documentation: [cited] }, true],
  ])('that differ in their %s say so', (name, more, same) => {
    const [a, b] = [ruleOf({}), ruleOf(more)];
    expect(ruleDifferences(a, b)).toEqual([name]);
    expect(asksTheSame(a, b)).toBe(same);
  });

  it.each<[string, Json]>([
    ['start', { condition: [when('%line.used', 'start'), until('%last.repair >= %began')] }],
    ['stop', { condition: [until('%last.flush >= %began')] }],
  ])('that a trigger begins and that differ in their %s say so', (name, more) => {
    const begun = { timingTiming: undefined, trigger: [done('insertion')] };
    const a = ruleOf({ ...begun, condition: [until('%last.repair >= %began')] });
    expect(ruleDifferences(a, ruleOf({ ...begun, ...more }))).toEqual([name]);
  });

  it('of which one forbids, or forbids longer, say so', () => {
    const begun = { trigger: [found('damage')] };
    const asks = oneRule(act('x', 'bath', begun));
    const forbids = (hours: number) =>
      oneRule(ban('x', 'bath', { ...begun, timingTiming: lasting(hours, 'h') }));
    expect(ruleDifferences(asks, forbids(1))).toEqual(['effect', 'length']);
    expect(ruleDifferences(forbids(1), forbids(2))).toEqual(['length']);
    expect(asksTheSame(asks, forbids(1))).toBe(false);
  });

  it('do not differ where a condition is named, or scopes stand in another order', () => {
    const onArm = "%line.type in ('picc' | 'midline')";
    const extension = [scope('line'), scope('exit-site')];
    const a = oneRule(action('x', { ...condition('%isArmLine'), extension }), {
      extension: [named('isArmLine', onArm)],
    });
    const b = ruleOf({ ...condition(`(${onArm})`), extension: [...extension].reverse() });
    expect(ruleDifferences(a, b)).toEqual([]);
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
    documentation: [reason],
  });
  const before = policyOf(plan('a', action('keep'), action('change'), action('drop'), action('off')));

  it('are told apart rule by rule', () => {
    const after = policyOf(
      plan('a', action('keep'), action('change'), action('off')),
      plan('b', action('change', timing(12, 'h')), off('off'), action('add')),
    );
    const diff = diffPolicies(before, after);
    expect(diff).toMatchObject({
      added: [{ id: 'add' }],
      removed: [{ id: 'drop' }],
      switchedOff: [{ rule: { id: 'off' }, by: { by: { url: url('b') }, notes: [reason.display] } }],
      changed: [{ id: 'change', differences: ['beginning'] }],
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
      plan('b', action('x', timing(12, 'h'))),
      plan('c', action('x', timing(6, 'h'))),
    );
    expect(
      policy.replaced?.map(({ id, before, by }) => [id, before.origin.url, before.begins, by.url]),
    ).toEqual([
      ['x', url('a'), { kind: 'interval', every: { value: 1, unit: 'd' } }, url('b')],
      ['x', url('b'), { kind: 'interval', every: { value: 12, unit: 'h' } }, url('c')],
    ]);
  });
});
