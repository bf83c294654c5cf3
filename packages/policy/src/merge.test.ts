import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { lintPlan, type LintFinding } from './index.js';
import {
  act,
  action,
  before,
  every,
  off,
  onlyError,
  ordered,
  plan,
  policyOf,
  read,
  reason,
  span,
  uncited,
  type Json,
} from './plan.kit.js';

const said = (findings: readonly LintFinding[]) =>
  findings.map(({ severity, code, ruleId, layer }) => `${severity} ${code} ${ruleId ?? '-'} ${layer}`);
const days = (id: string, period: number, more: Json = {}) =>
  action(id, { timingTiming: every(period, 'd'), ...more });
const reasoned = (id: string, period: number) => days(id, period, { documentation: [uncited, reason] });
const group = (id: string, ...members: Json[]): Json => ({ id, action: members });
const rules = (...layers: Json[]) => policyOf(...layers).rules.map(({ id }) => id);

describe('a rule of a published source', () => {
  const base = plan('base', [days('x', 7)]);

  it('may be tightened without a word', () => {
    expect(read(base, plan('unit', [days('x', 5)])).findings).toEqual([]);
    expect(policyOf(base, plan('unit', [days('x', 5)])).loosened).toEqual([]);
  });

  it('is loosened only with a reason, which every output then has', () => {
    const found = onlyError(base, plan('unit', [days('x', 9, { documentation: [uncited] })]));
    expect(found).toMatchObject({ code: 'loosened', ruleId: 'x', layer: 1 });
    expect(found.message).toContain('Guideline 2011, recommendation 7');
    expect(found.loosened).toMatchObject({
      sources: [expect.stringContaining('Guideline 2011')],
      reasons: [],
    });
    const { loosened = [] } = policyOf(base, plan('unit', [reasoned('x', 9)]));
    expect(loosened).toMatchObject([
      { id: 'x', how: 'loosened', reasons: ['Agreed in our infection control meeting.'], by: { layer: 1 } },
    ]);
    expect(loosened[0]?.now).toMatchObject({
      activity: 'dressing-change',
      effect: 'ask',
      whenUnknown: 'protective',
    });
    expect(said(read(base, plan('unit', [reasoned('x', 9)])).findings)).toEqual([
      'warning loosened-with-reason x 1',
    ]);
  });

  it('stays measured by its source through all layers, and a reason is given once', () => {
    const unit = plan('unit', [reasoned('x', 9)]);
    const repeats = plan('top', [days('x', 9, { documentation: [uncited] })]);
    expect(said(read(base, unit, repeats).findings)).toEqual(['warning loosened-with-reason x 1']);
    expect(policyOf(base, unit, repeats).loosened).toMatchObject([
      { id: 'x', by: { layer: 2 }, reasons: ['Agreed in our infection control meeting.'] },
    ]);
    const more = plan('top', [days('x', 11, { documentation: [uncited] })]);
    expect(onlyError(base, unit, more)).toMatchObject({ code: 'loosened', layer: 2 });
    const back = plan('top', [days('x', 7, { documentation: [uncited] })]);
    expect(policyOf(base, unit, back).loosened).toEqual([]);
  });

  it('that is of common practice binds nobody', () => {
    const practice = plan('base', [days('x', 7, { documentation: [uncited] })]);
    expect(read(practice, plan('unit', [days('x', 9, { documentation: [uncited] })])).findings).toEqual([]);
  });

  it('that is switched off is a loosening without a rule of now', () => {
    const { loosened: found = [] } = policyOf(base, plan('unit', [off('x', { documentation: [reason] })]));
    expect(found).toMatchObject([{ id: 'x', how: 'switched-off' }]);
    expect(found[0]).not.toHaveProperty('now');
    expect(onlyError(base, plan('unit', [off('x')]))).toMatchObject({ code: 'loosened' });
  });

  it('is told of in the order of the rules', () => {
    const two = plan('base', [days('b', 7), days('a', 7), days('c', 7)]);
    const unit = plan('unit', [reasoned('c', 9), reasoned('a', 9), reasoned('b', 9)]);
    expect(policyOf(two, unit).loosened?.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
    expect(policyOf(two, unit).replaced?.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  });
});

describe('what a layer does to the rules below it', () => {
  const base = plan('base', [group('g', days('x', 7), days('y', 7)), days('z', 7)]);
  const because = { documentation: [reason] };

  it('tells what was replaced and what was switched off, by which layer', () => {
    const { replaced } = policyOf(base, plan('unit', [days('x', 5), off('z', because)]));
    expect(replaced?.map(({ id, how, by, before: was }) => [id, how, by.layer, was.origin.layer])).toEqual([
      ['x', 'replaced', 1, 0],
      ['z', 'switched-off', 1, 0],
    ]);
    const twice = policyOf(base, plan('unit', [days('x', 5)]), plan('top', [days('x', 3)])).replaced;
    expect(twice?.map(({ id, by }) => [id, by.layer])).toEqual([
      ['x', 1],
      ['x', 2],
    ]);
  });

  it('switches off all rules of a group by its id, but those that the layer has itself', () => {
    expect(rules(base, plan('unit', [off('g', because)]))).toEqual(['z']);
    expect(rules(base, plan('unit', [off('g', because), days('y', 5)]))).toEqual(['y', 'z']);
    expect(rules(base, plan('unit', [days('g', 7, because)]))).toEqual(['g', 'z']);
    expect(rules(base, plan('unit', [{ ...group('g', days('n', 7)), ...because }]))).toEqual(['n', 'z']);
    expect(rules(base, plan('unit', [{ ...group('z', days('n', 7)), ...because }]))).toEqual(['n', 'x', 'y']);
  });

  it('may put back what a layer below switched off', () => {
    expect(rules(base, plan('unit', [off('z', because)]), plan('top', [days('z', 7)]))).toEqual([
      'x',
      'y',
      'z',
    ]);
  });

  it('says what is switched off and is not there, with what was meant', () => {
    const nothing = (id: string, ...layers: Json[]) =>
      read(...layers, plan('unit', [off(id)])).findings.filter(
        ({ code }) => code === 'nothing-to-switch-off',
      );
    expect(nothing('zz', base)[0]).toMatchObject({ severity: 'warning', layer: 1, cure: 'Did you mean z?' });
    expect(nothing('gg', base)[0]?.cure).toBe('Did you mean g?');
    expect(nothing('zz')[0]?.cure).toBe('It has to stand in a layer below.');
    expect(nothing('z', base)).toEqual([]);
    expect(said(lintPlan(plan('unit', [off('zz')])))).toEqual(['information nothing-to-switch-off zz 0']);
  });

  it('takes the shortest time after which results are stale', () => {
    const stale = (value: number, unit = 'd') => ({
      extension: [{ url: policyExtension.labStaleAfter, valueDuration: span(value, unit) }],
    });
    const staleOf = (...layers: Json[]) => policyOf(...layers).labStaleAfter;
    const a = (more: Json) => plan('a', [days('x', 7)], more);
    const b = (more: Json) => plan('b', [days('y', 7)], more);
    expect(staleOf(a({}))).toEqual({ value: 7, unit: 'd' });
    expect(staleOf(a(stale(10)), b({}))).toEqual({ value: 10, unit: 'd' });
    expect(staleOf(a(stale(3)), b(stale(10)))).toEqual({ value: 3, unit: 'd' });
    expect(staleOf(a(stale(3)), b(stale(71, 'h')))).toEqual({ value: 71, unit: 'h' });
    expect(staleOf(a(stale(3)), b(stale(72, 'h')))).toEqual({ value: 3, unit: 'd' });
  });
});

describe('an act that others are counted back from', () => {
  const anchor = (id = 'anchor', activity = 'insertion') =>
    act(id, activity, { trigger: [ordered(activity)] });
  const counted = (to = 'anchor', activity = 'teaching') =>
    act('talk', activity, { relatedAction: before(to, 48) });

  it('is planned by an order, and another act', () => {
    const times = { ...before('anchor', 48)[0] };
    expect(policyOf(plan('a', [anchor(), counted()])).rules.find(({ id }) => id === 'talk')?.begins).toEqual({
      kind: 'before',
      of: 'insertion',
      offset: { value: 48, unit: 'h' },
    });
    expect(times['actionId']).toBe('anchor');
    expect(
      onlyError(plan('a', [act('anchor', 'insertion', { timingTiming: every(1, 'd') }), counted()])),
    ).toMatchObject({
      code: 'not-planned',
      ruleId: 'talk',
      path: 'PlanDefinition.action[1].relatedAction[0].actionId',
    });
    expect(onlyError(plan('a', [anchor('anchor', 'teaching'), counted()]))).toMatchObject({
      code: 'before-itself',
      ruleId: 'talk',
    });
  });

  it('is named by its id, and what was meant is said', () => {
    expect(onlyError(plan('a', [anchor(), counted('ankor')]))).toMatchObject({
      code: 'unknown-action',
      cure: 'Did you mean anchor?',
    });
    expect(onlyError(plan('a', [counted('ankor')]))).toMatchObject({
      code: 'unknown-action',
      cure: 'Add that action to the plan.',
    });
  });

  it('that a higher layer takes away is a fault of that layer', () => {
    const base = plan('base', [anchor(), counted()]);
    const gone = onlyError(base, plan('unit', [off('anchor')]));
    expect(gone).toMatchObject({ code: 'switched-off', layer: 1, ruleId: 'anchor' });
    expect(gone.message).toContain('anchor is switched off, but talk of layer 0');
    const left = onlyError(base, plan('unit', [act('anchor', 'insertion', { timingTiming: every(1, 'd') })]));
    expect(left).toMatchObject({ code: 'not-planned', layer: 1, ruleId: 'anchor' });
    expect(left.message).toContain('anchor is left without an order, but talk of layer 0');
  });
});
