import { describe, expect, it } from 'vitest';
import { loosening } from './loosening.js';
import type { Begins, Rule, Scope, Span } from './model.js';
import { act, done, every, ruleOf, until, when } from './plan.kit.js';

const rule = ruleOf(act('x', 'bath', { timingTiming: every(1, 'd') }));
const begun = (begins: Begins, more: Partial<Rule> = {}): Rule => ({ ...rule, begins, ...more });
const days = (value: number): Span => ({ value, unit: 'd' });
const hours = (value: number): Span => ({ value, unit: 'h' });
const minutes = (value: number): Span => ({ value, unit: 'min' });
const each = (every: Span, more: { untilAfterInsertion?: Span; atMost?: number } = {}): Begins => ({
  kind: 'interval',
  every,
  ...more,
});
const at = (timesOfDay: string[], ...daysOfWeek: number[]): Begins => ({
  kind: 'fixed-times',
  timesOfDay,
  daysOfWeek,
});
const ahead = (offset: Span, of: 'insertion' | 'removal' = 'insertion', timesOfDay?: string[]): Begins => ({
  kind: 'before',
  of,
  offset,
  ...(timesOfDay === undefined ? {} : { timesOfDay }),
});
const after: Begins = { kind: 'triggered', by: [{ kind: 'event', activity: 'repair' }] };
const whileTrue: Begins = { kind: 'while' };
const once: Begins = { kind: 'once', by: '2026-12-01' };
const night = ['20:00:00'];

// What a layer above may do to a published rule without giving a reason: whatever leaves the longest time without care as
// it is, or shortens it.
describe('when care is due', () => {
  it.each<[string, Begins, Begins]>([
    ['daily at one time, and a day', at(['08:00:00']), each(days(1))],
    ['twice a day, and half a day', at(['08:00:00', '20:00:00']), each(hours(12))],
    ['twice a day out of order', at(['20:00:00', '08:00:00']), each(hours(12))],
    ['half past', at(['08:00:00', '20:30:00']), each(minutes(750))],
    ['Monday and Thursday, and 4 days', at(['08:00:00'], 1, 4), each(days(4))],
    ['Thursday and Monday', at(['08:00:00'], 4, 1), each(days(4))],
    ['Sunday, and a week', at(['08:00:00'], 7), each(days(7))],
    ['7 days, and each Monday', each(days(7)), at(['08:00:00'], 1)],
    [
      'an end that stays',
      each(days(1), { untilAfterInsertion: days(21) }),
      each(days(1), { untilAfterInsertion: days(21) }),
    ],
    [
      'a later end',
      each(days(1), { untilAfterInsertion: days(21) }),
      each(days(1), { untilAfterInsertion: days(22) }),
    ],
    ['no end any more', each(days(1), { untilAfterInsertion: days(21) }), each(days(1))],
    ['as many times', each(days(1), { atMost: 3 }), each(days(1), { atMost: 3 })],
    ['more times', each(days(1), { atMost: 3 }), each(days(1), { atMost: 4 })],
    ['fixed times in place of a number', each(days(1), { atMost: 3 }), at(['08:00:00'])],
    ['as long before', ahead(hours(6)), ahead(hours(6))],
    ['longer before', ahead(hours(6)), ahead(hours(7))],
    ['at the same times of day', ahead(hours(6), 'insertion', night), ahead(hours(6), 'insertion', night)],
    ['no times of day any more', ahead(hours(6), 'insertion', night), ahead(hours(6))],
    ['as soon as it is so', whileTrue, whileTrue],
    ['once, as ordered', once, once],
    ['of what an order plans', { kind: 'planned' }, each(days(1))],
  ])('is not loosened: %s', (_, lower, upper) => {
    expect(loosening(begun(lower), begun(upper))).toBeUndefined();
  });

  it.each<[string, Begins, Begins]>([
    ['an hour more than a day', at(['08:00:00']), each(hours(25))],
    ['a minute more than half past', at(['08:00:00', '20:30:00']), each(minutes(751))],
    ['a minute more than from evening to morning', at(['08:00:00', '19:30:00']), each(minutes(751))],
    ['an hour more than half a day', at(['20:00:00', '08:00:00']), each(hours(13))],
    ['an hour more than from Thursday to Monday', at(['08:00:00'], 4, 1), each(hours(97))],
    ['each Monday instead of 6 days', each(days(6)), at(['08:00:00'], 1)],
    ['an end to fixed times', at(['08:00:00']), each(days(1), { untilAfterInsertion: days(21) })],
    ['a number of fixed times', at(['08:00:00']), each(days(1), { atMost: 3 })],
    [
      'an earlier end',
      each(days(1), { untilAfterInsertion: days(21) }),
      each(days(1), { untilAfterInsertion: days(20) }),
    ],
    ['fewer times', each(days(1), { atMost: 3 }), each(days(1), { atMost: 2 })],
    ['a trigger for an interval', each(days(1)), after],
    ['an interval for a trigger', after, each(days(1))],
    ['less long before', ahead(hours(6)), ahead(hours(5))],
    ['before another act', ahead(hours(6)), ahead(hours(6), 'removal')],
    ['an interval for a time before', ahead(hours(6)), each(hours(1))],
    ['times of day where none were', ahead(hours(6)), ahead(hours(6), 'insertion', night)],
    ['other times of day', ahead(hours(6), 'insertion', ['18:00:00']), ahead(hours(6), 'insertion', night)],
    ['an interval for as soon as it is so', whileTrue, each(hours(1))],
    ['an interval for once', once, each(hours(1))],
    ['once for as soon as it is so', whileTrue, once],
  ])('is loosened: %s', (_, lower, upper) => {
    const found = loosening(begun(lower), begun(upper));
    expect(found?.from).not.toBe('');
    expect(found?.to).not.toBe(found?.from);
  });
});

