import { describe, expect, it } from 'vitest';
import {
  action,
  ban,
  cited,
  done,
  every,
  found,
  lasting,
  off,
  onlyError,
  plan,
  read,
  reason,
  scope,
  span,
  when,
  type Json,
} from './plan.kit.js';

// What whoever owns a policy has to be told.

const base = plan('base', [action('x')]);
const because = (display: string): Json => ({ documentation: [cited, { type: 'justification', display }] });
const looser = (more: Json) => plan('unit', [action('x', { timingTiming: every(10, 'd'), ...more })]);

describe('a reason', () => {
  it.each([
    'Replace this by your unit’s reason for a longer interval than the base has.',
    'TODO',
    'tbd: ask the council',
    'n/a',
    '[reason]',
    '…',
  ])('P1: is none where its text is still to come: %s', (display) => {
    const codes = read(base, looser(because(display))).findings.flatMap(({ severity, code }) =>
      severity === 'error' ? [code] : [],
    );
    expect(codes).toEqual(['placeholder']);
  });

  it.each(['ok', 'Kostengründe', 'our decision'])('P1: is none in one or two words: %s', (display) => {
    const errors = read(base, looser(because(display))).findings.filter(
      ({ severity }) => severity === 'error',
    );
    expect(errors.map(({ code }) => code)).toEqual(['no-reason']);
    expect(errors[0]?.message).toContain(display);
  });

  it.each(['The device’s maker allows ten days.', '製造元が十日間を認めている'])(
    'is one in a sentence: %s',
    (display) => expect(read(base, looser(because(display))).ok).toBe(true),
  );
});

describe('what asks for less than its published source', () => {
  const reading = (...layers: Json[]) => {
    const one = read(base, ...layers);
    if (!one.ok) throw new Error(JSON.stringify(one.findings));
    return one;
  };

  it('P1: is warned of with its reason and the source', () => {
    const { findings, policy } = reading(looser({ documentation: [cited, reason] }));
    expect(findings).toMatchObject([{ severity: 'warning', code: 'loosened-with-reason', ruleId: 'x' }]);
    expect(findings[0]?.message).toContain('every 7 days');
    expect(findings[0]?.message).toContain(reason.display);
    expect(findings[0]?.message).toContain(cited.citation);
    expect(policy.loosened).toMatchObject([
      {
        ...{ id: 'x', how: 'loosened', from: 'every 7 days', to: 'every 10 days' },
        ...{ sources: [cited.citation], reasons: [reason.display], by: { layer: 1 } },
      },
    ]);
  });

  it('P1: is warned of where it is switched off', () => {
    const { findings, policy } = reading(plan('unit', [off('x', { documentation: [reason] })]));
    expect(findings).toMatchObject([{ severity: 'warning', code: 'loosened-with-reason' }]);
    expect(policy.loosened).toMatchObject([{ id: 'x', how: 'switched-off', reasons: [reason.display] }]);
  });

  it('keeps the reason that a lower layer gave, where a higher one repeats it', () => {
    const hospital = looser({ documentation: [cited, reason] });
    const { findings, policy } = reading(hospital, {
      ...plan('ward', [action('x', { timingTiming: every(9, 'd') })]),
    });
    expect(findings).toHaveLength(1);
    expect(policy.loosened).toMatchObject([
      { to: 'every 9 days', reasons: [reason.display], by: { layer: 2 } },
    ]);
  });

  it('is no longer said once a higher layer asks for as much again', () => {
    const { policy } = reading(looser({ documentation: [cited, reason] }), {
      ...plan('ward', [action('x')]),
    });
    expect(policy.loosened).toEqual([]);
  });

  it.each([{ status: 'draft' }, { status: 'unknown' }, { experimental: true }])(
    'P1: a plan that nobody has approved says so: %j',
    (state) => {
      const { findings, policy } = reading({ ...plan('unit', [action('y')]), ...state });
      expect(findings.map(({ code }) => code)).toEqual(['not-approved']);
      expect(policy.layers.map(({ unapproved }) => unapproved)).toEqual([
        undefined,
        Object.values(state)[0] === true ? 'experimental' : state.status,
      ]);
    },
  );
});

