import { expect, it } from 'vitest';
import type { Schedule } from './model.js';
import { scheduleText, spanText } from './schedule-text.js';

it.each<[Schedule, string]>([
  [{ kind: 'interval', every: { value: 7, unit: 'd' } }, 'every 7 days'],
  [{ kind: 'interval', every: { value: 1, unit: 'd' } }, 'every day'],
  [
    {
      kind: 'interval',
      every: { value: 1, unit: 'h' },
      firstAfterInsertion: { value: 15, unit: 'min' },
      untilAfterInsertion: { value: 4, unit: 'h' },
      atMost: 4,
    },
    'every hour, the first 15 minutes after the insertion, until 4 hours after the insertion, at most 4 times',
  ],
  [
    {
      kind: 'interval',
      every: { value: 24, unit: 'h' },
      firstAfterInsertion: { value: 24, unit: 'h' },
      atMost: 1,
    },
    'once, 24 hours after the insertion',
  ],
  [
    { kind: 'fixed-times', daysOfWeek: [1, 3, 5], timesOfDay: ['08:00:00'] },
    'every Monday, Wednesday and Friday at 08:00',
  ],
  [
    { kind: 'fixed-times', daysOfWeek: [], timesOfDay: ['08:00:00', '20:30:00'] },
    'every day at 08:00 and 20:30',
  ],
  [
    { kind: 'at-once', finding: 'dressing-condition', values: ['damp', 'loosened', 'soiled'] },
    'at once when the dressing is damp, loosened or soiled',
  ],
  [
    { kind: 'at-once', finding: 'connector-condition', values: ['blood-residue', 'debris'] },
    'at once when the connector is found with: blood residue or debris',
  ],
  [{ kind: 'at-once', finding: 'damage', values: [] }, 'at once after any finding of damage'],
  [{ kind: 'at-once', finding: 'blood-return', values: ['none'] }, 'at once when blood return is none'],
  [{ kind: 'chain', after: 'repair', offset: { value: 48, unit: 'h' } }, '48 hours after the repair'],
  [{ kind: 'chain', after: 'repair', offset: { value: 0, unit: 'h' } }, 'straight after the repair'],
  [{ kind: 'hold', after: 'repair', offset: { value: 2, unit: 'h' } }, 'not within 2 hours after the repair'],
  [{ kind: 'hold', after: 'tip-confirmation' }, 'not before the tip confirmation'],
  [
    { kind: 'hold', after: 'repair', from: { finding: 'damage', values: [] } },
    'not from a finding of damage until the repair',
  ],
  [
    {
      kind: 'hold',
      from: { finding: 'flush-resistance', values: ['blocked'] },
      until: [
        { finding: 'blood-return', values: ['brisk'] },
        { finding: 'flush-resistance', values: ['none'] },
      ],
    },
    'not from a finding of blocked flush resistance until brisk blood return or none flush resistance is found',
  ],
  [
    {
      kind: 'at-once',
      finding: 'blood-return',
      values: ['none'],
      until: [{ finding: 'blood-return', values: ['brisk'] }],
    },
    'at once when blood return is none, until brisk blood return is found',
  ],
  [
    { kind: 'before', of: 'insertion', offset: { value: 24, unit: 'h' } },
    'once, 24 hours before the planned insertion',
  ],
  [{ kind: 'before', of: 'insertion', offset: { value: 0, unit: 'h' } }, 'once, by the planned insertion'],
  [
    { kind: 'before', of: 'insertion', offset: { value: 6, unit: 'h' }, timesOfDay: ['20:00:00'] },
    'once, at the last 20:00 that is 6 hours or more before the planned insertion',
  ],
  [{ kind: 'once', by: '2026-12-01T10:00:00+01:00' }, 'once'],
  [{ kind: 'anchor' }, 'when it is needed'],
])('%j', (schedule, text) => {
  expect(scheduleText(schedule)).toBe(text);
});

it('says one of a unit in the singular', () => {
  expect(spanText({ value: 1, unit: 'mo' })).toBe('1 month');
  expect(spanText({ value: 96, unit: 'h' })).toBe('96 hours');
});
