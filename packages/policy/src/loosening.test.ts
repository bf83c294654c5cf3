import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  act,
  action,
  ban,
  before,
  cited,
  code,
  done,
  every,
  found,
  lasting,
  named,
  onlyError,
  ordered,
  plan,
  read,
  reason,
  scope,
  span,
  uncited,
  until,
  when,
  type Json,
} from './plan.kit.js';

const base = plan('base', [action('x')]);
const unit = (more: Json) => plan('unit', [action('x', more)]);

it('a published maximum is not loosened in silence', () => {
  const error = onlyError(base, unit({ timingTiming: every(10, 'd') }));
  expect(error).toMatchObject({ layer: 1, path: 'PlanDefinition.action[0]', ruleId: 'x', code: 'loosened' });
  expect(error.message).toContain('x is loosened from "every 7 days" to "every 10 days"');
  expect(error.message).toContain(cited.citation);
  expect(error.cure).toContain('justification');
});

it('P3: what is loosened is said without an expression, and only what differs', () => {
  const published = { condition: [when("%line.type = 'picc' or %line.cuffed")] };
  const said = (upper: Json) =>
    onlyError(plan('base', [action('x', published)]), unit({ ...upper, documentation: [uncited] })).message;
  const narrow = { condition: [...published.condition, when('%line.accessed and %line.sutured')] };
  expect(said(narrow)).toMatch(/from "every 7 days" to "every 7 days, under further conditions"/);
  expect(said({ ...published, timingTiming: every(9, 'd') })).toMatch(
    /from "every 7 days" to "every 9 days"/,
  );
  expect(said({ ...published, extension: [scope('lumen')] })).toMatch(/on the line" to ".*on the lumen"/);
  for (const upper of [narrow, { condition: [when('%line.sutured')], code: code('flush') }])
    expect(said(upper)).not.toMatch(/%|\b(and|or|in) \(|\(\)/);
  const { loosened } = onlyError(plan('base', [action('x', published)]), unit(narrow));
  expect(loosened?.now?.applicability.meaning).toContain('%line.accessed');
});

describe('a rule is loosened by', () => {
  it.each<[string, Json, Json?]>([
    ['1 month instead of 4 weeks', { timingTiming: every(1, 'mo') }, { timingTiming: every(4, 'wk') }],
    [
      'fixed days further apart',
      {
        timingTiming: {
          repeat: { dayOfWeek: ['mon'], timeOfDay: ['08:00:00', '09:00:00'], period: 1, periodUnit: 'wk' },
        },
      },
      { timingTiming: every(6, 'd') },
    ],
    ['an end', { timingTiming: { repeat: { ...every(7, 'd').repeat, ...lasting(3, 'wk').repeat } } }],
    ['a greatest number', { timingTiming: { repeat: { ...every(7, 'd').repeat, count: 3 } } }],
    ['a trigger instead of an interval', { timingTiming: undefined, trigger: [found('damage')] }],
    ['a condition instead of an interval', { timingTiming: undefined, condition: [when('%line.cuffed')] }],
    ['a narrower condition', { condition: [when("%line.type = 'picc'")] }],
    ['another activity', { code: code('flush') }],
    ['another scope', { extension: [scope('lumen')] }],
    ['a lumen instead of the whole line', { extension: [scope('line'), scope('lumen')] }],
    ['switching it off', { condition: [when('false')] }],
    [
      'one of two scopes',
      { extension: [scope('exit-site')] },
      { extension: [scope('exit-site'), scope('incision')] },
    ],
    [
      'reading what is not known as false',
      {
        condition: [when("%line.type = 'picc'")],
        extension: [{ url: policyExtension.ruleWhenUnknown, valueCode: 'default' }],
      },
      { condition: [when("%line.type = 'picc'")] },
    ],
    [
      'forbidding it',
      {
        ...ban('x', 'dressing-change'),
        timingTiming: undefined,
        trigger: [found('damage')],
        condition: [until('%answered.exists()')],
      },
    ],
  ])('%s', (_, upper, lower = {}) => {
    const below = plan('base', [action('x', lower)]);
    expect(onlyError(below, unit({ ...upper, documentation: [uncited] })).message).toContain(cited.citation);
    expect(read(below, unit({ ...upper, documentation: [uncited, reason] })).ok).toBe(true);
  });

  it.each<[string, Json, Json?]>([
    ['a shorter interval', { timingTiming: every(5, 'd') }],
    ['the same in other units', { timingTiming: every(168, 'h') }],
    ['fixed days as close', { timingTiming: { repeat: { dayOfWeek: ['mon'], timeOfDay: ['08:00:00'] } } }],
    ['one more scope', { extension: [scope('line'), scope('exit-site')] }],
    ['a wider condition', {}, { condition: [when("%line.type = 'picc'")] }],
    [
      'one of two conditions, in other words',
      { condition: [when('(%line.cuffed)')] },
      { condition: [when("%line.type='picc' and %line.cuffed")] },
    ],
  ])('%s not', (_, upper, lower = {}) => {
    expect(
      read(plan('base', [action('x', lower)]), unit({ ...upper, documentation: [uncited] })).findings,
    ).toEqual([]);
  });
});

/** Whether the upper of two actions of one id, both with a published source, is refused as a loosening. */
function loosens(lower: Json, upper: Json, more: Json[] = []): boolean {
  const documentation = [cited];
  const { findings } = read(
    plan('base', [...more, { ...lower, documentation }]),
    plan('unit', [{ ...upper, documentation }]),
  );
  const wrong = findings.filter(({ severity }) => severity === 'error');
  if (wrong.some((one) => one.code !== 'loosened')) throw new Error(JSON.stringify(wrong));
  return wrong.length > 0;
}

describe('care that a trigger begins', () => {
  const look = (more: Json) => act('x', 'patency-assessment', more);
  const damp = (...values: string[]) => look({ trigger: [found('dressing-condition', ...values)] });

  it('is loosened by fewer findings, not by more', () => {
    expect(loosens(damp('damp', 'soiled'), damp('soiled'))).toBe(true);
    expect(loosens(damp(), damp('soiled'))).toBe(true);
    expect(loosens(damp('damp'), damp('damp', 'soiled'))).toBe(false);
    expect(loosens(damp('damp'), damp())).toBe(false);
  });

  it('is loosened by fewer triggers, not by more', () => {
    const two = look({ trigger: [found('damage'), done('repair')] });
    expect(loosens(two, look({ trigger: [found('damage')] }))).toBe(true);
    expect(loosens(two, look({ trigger: [done('repair'), found('migration'), found('damage')] }))).toBe(
      false,
    );
  });

  it('is loosened by a later time', () => {
    const after = (hours: number) => look({ trigger: [done('repair')], timingDuration: span(hours, 'h') });
    expect(loosens(after(2), after(3))).toBe(true);
    expect(loosens(look({ trigger: [done('repair')] }), after(1))).toBe(true);
    expect(loosens(after(2), after(1))).toBe(false);
    expect(loosens(after(2), look({ trigger: [done('repair')] }))).toBe(false);
  });

  it('is loosened by a condition at its start, and by one more end', () => {
    const begun = (...condition: Json[]) => look({ trigger: [done('repair')], condition });
    const young = when('%line.dwellDays < 3', 'start');
    const brisk = '%found.bloodReturn.brisk >= %began';
    const free = '%found.flushResistance.none >= %began';
    expect(loosens(begun(), begun(young))).toBe(true);
    expect(loosens(begun(young), begun())).toBe(false);
    expect(loosens(begun(), begun(until(brisk)))).toBe(true);
    expect(loosens(begun(until(brisk)), begun(until(`${brisk} or ${free}`)))).toBe(true);
    expect(loosens(begun(until(`${brisk} or ${free}`)), begun(until(free)))).toBe(false);
    expect(loosens(begun(until(`${brisk} or ${free}`)), begun(until(`${free} or (${brisk})`)))).toBe(false);
    expect(loosens(begun(until(brisk)), begun())).toBe(false);
  });

  it('before a planned act is loosened by a later time or other times of day', () => {
    const insertion = act('in', 'insertion', { trigger: [ordered('insertion')] });
    const earlier = (hours: number, ...timeOfDay: string[]) =>
      act('x', 'bath', {
        relatedAction: before('in', hours),
        ...(timeOfDay.length > 0 ? { timingTiming: { repeat: { timeOfDay } } } : {}),
      });
    expect(loosens(earlier(6), earlier(4), [insertion])).toBe(true);
    expect(loosens(earlier(6), earlier(8), [insertion])).toBe(false);
    expect(loosens(earlier(6, '20:00:00'), earlier(6, '22:00:00'), [insertion])).toBe(true);
  });
});

describe('a ban', () => {
  const hold = (more: Json) => ban('x', 'infusion-start', { trigger: [done('repair')], ...more });
  const lasts = (hours: number) => hold({ timingTiming: lasting(hours, 'h') });

  it('is loosened by a shorter time, and by a time in place of an act', () => {
    expect(loosens(lasts(2), lasts(1))).toBe(true);
    expect(loosens(lasts(2), lasts(3))).toBe(false);
    const stop = hold({ condition: [until('%last.tipConfirmation >= %began')] });
    expect(loosens(stop, lasts(2))).toBe(true);
    expect(loosens(lasts(2), stop)).toBe(true);
  });

  it('is loosened by one more end, not by one less', () => {
    const ends = (expression: string) => hold({ condition: [until(expression)] });
    const one = '%last.tipConfirmation >= %began';
    const two = `${one} or %last.removal >= %began`;
    expect(loosens(ends(one), ends(two))).toBe(true);
    expect(loosens(ends(two), ends(one))).toBe(false);
  });

  it('is loosened by asking for what it forbids, and says both sides', () => {
    const asks = act('x', 'infusion-start', { trigger: [done('repair')], documentation: [cited] });
    const forbids = { ...lasts(2), documentation: [cited] };
    const error = onlyError(plan('base', [forbids]), plan('unit', [asks]));
    expect(error.message).toContain('no infusion start, not within 2 hours after the repair');
    expect(error.message).toContain('infusion start, straight after the repair');
  });
});

describe('a reason', () => {
  it('is not needed over a rule without a published source, nor a second time in the layer above', () => {
    expect(
      read(plan('base', [action('x', { documentation: [uncited] })]), unit({ timingTiming: every(10, 'd') }))
        .ok,
    ).toBe(true);
    const hospital = plan('hospital', [
      action('x', { timingTiming: every(10, 'd'), documentation: [uncited, reason] }),
    ]);
    expect(read(base, hospital, unit({ timingTiming: every(8, 'd') })).ok).toBe(true);
    expect(onlyError(base, hospital, unit({ timingTiming: every(14, 'd') })).layer).toBe(2);
  });

  it('is needed over a source that is known from memory', () => {
    const memory = action('x', { documentation: [{ ...cited, citation: 'Guideline 2011; from memory' }] });
    expect(onlyError(plan('base', [memory]), unit({ timingTiming: every(10, 'd') })).code).toBe('loosened');
  });

  it('is not needed where a named expression means the same as what it stands for', () => {
    const onArm = "%line.type in ('picc' | 'midline')";
    const below = plan('base', [action('x', { condition: [when('%isArmLine')] })], {
      extension: [named('isArmLine', onArm)],
    });
    expect(read(below, unit({ condition: [when(onArm)] })).ok).toBe(true);
    const other = plan('unit', [action('x', { condition: [when('%isArmLine')] })], {
      extension: [named('isArmLine', "%line.type = 'picc'")],
    });
    expect(onlyError(below, other).code).toBe('loosened');
  });
});