describe('a rule that never decides anything', () => {
  const warned = (lower: Json, upper: Json) =>
    read(plan('base', [lower]), plan('unit', [upper])).findings.filter(
      ({ code }) => code === 'without-effect',
    );

  it.each<[string, Json, Json]>([
    ['a longer interval under an id of its own', action('x'), action('y', { timingTiming: every(10, 'd') })],
    [
      'a longer interval for some of the lines',
      action('x'),
      action('y', { timingTiming: every(10, 'd'), condition: [when("%line.type = 'picc'")] }),
    ],
    [
      'a later answer to the same finding',
      action('x', { timingTiming: undefined, trigger: [found('damage')] }),
      action('y', { timingTiming: undefined, timingDuration: span(2, 'h'), trigger: [found('damage')] }),
    ],
    [
      'a shorter ban after the same event',
      ban('x', 'bath', { trigger: [done('repair')], timingTiming: lasting(2, 'h') }),
      ban('y', 'bath', { trigger: [done('repair')], timingTiming: lasting(1, 'h') }),
    ],
  ])('P4: is warned of, with the rule that decides in its place: %s', (_, lower, upper) => {
    const [finding, ...more] = warned(lower, upper);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ severity: 'warning', layer: 1, ruleId: 'y' });
    expect(finding?.message).toContain('x of base');
    expect(finding?.cure).toContain('replace x');
  });

  it.each<[string, Json, Json]>([
    ['a shorter interval', action('x'), action('y', { timingTiming: every(5, 'd') })],
    ['the same interval', action('x'), action('y')],
    [
      'a rule below for some of the lines',
      action('x', { condition: [when("%line.type = 'picc'")] }),
      action('y', { timingTiming: every(10, 'd') }),
    ],
    [
      'another scope',
      action('x', { extension: [scope('exit-site')] }),
      action('y', { extension: [scope('incision')], timingTiming: every(10, 'd') }),
    ],
    [
      'a rule below that ends',
      action('x', { timingTiming: { repeat: { ...every(7, 'd').repeat, ...lasting(3, 'wk').repeat } } }),
      action('y', { timingTiming: every(10, 'd') }),
    ],
    [
      'another finding',
      action('x', { timingTiming: undefined, trigger: [found('damage')] }),
      action('y', { timingTiming: undefined, timingDuration: span(2, 'h'), trigger: [found('migration')] }),
    ],
    [
      'a longer ban',
      ban('x', 'bath', { trigger: [done('repair')], timingTiming: lasting(1, 'h') }),
      ban('y', 'bath', { trigger: [done('repair')], timingTiming: lasting(2, 'h') }),
    ],
  ])('does decide with %s', (_, lower, upper) => {
    expect(warned(lower, upper)).toEqual([]);
  });
});

it.each(['matches', 'matchesFull', 'replaceMatches'])(
  'P4: a pattern, which may never come to an end, is refused before it is tried: %s',
  (name) => {
    const long = 'a'.repeat(60);
    const unit = plan('unit', [
      action('y', {
        condition: [when(`'${long}!'.${name}('(a+)+$'${name === 'replaceMatches' ? ", ''" : ''})`)],
      }),
    ]);
    expect(onlyError(base, unit)).toMatchObject({ code: 'unsteady-function' });
  },
);

it('P4: a plan that is nested without end is refused, and the reader goes on', () => {
  const deep = JSON.parse('['.repeat(20_000) + ']'.repeat(20_000)) as unknown;
  expect(onlyError(base, { ...plan('unit', [action('y')]), jurisdiction: deep })).toMatchObject({
    ...{ code: 'not-fhir', layer: 1 },
  });
});
