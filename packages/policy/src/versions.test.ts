import { describe, expect, it } from 'vitest';
import { dayAfter, dayBefore } from './effective.js';
import type { Policy } from './model.js';
import { act, before, every, ordered, plan as planOf, policyOf, type Json } from './plan.kit.js';
import { lintPlan, readPolicy } from './read-policy.js';
import { placesOf } from './versions.js';

const action = (id: string, more: Json = {}): Json =>
  act(id, 'bath', { title: id, timingTiming: every(1, 'd'), ...more });

function plan(name: string, version: string, effectivePeriod: unknown, ...actions: Json[]): Json {
  return planOf(name, actions, { version, ...(effectivePeriod === undefined ? {} : { effectivePeriod }) });
}

const stretches = ({ versions = [] }: Policy) =>
  versions.map(({ from, policy }) => [
    from,
    policy.layers.map(({ url, version }) => `${url.split('/').at(-1) ?? ''} ${version}`),
    policy.rules.map(({ id }) => id),
  ]);

describe('an effectivePeriod', () => {
  it.each([
    [
      { start: '2026-12-01', end: '2026-12-31' },
      { start: '2026-12-01', end: '2026-12-31' },
    ],
    [{ start: '2026-02' }, { start: '2026-02-01' }],
    [{ end: '2026-02' }, { end: '2026-02-28' }],
    [{ end: '2028-02' }, { end: '2028-02-29' }],
    [
      { start: '2026', end: '2026' },
      { start: '2026-01-01', end: '2026-12-31' },
    ],
  ])('%j is read as whole days', (period, effective) => {
    expect(policyOf(plan('a', '1', period, action('x'))).layers[0]?.effective).toEqual(effective);
  });

  it.each([
    ['a time of day', { start: '2026-12-01T00:00:00Z' }, 'effectivePeriod.start'],
    ['no day', { end: '2026-02-29' }, 'effectivePeriod.end'],
    ['no month', { end: '2026-13' }, 'effectivePeriod.end'],
    ['no text', { end: 2026 }, 'effectivePeriod.end'],
    ['an end before the start', { start: '2026-12-02', end: '2026-12-01' }, 'effectivePeriod.end'],
    ['no Period', '2026', 'effectivePeriod'],
    ['another element', { start: '2026', low: 1 }, 'effectivePeriod.low'],
  ])('with %s is refused with path and cure', (_, period, path) => {
    const found = lintPlan(plan('a', '1', period, action('x'))).filter(
      ({ severity }) => severity === 'error',
    );
    expect(found).toMatchObject([{ path: `PlanDefinition.${path}` }]);
    expect(found[0]?.cure).toContain('as dates');
  });

  it('that is empty is always in force', () => {
    expect(policyOf(plan('a', '1', {}, action('x')))).not.toHaveProperty('versions');
  });

  it.each([
    ['2026-02-28', '2026-03-01'],
    ['2028-02-28', '2028-02-29'],
    ['2100-02-28', '2100-03-01'],
    ['2000-02-28', '2000-02-29'],
    ['2026-12-31', '2027-01-01'],
    ['2026-04-30', '2026-05-01'],
  ])('%s is the day before %s', (first, second) => {
    expect([dayAfter(first), dayBefore(second)]).toEqual([second, first]);
  });
});

