import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Span } from './model.js';
import { readSpan } from './spans.js';
import { readTiming } from './timing.js';

const span = (value: number, unit: Span['unit']): Span => ({ value, unit });
const ucum = (value: number, code: string) => ({ value, code, system: 'http://unitsofmeasure.org' });

function beginsOf(repeat: object) {
  const reading = readTiming({ repeat });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading;
}

function problemsOf(timing: unknown) {
  const reading = readTiming(timing);
  return reading.ok ? [] : reading.problems.map(({ path }) => path);
}

describe('readTiming', () => {
  // The wordings are those of the examples for Timing in HL7 FHIR R4 and of its GTS abbreviations (from memory).
  it.each([
    ['every 8 hours', { frequency: 1, period: 8, periodUnit: 'h' }, span(8, 'h')],
    ['every 7 days', { period: 7, periodUnit: 'd' }, span(7, 'd')],
    ['two times a day (BID)', { frequency: 2, period: 1, periodUnit: 'd' }, span(12, 'h')],
    ['three times a day (TID)', { frequency: 3, period: 1, periodUnit: 'd' }, span(8, 'h')],
    ['every other day (QOD)', { frequency: 1, period: 2, periodUnit: 'd' }, span(2, 'd')],
    ['3 to 4 times a day', { frequency: 3, frequencyMax: 4, period: 1, periodUnit: 'd' }, span(6, 'h')],
    ['every 4 to 6 hours', { frequency: 1, period: 4, periodMax: 6, periodUnit: 'h' }, span(4, 'h')],
    ['3 times a week', { frequency: 3, period: 1, periodUnit: 'wk' }, span(56, 'h')],
    ['twice a week', { frequency: 2, period: 1, periodUnit: 'wk' }, span(84, 'h')],
    ['7 times a week', { frequency: 7, period: 1, periodUnit: 'wk' }, span(1, 'd')],
    ['once a week', { frequency: 1, period: 1, periodUnit: 'wk' }, span(1, 'wk')],
    ['every 24 hours stays exact', { frequency: 1, period: 24, periodUnit: 'h' }, span(24, 'h')],
    ['twice in 48 hours stays exact', { frequency: 2, period: 48, periodUnit: 'h' }, span(24, 'h')],
    ['half a day', { period: 0.5, periodUnit: 'd' }, span(12, 'h')],
    ['every 1.5 hours', { period: 1.5, periodUnit: 'h' }, span(90, 'min')],
    ['every 5400 seconds', { period: 5400, periodUnit: 's' }, span(90, 'min')],
    ['4 times a year', { frequency: 4, period: 1, periodUnit: 'a' }, span(3, 'mo')],
    ['once a year', { frequency: 1, period: 1, periodUnit: 'a' }, span(12, 'mo')],
    ['every 4 weeks', { frequency: 1, period: 4, periodUnit: 'wk' }, span(4, 'wk')],
  ])('%s', (_, repeat, every) => {
    expect(beginsOf(repeat).begins).toEqual({ kind: 'interval', every });
  });

  it('takes the shorter reading and says so where an interval has no exact one', () => {
    expect(beginsOf({ frequency: 7, period: 1, periodUnit: 'd' })).toMatchObject({
      begins: { every: span(205, 'min') },
      notes: ['parts of a minute are dropped'],
    });
    // 28 days is the shortest month: half of it is two weeks at most.
    const half = beginsOf({ frequency: 2, period: 1, periodUnit: 'mo' });
    expect(half.begins).toMatchObject({ every: span(14, 'd') });
    expect(half.notes.join()).toContain('28 days');
    expect(beginsOf({ frequency: 1, period: 4, periodMax: 6, periodUnit: 'h' }).notes.join()).toContain(
      'the shorter',
    );
    expect(beginsOf({ frequency: 3, frequencyMax: 4, period: 1, periodUnit: 'd' }).notes.join()).toContain(
      '4 times',
    );
    expect(beginsOf({ frequency: 3, period: 1, periodUnit: 'd' }).notes).toEqual([]);
  });

  it('reads the end and the number of times after the insertion', () => {
    const daily = { frequency: 1, period: 1, periodUnit: 'd' };
    const every = span(1, 'd');
    const read = (more: object) => beginsOf({ ...daily, ...more }).begins;
    expect(read({ boundsDuration: ucum(3, 'd') })).toEqual({
      kind: 'interval',
      every,
      untilAfterInsertion: span(3, 'd'),
    });
    expect(read({ count: 3 })).toEqual({ kind: 'interval', every, atMost: 3 });
    expect(read({ count: 2, countMax: 4 })).toMatchObject({ atMost: 4 });
  });

  it('reads fixed times of day', () => {
    expect(beginsOf({ dayOfWeek: ['wed', 'mon', 'mon'], timeOfDay: ['20:00:00', '08:00'] }).begins).toEqual({
      kind: 'fixed-times',
      daysOfWeek: [1, 3],
      timesOfDay: ['08:00:00', '20:00:00'],
    });
    expect(beginsOf({ frequency: 1, period: 1, periodUnit: 'd', timeOfDay: ['10:00:00'] }).begins).toEqual({
      kind: 'fixed-times',
      daysOfWeek: [],
      timesOfDay: ['10:00:00'],
    });
    expect(
      beginsOf({
        frequency: 2,
        period: 1,
        periodUnit: 'wk',
        dayOfWeek: ['sat', 'sun'],
        timeOfDay: ['10:00:00'],
      }).begins,
    ).toMatchObject({
      daysOfWeek: [6, 7],
    });
  });

  const daily = { frequency: 1, period: 1, periodUnit: 'd' };
  it.each<[string, unknown, string[]]>([
    ['before meals', { repeat: { ...daily, when: ['AC'] } }, ['repeat.when[0]']],
    [
      'with breakfast, offset',
      { repeat: { ...daily, when: ['CM'], offset: 30 } },
      ['repeat.when[0]', 'repeat.offset'],
    ],
    ['an offset from nothing', { repeat: { ...daily, offset: 15 } }, ['repeat.offset']],
    [
      'a range of lengths',
      { repeat: { ...daily, boundsRange: { low: ucum(24, 'h'), high: ucum(2, 'wk') } } },
      ['repeat.boundsRange'],
    ],
    [
      'once, so long after the insertion',
      { repeat: { count: 1, boundsRange: { low: ucum(24, 'h') } } },
      ['repeat.boundsRange', 'repeat.period'],
    ],
    ['fixed dates', { event: ['2026-01-01'], repeat: daily }, ['event']],
    ['only dates', { event: ['2026-01-01'] }, ['event', 'repeat']],
    ['a code alone', { code: { text: 'BID' } }, ['code']],
    ['nothing', {}, ['repeat']],
    [
      'for 1 hour',
      { repeat: { ...daily, duration: 1, durationUnit: 'h' } },
      ['repeat.duration', 'repeat.durationUnit'],
    ],
    [
      'calendar bounds',
      { repeat: { ...daily, boundsPeriod: { start: '2026-01-01' } } },
      ['repeat.boundsPeriod'],
    ],
    ['a modifier', { modifierExtension: [{ url: 'x' }], repeat: daily }, ['modifierExtension']],
    ['an unknown element', { repeat: { ...daily, how: 'gently' } }, ['repeat.how']],
    ['no unit', { repeat: { period: 1 } }, ['repeat.periodUnit']],
    ['a unit that is none', { repeat: { period: 1, periodUnit: 'fortnight' } }, ['repeat.periodUnit']],
    ['no period', { repeat: { frequency: 2 } }, ['repeat.period']],
    ['period 0', { repeat: { period: 0, periodUnit: 'd' } }, ['repeat.period']],
    ['half a time', { repeat: { frequency: 0.5, period: 1, periodUnit: 'd' } }, ['repeat.frequency']],
    ['20 seconds', { repeat: { period: 20, periodUnit: 's' } }, ['repeat.period']],
    ['days without times', { repeat: { dayOfWeek: ['mon'] } }, ['repeat.timeOfDay']],
    [
      'a day that is none',
      { repeat: { dayOfWeek: ['sol'], timeOfDay: ['08:00:00'] } },
      ['repeat.dayOfWeek[0]'],
    ],
    ['a time that is none', { repeat: { timeOfDay: ['08:00:00', '25:00:00'] } }, ['repeat.timeOfDay[1]']],
    [
      'times every 2 days',
      { repeat: { period: 2, periodUnit: 'd', timeOfDay: ['08:00:00'] } },
      ['repeat.period'],
    ],
    [
      'times that do not add up',
      { repeat: { ...daily, frequency: 3, timeOfDay: ['08:00:00', '20:00:00'] } },
      ['repeat.frequency'],
    ],
    ['times and count', { repeat: { timeOfDay: ['08:00:00'], count: 3 } }, ['repeat.count']],
    [
      'bounds with no unit',
      { repeat: { ...daily, boundsDuration: { value: 3 } } },
      ['repeat.boundsDuration.code'],
    ],
    ['not an object', 'daily', ['']],
  ])('refuses %s with its path', (_, timing, paths) => {
    expect(problemsOf(timing)).toEqual(paths);
  });

  it.each(['boundsRange', 'offset'])('says how a first time is said now, in place of %s', (name) => {
    const reading = readTiming({ repeat: { ...daily, [name]: 15 } });
    const [problem] = reading.ok ? [] : reading.problems;
    expect(problem?.cure).toContain('a trigger of type Procedure for the insertion, and timingDuration');
  });

  it('leaves calendar bounds to a caller who reads them', () => {
    const timing = { repeat: { ...daily, boundsPeriod: { start: '2026-01-01' } } };
    expect(readTiming(timing, { callerReadsBoundsPeriod: true }).ok).toBe(true);
  });

  it('never throws and never gives an interval of nothing', () => {
    fc.assert(
      fc.property(
        fc.record(
          {
            frequency: fc.oneof(fc.integer(), fc.double(), fc.jsonValue()),
            frequencyMax: fc.oneof(fc.integer(), fc.jsonValue()),
            period: fc.oneof(fc.integer(), fc.double(), fc.jsonValue()),
            periodMax: fc.oneof(fc.integer(), fc.double()),
            periodUnit: fc.constantFrom('s', 'min', 'h', 'd', 'wk', 'mo', 'a', 'x', 1),
            timeOfDay: fc.jsonValue(),
            dayOfWeek: fc.jsonValue(),
            boundsRange: fc.jsonValue(),
          },
          { requiredKeys: ['period', 'periodUnit'] },
        ),
        (repeat) => {
          const reading = readTiming({ repeat });
          if (reading.ok && reading.begins.kind === 'interval') {
            expect(Number.isInteger(reading.begins.every.value)).toBe(true);
            expect(reading.begins.every.value).toBeGreaterThan(0);
          } else if (!reading.ok) expect(reading.problems.length).toBeGreaterThan(0);
        },
      ),
    );
  });

  it('never gives an interval longer than period / frequency', () => {
    const minutes = { s: 1 / 60, min: 1, h: 60, d: 1440, wk: 10080 };
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 1, max: 60 }),
        fc.constantFrom('min', 'h', 'd', 'wk' as const),
        (frequency, period, periodUnit) => {
          const reading = readTiming({ repeat: { frequency, period, periodUnit } });
          const exact = (period * minutes[periodUnit]) / frequency;
          if (!reading.ok) {
            expect(exact).toBeLessThan(1);
            return;
          }
          if (reading.begins.kind !== 'interval') throw new Error('no interval');
          const { value, unit } = reading.begins.every;
          const given = value * minutes[unit as keyof typeof minutes];
          expect(given).toBeLessThanOrEqual(exact + 1e-9);
          expect(given).toBeGreaterThan(exact - 1);
        },
      ),
    );
  });
});

describe('readSpan', () => {
  it.each([
    [ucum(48, 'h'), span(48, 'h')],
    [{ value: 2, unit: 'days' }, span(2, 'd')],
    [{ value: 2, unit: 'weeks', code: 'wk' }, span(2, 'wk')],
    [ucum(0, 'h'), span(0, 'h')],
    [ucum(1, 'a'), span(12, 'mo')],
    [ucum(1.5, 'd'), span(36, 'h')],
  ])('reads %j', (duration, expected) => {
    expect(readSpan(duration)).toEqual({ ok: true, span: expected });
  });

  it.each([
    [{ value: 2 }, 'code'],
    [{ value: 2, unit: 'moons' }, 'unit'],
    [ucum(-1, 'h'), 'value'],
    [{ ...ucum(1, 'h'), comparator: '<' }, 'comparator'],
    ['2 h', ''],
    [{ ...ucum(1, 'h'), system: 'http://units.example' }, 'system'],
    [{ ...ucum(1, 'h'), system: null }, 'system'],
    [{ value: '2', code: 'h' }, 'value'],
  ])('refuses %j', (duration, path) => {
    expect(readSpan(duration)).toMatchObject({ ok: false, path });
  });
});
