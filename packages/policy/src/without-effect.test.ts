import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  act,
  action,
  cited,
  code,
  done,
  every,
  found,
  plan,
  policyOf,
  read,
  reason,
  span,
  until,
  when,
  type Json,
} from './plan.kit.js';

describe('a rule never decides anything', () => {
  const below = plan('base', [action('x', { documentation: [cited] })]);
  const warned = (lower: unknown, ...upper: Json[]) =>
    read(lower, plan('unit', upper))
      .findings.filter(({ code: of }) => of === 'without-effect')
      .map(({ severity, layer, path }) => `${severity} ${layer} ${path}`);
  const later = (more: Json = {}) => action('y', { timingTiming: every(10, 'd'), ...more });
  const here = ['warning 1 PlanDefinition.action[1]'];
  const own = action('z', { code: code('bath') });

  it.each<[string, Json, Json]>([
    ['later', {}, {}],
    [
      'later, of one of its places',
      { extension: ['line', 'lumen'].map((one) => ({ url: policyExtension.ruleScope, valueCode: one })) },
      {},
    ],
    ['later, under a further condition', {}, { condition: [when('%line.cuffed')] }],
    ['later, both with unknown facts as false', whenUnknown('default'), whenUnknown('default')],
    ['later, with unknown facts as false', {}, whenUnknown('default')],
  ])('that asks for the same %s', (_, lower, upper) => {
    expect(warned(plan('base', [action('x', lower)]), own, later(upper))).toEqual(here);
  });

  it.each<[string, Json, Json]>([
    ['sooner', {}, { timingTiming: every(5, 'd') }],
    [
      'in one more place',
      {},
      { extension: ['line', 'exit-site'].map((one) => ({ url: policyExtension.ruleScope, valueCode: one })) },
    ],
    ['where the other does not apply', { condition: [when('%line.cuffed')] }, {}],
    [
      'where what is unknown counts as true',
      { ...whenUnknown('default'), condition: [when('%line.cuffed')] },
      { condition: [when('%line.cuffed')] },
    ],
    ['and the other a few times', { timingTiming: { repeat: { ...every(7, 'd').repeat, count: 3 } } }, {}],
    ['of another kind', {}, { code: code('bath') }],
  ])('but does where it asks %s', (_, lower, upper) => {
    expect(warned(plan('base', [action('x', lower)]), own, later(upper))).toEqual([]);
  });

  it('nor does care after fewer of its triggers, later', () => {
    const lower = (more: Json = {}) =>
      plan('base', [
        act('x', 'bath', {
          trigger: [found('damage'), done('repair')],
          timingDuration: span(1, 'h'),
          ...more,
        }),
      ]);
    const upper = (hours: number, ...trigger: Json[]) =>
      act('y', 'bath', { trigger, timingDuration: span(hours, 'h') });
    expect(warned(lower(), own, upper(2, done('repair')))).toEqual(here);
    expect(warned(lower(), own, upper(1, done('repair')))).toEqual([]);
    expect(warned(lower(), own, upper(2, done('repair'), found('fever')))).toEqual([]);
    expect(
      warned(lower({ condition: [until('%last.removal >= %began')] }), own, upper(2, done('repair'))),
    ).toEqual([]);
    expect(
      warned(lower({ condition: [when('%line.cuffed', 'start')] }), own, upper(2, done('repair'))),
    ).toEqual([]);
  });

  it('is said of no rule that replaces the one below', () => {
    const replaced = action('x', { timingTiming: every(10, 'd'), documentation: [cited, reason] });
    expect(warned(below, own, replaced)).toEqual([]);
    expect(
      policyOf(below, plan('unit', [own, replaced]))
        .rules.map(({ id }) => id)
        .sort(),
    ).toEqual(['x', 'z']);
  });
});

function whenUnknown(valueCode: string): Json {
  return { extension: [{ url: policyExtension.ruleWhenUnknown, valueCode }], documentation: [cited, reason] };
}