describe('layers that come in versions', () => {
  it('make one policy for each stretch of time, each version at the place of the first', () => {
    const policy = policyOf(
      plan('base', '1', undefined, action('base')),
      plan('unit', '1', { end: '2026-11-30' }, action('old'), action('both')),
      plan('top', '1', undefined, action('top')),
      plan('unit', '2', { start: '2026-12-01', end: '2026-12-31' }, action('new'), action('both')),
    );
    expect(stretches(policy)).toEqual([
      [undefined, ['base 1', 'unit 1', 'top 1'], ['base', 'both', 'old', 'top']],
      ['2026-12-01', ['base 1', 'unit 2', 'top 1'], ['base', 'both', 'new', 'top']],
      ['2027-01-01', ['base 1', 'top 1'], ['base', 'top']],
    ]);
    // What stands beside `versions` is the stretch that the newest version opens.
    expect(policy.rules.map(({ id }) => id)).toEqual(['base', 'both', 'new', 'top']);
    const places = policy.versions?.map((one) => one.policy.layers.map(({ layer }) => layer));
    expect(places).toEqual([
      [0, 1, 2],
      [0, 1, 2],
      [0, 2],
    ]);
  });

  it('lets a layer above replace what only one version has', () => {
    const policy = policyOf(
      plan('unit', '1', { end: '2026-11-30' }, action('x')),
      plan('unit', '2', { start: '2026-12-01' }, action('y')),
      plan('top', '1', undefined, action('x', { title: 'ours' })),
    );
    expect(policy.versions?.map((one) => one.policy.replaced?.map(({ id, how }) => [id, how]))).toEqual([
      [['x', 'replaced']],
      [],
    ]);
  });

  it('have no versions where no layer says when it is in force', () => {
    expect(policyOf(plan('a', '1', undefined, action('x')))).not.toHaveProperty('versions');
  });

  it('say from when on something is wrong, where it is so only for a part of the time', () => {
    const counted = action('counted', { timingTiming: undefined, relatedAction: before('insertion', 1) });
    const insertion = act('insertion', 'insertion', { trigger: [ordered('insertion')] });
    const reading = readPolicy([
      plan('unit', '1', { end: '2026-11-30' }, insertion),
      plan('unit', '2', { start: '2026-12-01' }, action('other')),
      plan('top', '1', undefined, counted),
    ]);
    expect(reading.ok).toBe(false);
    expect(reading.findings).toMatchObject([
      {
        layer: 2,
        path: 'PlanDefinition.action[0].relatedAction[0].actionId',
        message: 'There is no action with the id insertion. This is so from 2026-12-01 on.',
      },
    ]);
  });

  const errors = (...layers: Json[]) =>
    readPolicy(layers).findings.filter(({ severity }) => severity === 'error');

  it.each([
    [{ end: '2026-12-31' }, { start: '2026-12-01' }, 'End version 1 on 2026-11-30'],
    [{ end: '2026-12-01' }, { start: '2026-12-01' }, 'End version 1 on 2026-11-30'],
    [undefined, { start: '2026-12-01' }, 'End version 1 on 2026-11-30'],
    [{ start: '2026-12-01' }, { end: '2026-12-31' }, 'End version 2 on 2026-11-30'],
    [{ start: '2026-12-01' }, { start: '2026-12-01' }, 'one ends on the day before the other begins'],
    [{ end: '2026-12-01' }, { end: '2027-12-01' }, 'one ends on the day before the other begins'],
  ])('in force on one day are refused: %j and %j', (first, second, cure) => {
    const found = errors(plan('unit', '1', first, action('x')), plan('unit', '2', second, action('x')));
    expect(found).toMatchObject([{ layer: 1, path: 'PlanDefinition.effectivePeriod' }]);
    expect(found[0]?.cure).toContain(cure);
  });

  it('are refused where both have the same version, or none says when', () => {
    const [november, december] = [{ end: '2026-11-30' }, { start: '2026-12-01' }];
    expect(
      errors(plan('unit', '1', november, action('x')), plan('unit', '1', december, action('x'))),
    ).toMatchObject([{ layer: 1, path: 'PlanDefinition.version' }]);
    expect(
      errors(plan('unit', '1', undefined, action('x')), plan('unit', '2', undefined, action('x'))),
    ).toMatchObject([{ layer: 1, path: 'PlanDefinition.url' }]);
  });

  it('follow one another without a word where one ends on the day before', () => {
    const reading = readPolicy([
      plan('unit', '1', { end: '2026-11-30' }, action('x')),
      plan('unit', '2', { start: '2026-12-01' }, action('x')),
    ]);
    expect(reading).toMatchObject({ ok: true, findings: [] });
  });

  it('follow one another in whatever order they are given', () => {
    const [november, december] = [{ end: '2026-11-30' }, { start: '2026-12-01', end: '2026-12-31' }];
    const given = [
      plan('unit', '3', { start: '2027-01-01' }, action('third')),
      plan('unit', '2', december, action('second')),
      plan('unit', '1', november, action('first')),
    ];
    for (const order of [given, given.toReversed()])
      expect(stretches(policyOf(...order))).toEqual([
        [undefined, ['unit 1'], ['first']],
        ['2026-12-01', ['unit 2'], ['second']],
        ['2027-01-01', ['unit 3'], ['third']],
      ]);
  });

  it('may be in force for one day, and leave a gap', () => {
    const policy = policyOf(
      plan('base', '1', undefined, action('always')),
      plan('unit', '1', { start: '2026-12-01', end: '2026-12-01' }, action('one-day')),
      plan('unit', '2', { start: '2027-02-01' }, action('later')),
    );
    expect(stretches(policy).map(([from, , rules]) => [from, rules])).toEqual([
      [undefined, ['always']],
      ['2026-12-01', ['always', 'one-day']],
      ['2026-12-02', ['always']],
      ['2027-02-01', ['always', 'later']],
    ]);
    expect(policy.rules.map(({ id }) => id)).toEqual(['always', 'later']);
  });

  it.each([
    [{ start: '2026-12-01' }, { end: '2026-12-01' }],
    [{ end: '2026-12-01' }, { start: '2026-12-01' }],
    [
      { start: '2026-11-01', end: '2026-12-01' },
      { start: '2026-12-01', end: '2026-12-31' },
    ],
    [
      { start: '2026-12-01', end: '2026-12-31' },
      { start: '2026-11-01', end: '2026-12-01' },
    ],
    [{ start: '2026-12-01' }, { start: '2027-12-01' }],
    [{ end: '2027-12-01' }, { end: '2026-12-01' }],
    [{ start: '2026-12-01' }, undefined],
  ])('overlap by a day: %j and %j', (first, second) => {
    const found = errors(plan('unit', '1', first, action('x')), plan('unit', '2', second, action('x')));
    expect(found.map(({ code }) => code)).toEqual(['versions-overlap']);
  });

  it('are refused with a code for each way to be one too many', () => {
    const [november, december] = [{ end: '2026-11-30' }, { start: '2026-12-01' }];
    const of = (...given: Json[]) => errors(...given).map(({ code }) => code);
    expect(of(plan('unit', '1', november, action('x')), plan('unit', '1', december, action('x')))).toEqual([
      'same-version',
    ]);
    expect(of(plan('unit', '1', undefined, action('x')), plan('unit', '1', december, action('x')))).toEqual([
      'same-version',
    ]);
    expect(of(plan('unit', '1', undefined, action('x')), plan('unit', '1', undefined, action('x')))).toEqual([
      'same-url',
    ]);
    expect(of(plan('unit', '1', november, action('x')), plan('other', '1', november, action('y')))).toEqual(
      [],
    );
  });

  it('are said to be wrong once and without a date where that is always so, or so until something changes', () => {
    const counted = action('counted', { timingTiming: undefined, relatedAction: before('insertion', 1) });
    const insertion = act('insertion', 'insertion', { trigger: [ordered('insertion')] });
    const message = 'There is no action with the id insertion.';
    const always = errors(
      plan('unit', '1', { end: '2026-11-30' }, action('x')),
      plan('unit', '2', { start: '2026-12-01' }, action('x')),
      plan('top', '1', undefined, counted),
    );
    expect(always.map((one) => one.message)).toEqual([message]);
    const before2026 = errors(
      plan('unit', '1', { end: '2026-11-30' }, action('x')),
      plan('unit', '2', { start: '2026-12-01' }, insertion),
      plan('top', '1', undefined, counted),
    );
    expect(before2026.map((one) => one.message)).toEqual([message]);
  });

  it('stand at the place of the first of one url; a plan without one has a place of its own', () => {
    const urls = ['a', 'b', 'a|2', undefined, '', 7, 'b|1', undefined, 'c'];
    expect(placesOf([...urls.map((url) => ({ url })), 'no plan'])).toEqual([0, 1, 0, 2, 3, 4, 1, 5, 6, 7]);
  });
});
