import { expect, it } from 'vitest';
import { compileCondition } from './condition-compile.js';
import type { Begins, Span, Trigger } from './model.js';
import { scheduleText, spanText, type Timed } from './schedule-text.js';

const ask = (begins: Begins, ...stop: string[]): Timed => ({ effect: 'ask', begins, ...stopped(stop) });
const ban = (begins: Begins, lasts?: Span, ...stop: string[]): Timed => ({
  effect: 'forbid',
  begins,
  ...(lasts === undefined ? {} : { lasts }),
  ...stopped(stop),
});
function stopped(texts: string[]): Pick<Timed, 'stop'> {
  if (texts.length === 0) return {};
  const reading = compileCondition(texts, { kind: 'stop' });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return { stop: reading.condition };
}
const by = (...triggers: Trigger[]): Begins => ({ kind: 'triggered', by: triggers });
const after = (value: number, unit: Span['unit'], ...triggers: Trigger[]): Begins => ({
  kind: 'triggered',
  by: triggers,
  after: { value, unit },
});
const found = (finding: Extract<Trigger, { kind: 'finding' }>['finding'], ...values: string[]): Trigger => ({
  kind: 'finding',
  finding,
  values,
});
const repair: Trigger = { kind: 'event', activity: 'repair' };

it.each<[Timed, string]>([
  [ask({ kind: 'interval', every: { value: 7, unit: 'd' } }), 'every 7 days'],
  [ask({ kind: 'interval', every: { value: 1, unit: 'd' } }), 'every day'],
  [
    ask({
      kind: 'interval',
      every: { value: 1, unit: 'h' },
      untilAfterInsertion: { value: 4, unit: 'h' },
      atMost: 4,
    }),
    'every hour, until 4 hours after the insertion, at most 4 times',
  ],
  [ask({ kind: 'interval', every: { value: 24, unit: 'h' }, atMost: 1 }), 'every 24 hours, at most 1 time'],
  [
    ask({ kind: 'fixed-times', daysOfWeek: [1, 3, 5], timesOfDay: ['08:00:00'] }),
    'every Monday, Wednesday and Friday at 08:00',
  ],
  [
    ask({ kind: 'fixed-times', daysOfWeek: [], timesOfDay: ['08:00:00', '20:30:00'] }),
    'every day at 08:00 and 20:30',
  ],
  [
    ask(by(found('dressing-condition', 'damp', 'loosened', 'soiled'))),
    'at once when the dressing is damp, loosened or soiled',
  ],
  [
    ask(by(found('connector-condition', 'blood-residue', 'debris'))),
    'at once when the connector is found with: blood residue or debris',
  ],
  [ask(by(found('damage'))), 'at once after any finding of damage'],
  [ask(by(found('blood-return', 'none'))), 'at once when blood return is none'],
  [
    ask(by(found('damage'), found('fever', 'present'))),
    'at once after any finding of damage or at once when fever is present',
  ],
  [
    ask(by(found('blood-return', 'none')), '%found.bloodReturn.brisk >= %began'),
    'at once when blood return is none, until brisk blood return is found',
  ],
  [ask(by(repair)), 'straight after the repair'],
  [ask(after(0, 'h', repair)), 'straight after the repair'],
  [ask(after(48, 'h', repair)), '48 hours after the repair'],
  [ask(after(2, 'h', found('damage', 'leak', 'cut'))), '2 hours after a finding of leak or cut damage'],
  [
    ask(after(30, 'min', repair), '%found.bloodReturn.brisk >= %began or %last.removal >= %began'),
    '30 minutes after the repair, unless brisk blood return is found or the removal comes first',
  ],
  [
    ask(after(30, 'min', repair), '%line.used and %last.removal >= %began'),
    '30 minutes after the repair, unless %line.used and %last.removal >= %began',
  ],
  [ask({ kind: 'while' }), 'as soon as it applies'],
  [
    ask({ kind: 'before', of: 'insertion', offset: { value: 24, unit: 'h' } }),
    'once, 24 hours before the planned insertion',
  ],
  [
    ask({ kind: 'before', of: 'insertion', offset: { value: 0, unit: 'h' } }),
    'once, by the planned insertion',
  ],
  [
    ask({
      kind: 'before',
      of: 'insertion',
      offset: { value: 6, unit: 'h' },
      timesOfDay: ['20:00:00'],
    }),
    'once, at the last 20:00 that is 6 hours or more before the planned insertion',
  ],
  [ask({ kind: 'once', by: '2026-12-01T10:00:00+01:00' }), 'once'],
  [ask({ kind: 'planned' }), 'when it is ordered'],
  [ban(by(repair), { value: 2, unit: 'h' }), 'not within 2 hours after the repair'],
  [
    ban(by(repair), { value: 2, unit: 'h' }, '%found.bloodReturn.brisk >= %began'),
    'not within 2 hours after the repair, unless brisk blood return is found first',
  ],
  [
    ban(by(found('damage')), undefined, '%last.repair >= %began'),
    'not from a finding of damage until the repair',
  ],
  [
    ban(by(found('damage')), undefined, '%answered.exists()'),
    'not from a finding of damage until it is put right',
  ],
  [
    ban(
      by(found('flush-resistance', 'blocked')),
      undefined,
      '%found.bloodReturn.brisk >= %began or %found.flushResistance.none >= %began',
    ),
    'not from a finding of blocked flush resistance until brisk blood return is found or none flush resistance is found',
  ],
  [
    ban(by(found('damage'), repair), undefined, '%line.removedDays >= 0'),
    'not from a finding of damage or the repair until %line.removedDays >= 0',
  ],
  [ban({ kind: 'while' }), 'not while it applies'],
])('%j', (rule, text) => {
  expect(scheduleText(rule)).toBe(text);
});

it('says one of a unit in the singular', () => {
  expect(spanText({ value: 1, unit: 'mo' })).toBe('1 month');
  expect(spanText({ value: 96, unit: 'h' })).toBe('96 hours');
});
