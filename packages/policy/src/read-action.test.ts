import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import type { Rule } from './model.js';
import { scheduleText } from './schedule-text.js';
import {
  act,
  action,
  ban,
  before,
  cited,
  done,
  found,
  lasting,
  named,
  ordered,
  plan,
  policyOf,
  reason,
  ruleOf,
  rulesOf,
  scope,
  span,
  uncited,
  until,
  when,
  type Json,
} from './plan.kit.js';

describe('an action becomes a rule', () => {
  it('with every part of it', () => {
    const rule = ruleOf(
      action('x', {
        title: 'Change it',
        priority: 'urgent',
        extension: [
          scope('exit-site'),
          { url: policyExtension.ruleLead, valueDuration: span(1, 'd') },
          { url: policyExtension.ruleMinimumSpacing, valueDuration: span(96, 'h') },
          { url: policyExtension.ruleWhenUnknown, valueCode: 'default' },
        ],
        condition: [when("%line.type = 'picc'"), when('%line.dwellDays > 1')],
        documentation: [{ ...cited, url: 'https://guideline.example' }, uncited, reason],
        participant: [{ type: 'practitioner', role: { text: 'nurse' } }, { type: 'patient' }],
      }),
    );
    expect(rule).toMatchObject({
      id: 'x',
      title: 'Change it',
      effect: 'ask',
      activity: 'dressing-change',
      scopes: ['exit-site'],
      begins: { kind: 'interval', every: { value: 7, unit: 'd' } },
      whenUnknown: 'default',
      lead: { value: 1, unit: 'd' },
      minimumSpacing: { value: 96, unit: 'h' },
      priority: 'urgent',
      participants: [{ type: 'practitioner', role: 'nurse' }, { type: 'patient' }],
      citations: [
        { text: cited.citation, url: 'https://guideline.example', certainty: 'seen' },
        { text: uncited.display, certainty: 'common-practice' },
      ],
      notes: [reason.display],
      origin: { url: 'https://hospital.example/a', version: '1', title: 'a', layer: 0 },
    });
    expect(rule.applicability.text).toBe("(%line.type = 'picc') and (%line.dwellDays > 1)");
    for (const absent of ['group', 'start', 'stop', 'lasts']) expect(rule).not.toHaveProperty(absent);
  });

  it('with scope line, protective reading and routine priority where it states none', () => {
    const rule = ruleOf(action('x'));
    expect(rule).toMatchObject({
      scopes: ['line'],
      whenUnknown: 'protective',
      priority: 'routine',
      title: 'x',
    });
    for (const absent of ['lead', 'participants']) expect(rule).not.toHaveProperty(absent);
    expect(rule.applicability.evaluate({})).toEqual({ is: 'true' });
  });

  it('with several scopes', () => {
    expect(ruleOf(action('x', { extension: [scope('line'), scope('lumen')] })).scopes).toEqual([
      'line',
      'lumen',
    ]);
  });

  const begins = (more: Json): Rule['begins'] =>
    ruleOf(act('x', 'patency-assessment', { timingTiming: undefined, ...more })).begins;

  it('that begins with any of several findings and acts, at once or so long after', () => {
    expect(begins({ trigger: [found('dressing-condition', 'damp', 'soiled')] })).toEqual({
      kind: 'triggered',
      by: [{ kind: 'finding', finding: 'dressing-condition', values: ['damp', 'soiled'] }],
    });
    expect(begins({ trigger: [done('repair')], timingDuration: span(48, 'h') })).toEqual({
      kind: 'triggered',
      by: [{ kind: 'event', activity: 'repair' }],
      after: { value: 48, unit: 'h' },
    });
    expect(begins({ trigger: [found('damage'), found('migration'), done('repair')] })).toEqual({
      kind: 'triggered',
      by: [
        { kind: 'finding', finding: 'damage', values: [] },
        { kind: 'finding', finding: 'migration', values: [] },
        { kind: 'event', activity: 'repair' },
      ],
    });
  });

  it('that asks while a condition is true', () => {
    const rule = ruleOf(act('x', 'patency-assessment', { condition: [when('%line.cuffed')] }));
    expect(rule).toMatchObject({ effect: 'ask', begins: { kind: 'while' } });
    expect(rule.applicability.text).toBe('%line.cuffed');
  });

  it('that comes before an act that an order plans, with or without a time of day', () => {
    const rules = rulesOf(
      act('in', 'insertion', { trigger: [ordered('insertion')] }),
      act('talk', 'teaching', { relatedAction: before('in', 24) }),
      act('wash', 'bath', {
        relatedAction: before('in', 6),
        timingTiming: { repeat: { timeOfDay: ['20:00:00'] } },
      }),
    );
    expect(rules['in']?.begins).toEqual({ kind: 'planned' });
    expect(rules['talk']?.begins).toEqual({
      kind: 'before',
      of: 'insertion',
      offset: { value: 24, unit: 'h' },
    });
    expect(rules['wash']?.begins).toEqual({
      kind: 'before',
      of: 'insertion',
      offset: { value: 6, unit: 'h' },
      timesOfDay: ['20:00:00'],
    });
  });

  it('that forbids for a time, until something, while something, or until the first of two', () => {
    const rules = rulesOf(
      ban('time', 'infusion-start', { trigger: [done('repair')], timingTiming: lasting(2, 'h') }),
      ban('until', 'infusion-start', {
        trigger: [found('damage')],
        condition: [until('%last.repair >= %began')],
      }),
      ban('while', 'infusion-start', { condition: [when('%last.tipConfirmation.empty()')] }),
      ban('either', 'infusion-start', {
        trigger: [found('damage')],
        timingTiming: lasting(2, 'h'),
        condition: [until('%answered.exists()')],
      }),
    );
    expect(Object.values(rules).map(({ effect }) => effect)).toEqual(Array(4).fill('forbid'));
    expect(rules['time']).toMatchObject({
      begins: { kind: 'triggered', by: [{ kind: 'event', activity: 'repair' }] },
      lasts: { value: 2, unit: 'h' },
    });
    expect(rules['until']?.stop).toMatchObject({ ends: [{ done: 'repair' }] });
    expect(rules['until']).not.toHaveProperty('lasts');
    expect(rules['while']?.begins).toEqual({ kind: 'while' });
    expect(rules['either']?.stop?.ends).toEqual([{ answered: true }]);
    expect(rules['either']?.lasts).toEqual({ value: 2, unit: 'h' });
  });

  it('with its conditions apart by what they are for, those of one kind joined by and', () => {
    const rule = ruleOf(
      act('x', 'patency-assessment', {
        trigger: [done('occlusion-treatment')],
        condition: [
          when('%line.dwellDays > 2', 'start'),
          when('%line.cuffed'),
          until('%found.bloodReturn.brisk >= %began'),
          when('%line.used', 'start'),
        ],
      }),
    );
    expect(rule.start?.text).toBe('(%line.dwellDays > 2) and (%line.used)');
    expect(rule.applicability.text).toBe('%line.cuffed');
    expect(rule.stop).toMatchObject({
      text: '%found.bloodReturn.brisk >= %began',
      ends: [{ found: 'blood-return', value: 'brisk' }],
    });
  });

  it('with the shortest limit for stale results that any layer states, 7 days where none does', () => {
    const stale = (value: number, unit: string) => ({
      extension: [{ url: policyExtension.labStaleAfter, valueDuration: span(value, unit) }],
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

describe('the words for a condition', () => {
  const described = (expression: string, description: string) => {
    const condition = until(expression);
    return { ...condition, expression: { ...condition.expression, description } };
  };
  const stop = (condition: Json[], extension: Json[] = []) =>
    ruleOf(ban('x', 'flush', { trigger: [found('damage')], condition }), { extension });

  it('are its description, or that of the named expression that it is', () => {
    const own = stop([described('%answered.exists()', 'somebody has mended it')]);
    expect(own.stop?.description).toBe('somebody has mended it');
    expect(scheduleText(own)).toBe('not from a finding of damage until somebody has mended it');
    const isMended = named('isMended', '%answered.exists()');
    const valueExpression = { ...isMended.valueExpression, description: 'it is mended' };
    const inName = stop([until('%isMended')], [{ ...isMended, valueExpression }]);
    expect(scheduleText(inName)).toBe('not from a finding of damage until it is mended');
  });

  it('are none of several conditions, and of one that says none', () => {
    const first = described('%answered.exists()', 'somebody has mended it');
    expect(stop([first, until('%last.repair >= %began')]).stop).not.toHaveProperty('description');
    expect(stop([until('%answered.exists()')]).stop).not.toHaveProperty('description');
  });
});
