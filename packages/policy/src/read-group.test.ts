import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  act,
  action,
  before,
  cited,
  code,
  done,
  every,
  found,
  noUrl,
  off,
  onlyError,
  plan,
  policyOf,
  read,
  reason,
  rulesOf,
  scope,
  span,
  uncited,
  until,
  when,
  type Json,
} from './plan.kit.js';

const blocked = found('flush-resistance', 'blocked');
const open = '%found.flushResistance.none >= %began';
const forbids = (id: string, activity: string, more: Json = {}): Json => ({
  id,
  code: code(activity),
  definitionCanonical: noUrl(activity),
  ...more,
});
/** Nothing in or out of a blocked lumen: one group, a rule an activity. */
const nothing = (
  more: Json = {},
  actions: Json[] = [forbids('no-flush', 'flush'), forbids('no-lock', 'lock')],
): Json => ({
  id: 'nothing-through-blocked',
  title: 'Nothing in or out of a blocked lumen',
  documentation: [cited],
  priority: 'stat',
  extension: [scope('lumen')],
  participant: [{ type: 'practitioner' }],
  trigger: [blocked],
  condition: [until(open)],
  action: actions,
  ...more,
});

describe('a group', () => {
  it('lends its rules what they do not state themselves', () => {
    const rules = rulesOf(nothing());
    expect(Object.keys(rules)).toEqual(['no-flush', 'no-lock']);
    expect(rules['no-lock']).toMatchObject({
      id: 'no-lock',
      group: 'nothing-through-blocked',
      title: 'Nothing in or out of a blocked lumen',
      effect: 'forbid',
      activity: 'lock',
      scopes: ['lumen'],
      begins: { kind: 'triggered', by: [{ finding: 'flush-resistance', values: ['blocked'] }] },
      stop: { text: open },
      priority: 'stat',
      participants: [{ type: 'practitioner' }],
      citations: [{ text: cited.citation }],
    });
  });

  it('keeps nothing from a rule that states it itself', () => {
    const own = forbids('no-lock', 'lock', {
      title: 'No lock',
      priority: 'urgent',
      documentation: [uncited],
      participant: [{ type: 'patient' }],
      extension: [scope('line'), { url: policyExtension.ruleWhenUnknown, valueCode: 'protective' }],
      trigger: [found('damage')],
    });
    expect(rulesOf(nothing({}, [own]))['no-lock']).toMatchObject({
      title: 'No lock',
      priority: 'urgent',
      scopes: ['line'],
      begins: { by: [{ finding: 'damage' }] },
      participants: [{ type: 'patient' }],
      citations: [{ certainty: 'common-practice' }],
      stop: { text: open },
    });
  });

  it('joins its conditions and those of a rule by and, each kind by itself', () => {
    const rule = rulesOf({
      id: 'g',
      documentation: [cited],
      trigger: [done('repair')],
      condition: [when('%line.cuffed'), when('%line.used', 'start'), until('%last.flush >= %began')],
      action: [
        {
          id: 'x',
          code: code('patency-assessment'),
          condition: [when('%line.sutured'), until('%last.lock >= %began')],
        },
      ],
    })['x'];
    expect(rule?.applicability.text).toBe('(%line.cuffed) and (%line.sutured)');
    expect(rule?.start?.text).toBe('%line.used');
    expect(rule?.stop?.text).toBe('(%last.flush >= %began) and (%last.lock >= %began)');
  });

  it('lends an interval, a time after a trigger or an offset, and a rule’s own timing is in its place', () => {
    const daily = { id: 'g', documentation: [cited], timingTiming: every(1, 'd') };
    const look = { id: 'look', code: code('site-assessment') };
    const rules = rulesOf(
      { ...daily, action: [look, { id: 'bath', code: code('bath'), timingTiming: every(2, 'd') }] },
      {
        id: 'h',
        documentation: [cited],
        trigger: [done('repair')],
        timingDuration: span(48, 'h'),
        action: [{ id: 'splint', code: code('splint-removal') }],
      },
    );
    expect(rules['look']?.begins).toEqual({ kind: 'interval', every: { value: 1, unit: 'd' } });
    expect(rules['bath']?.begins).toEqual({ kind: 'interval', every: { value: 2, unit: 'd' } });
    expect(rules['splint']?.begins).toMatchObject({ kind: 'triggered', after: { value: 48, unit: 'h' } });
  });

  it('says what is wrong where it stands: in the group once, in a rule there', () => {
    const wrong = read(plan('a', [nothing({ condition: [until('%found.blod.exists()')] })]));
    expect(wrong.findings).toMatchObject([
      {
        path: 'PlanDefinition.action[0].condition[0].expression.expression',
        ruleId: 'nothing-through-blocked',
        code: 'unknown-fact',
      },
    ]);
    const inRule = forbids('no-lock', 'lock', { condition: [when('%line.typ')] });
    expect(onlyError(plan('a', [nothing({}, [inRule])]))).toMatchObject({
      path: 'PlanDefinition.action[0].action[0].condition[0].expression.expression',
      ruleId: 'no-lock',
    });
    const noFinding = read(plan('a', [nothing({ trigger: [found('flush-resistence', 'blocked')] })]));
    expect(noFinding.findings).toMatchObject([
      { path: 'PlanDefinition.action[0].trigger[0].data[0].codeFilter', code: 'unknown-finding' },
    ]);
    const ahead = {
      id: 'ahead',
      documentation: [cited],
      relatedAction: [...before('insert', 24), ...before('insert', 12)],
      action: [act('talk', 'teaching')],
    };
    const insert = act('insert', 'insertion', { timingTiming: every(1, 'd') });
    const several = read(plan('a', [insert, ahead])).findings.filter(({ severity }) => severity === 'error');
    expect(several).toMatchObject([
      { path: 'PlanDefinition.action[1].relatedAction', code: 'two-beginnings' },
    ]);
  });

  it.each<[string, Json, string, string, string]>([
    ['an activity', nothing({ code: code('flush') }), 'code', 'group-with-activity', 'each action in it'],
    [
      'a definition',
      nothing({ definitionCanonical: noUrl('flush') }),
      'definitionCanonical',
      'group-with-activity',
      'each action in it',
    ],
    ['no rule', nothing({}, []), 'action', 'empty-group', 'rules'],
    [
      'a choice of its rules',
      nothing({ selectionBehavior: 'any' }),
      'selectionBehavior',
      'unread-element',
      'leave it out',
    ],
    [
      'a group in it',
      nothing({}, [{ ...nothing(), id: 'inner' }]),
      'action[0].action',
      'deep-group',
      'one group for each',
    ],
    ['a rule without an id', nothing({}, [{ code: code('flush') }]), 'action[0].id', 'bad-id', 'letters'],
    [
      'a rule of the id of the group',
      nothing({}, [forbids('nothing-through-blocked', 'flush')]),
      'action[0].id',
      'doubled-id',
      'id of its own',
    ],
    [
      'a modifier',
      nothing({ modifierExtension: [] }),
      'modifierExtension',
      'unknown-modifier',
      'Leave it out',
    ],
  ])('is refused with %s', (_, group, path, findingCode, cure) => {
    const wrong = read(plan('a', [group])).findings.filter(({ severity }) => severity === 'error');
    expect(wrong[0]).toMatchObject({ path: `PlanDefinition.action[0].${path}`, code: findingCode });
    expect(wrong[0]?.cure).toContain(cure);
  });

  it('with an id of a rule elsewhere in the plan is refused', () => {
    expect(onlyError(plan('a', [action('no-lock'), nothing()]))).toMatchObject({
      path: 'PlanDefinition.action[1].action[1].id',
      message: 'no-lock is also the id of action[0].',
    });
  });

  it('says of an element that it is not used', () => {
    expect(read(plan('a', [nothing({ groupingBehavior: 'visual-group' })])).findings).toMatchObject([
      { severity: 'warning', path: 'PlanDefinition.action[0].groupingBehavior', code: 'unused-element' },
    ]);
  });
});