describe('where care is done', () => {
  it.each<[Scope[], Scope[], boolean]>([
    [['line'], ['line'], false],
    [['line'], ['line', 'exit-site'], false],
    [['line', 'lumen'], ['line', 'lumen'], false],
    [['line', 'lumen'], ['lumen'], true],
    [['line'], ['line', 'lumen'], true],
    [['lumen'], ['line', 'lumen'], false],
  ])('%j made %j: loosened %s', (lower, upper, expected) => {
    const [below, above] = [lower, upper].map((scopes) => begun(each(days(1)), { scopes }));
    if (below === undefined || above === undefined) throw new Error('two rules');
    expect(loosening(below, above) !== undefined).toBe(expected);
  });
});

describe('how a loosening is said', () => {
  it('names what it was where a rule is switched off', () => {
    expect(loosening(rule, 'off')).toEqual({ from: 'every day', to: 'switched off' });
  });

  it('does not say twice the same where only an end is new', () => {
    const ended = ruleOf(
      act('x', 'bath', { trigger: [done('repair')], condition: [until('%last.removal >= %began')] }),
    );
    expect(loosening(rule, { ...ended, begins: rule.begins })).toEqual({
      from: 'every day',
      to: 'every day, and ended by more',
    });
  });

  it('names the act only where it is another', () => {
    const picc = ruleOf(act('x', 'bath', { timingTiming: every(1, 'd'), condition: [when('%line.cuffed')] }));
    expect(loosening(rule, picc)).toEqual({ from: 'every day', to: 'every day, under further conditions' });
    const flush = loosening(rule, { ...rule, activity: 'dressing-change' });
    expect(flush).toEqual({ from: 'bath, every day', to: 'dressing change, every day' });
  });

  it('says where what nobody knows no longer counts as true, and only where something is asked', () => {
    const picc = ruleOf(act('x', 'bath', { timingTiming: every(1, 'd'), condition: [when('%line.cuffed')] }));
    const [protective, byDefault] = (['protective', 'default'] as const).map((whenUnknown) => ({
      ...picc,
      whenUnknown,
    }));
    if (protective === undefined || byDefault === undefined) throw new Error('two rules');
    expect(loosening(protective, byDefault)).toEqual({
      from: 'every day, also where a fact is unknown',
      to: 'every day, not where a fact is unknown',
    });
    expect(loosening(byDefault, byDefault)).toBeUndefined();
    expect(loosening(byDefault, protective)).toBeUndefined();
    expect(loosening(rule, { ...rule, whenUnknown: 'default' })).toBeUndefined();
  });
});