describe('the id of a group stands for all its rules', () => {
  const base = plan('base', [nothing(), action('other')]);
  const idsOf = (...layers: Json[]) => policyOf(base, ...layers).rules.map(({ id, group }) => [id, group]);
  const group = 'nothing-through-blocked';

  it('switched off as a whole, with a reason', () => {
    const unit = plan('unit', [off(group, { documentation: [reason] })]);
    expect(idsOf(unit)).toEqual([['other', undefined]]);
    expect(policyOf(base, unit).replaced).toMatchObject([
      { id: 'no-flush', how: 'switched-off', notes: [reason.display] },
      { id: 'no-lock', how: 'switched-off', notes: [reason.display] },
    ]);
    const silent = read(base, plan('unit', [off(group)])).findings;
    expect(silent.map(({ code: one, message }) => [one, message.split(' ')[0]])).toEqual([
      ['loosened', 'no-flush'],
      ['loosened', 'no-lock'],
    ]);
  });

  it('replaced as a whole: what the new one has not is switched off', () => {
    const fewer = nothing({ documentation: [cited, reason] }, [
      forbids('no-flush', 'flush'),
      forbids('no-bath', 'bath'),
    ]);
    expect(idsOf(plan('unit', [fewer]))).toEqual([
      ['no-bath', group],
      ['no-flush', group],
      ['other', undefined],
    ]);
    expect(policyOf(base, plan('unit', [fewer])).replaced?.map(({ id, how }) => [id, how])).toEqual([
      ['no-flush', 'replaced'],
      ['no-lock', 'switched-off'],
    ]);
    const silent = nothing({}, [forbids('no-flush', 'flush')]);
    expect(onlyError(base, plan('unit', [silent]))).toMatchObject({
      code: 'loosened',
      path: 'PlanDefinition.action[0]',
      message: expect.stringContaining('no-lock is loosened') as string,
    });
  });

  it('replaced by a rule of that id, and a rule by a group', () => {
    const one = { ...nothing(), ...forbids(group, 'flush'), documentation: [cited, reason] };
    delete (one as Json)['action'];
    expect(idsOf(plan('unit', [one]))).toEqual([
      [group, undefined],
      ['other', undefined],
    ]);
    const other = nothing({ id: 'other', documentation: [cited, reason] }, [forbids('no-bath', 'bath')]);
    expect(idsOf(plan('unit', [other]))).toEqual([
      ['no-bath', 'other'],
      ['no-flush', group],
      ['no-lock', group],
    ]);
  });

  it('and a rule in it can be replaced or switched off by its own', () => {
    const unit = plan('unit', [
      off('no-lock', { documentation: [reason] }),
      {
        ...forbids('no-flush', 'flush'),
        documentation: [cited],
        trigger: [blocked],
        condition: [until(open)],
        extension: [scope('lumen')],
      },
    ]);
    expect(idsOf(unit)).toEqual([
      ['no-flush', undefined],
      ['other', undefined],
    ]);
  });

  it('that is not there is told so, with the nearest', () => {
    expect(read(base, plan('unit', [off('nothing-through-blockd')])).findings).toMatchObject([
      { severity: 'warning', code: 'nothing-to-switch-off', cure: `Did you mean ${group}?` },
    ]);
  });

  it('that is switched off needs no rules in it', () => {
    const unit = plan('unit', [nothing({ condition: [when('false')], documentation: [reason] })]);
    const reading = read(base, unit);
    expect(reading.ok).toBe(true);
    expect(reading.findings.filter(({ code }) => code !== 'loosened-with-reason')).toMatchObject([
      { severity: 'warning', path: 'PlanDefinition.action[0].action', layer: 1 },
    ]);
  });

  it('does not switch off a rule that took its place in a layer between, in no group', () => {
    const hospital = plan('hospital', [
      act('no-lock', 'teaching', { documentation: [reason], timingTiming: every(1, 'd') }),
    ]);
    const unit = plan('unit', [off(group, { documentation: [reason] })]);
    expect(idsOf(hospital, unit)).toEqual([
      ['no-lock', undefined],
      ['other', undefined],
    ]);
  });
});
