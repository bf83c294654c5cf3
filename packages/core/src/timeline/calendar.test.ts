import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { dayNumber, dayOfNumber, plainInstantMs } from '../model/civil.js';
import { Calendar, instantMs } from './calendar.js';

// The time library is the reference: what is worked out by the table must be what it says.

// With clock changes at midnight, of half an hour, of a whole day, below zero in winter, in the month of fasting; and none.
const zones = [
  ...['Europe/Berlin', 'Europe/Dublin', 'America/New_York', 'America/Sao_Paulo', 'America/Havana'],
  ...['Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Apia', 'Africa/Casablanca', 'Asia/Gaza', 'UTC'],
  ...['Africa/Cairo', 'Asia/Tehran', 'Africa/Monrovia', '+05:30'],
];
const zoned = (ms: number, zone: string) =>
  Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(zone);

const ofYears = (first: number, last: number) =>
  fc.integer({ min: Date.UTC(first, 0, 1), max: Date.UTC(last, 0, 1) });

/** Any moment, those near a clock change more often than others. */
const moment = fc
  .tuple(fc.constantFrom(...zones), fc.oneof(ofYears(1890, 2210), ofYears(1975, 2045)), fc.boolean())
  .chain(([zone, ms, near]) => {
    const change = near ? zoned(ms, zone).getTimeZoneTransition('next')?.epochMilliseconds : undefined;
    const around = fc.integer({ min: -26 * 60, max: 26 * 60 }).map((minutes) => minutes * 60_000);
    return fc.record({
      zone: fc.constant(zone),
      ms:
        change === undefined
          ? fc.constant(ms)
          : fc.oneof(around, fc.integer({ min: -2, max: 2 })).map((by) => change + by),
    });
  });
const runs = { numRuns: 1_500 };

describe('a calendar is that of the time library', () => {
  it('in what the wall shows', () => {
    fc.assert(
      fc.property(moment, ({ zone, ms }) => {
        const calendar = new Calendar(zone);
        const there = zoned(ms, zone);
        const smallestUnit = ms % 1000 === 0 ? 'second' : 'millisecond';
        expect(calendar.text(ms)).toBe(there.toString({ smallestUnit, timeZoneName: 'never' }));
        expect(calendar.startOfDay(ms)).toBe(there.startOfDay().epochMilliseconds);
        const epoch = Temporal.PlainDate.from('1970-01-01');
        expect(calendar.daysBetween(0, ms)).toBe(
          epoch.until(there.toPlainDate()).days - epoch.until(zoned(0, zone).toPlainDate()).days,
        );
      }),
      runs,
    );
  });

  it('in days, weeks and months that are added or taken away', () => {
    const span = fc.record({
      unit: fc.constantFrom('d', 'wk', 'mo'),
      value: fc.integer({ min: 0, max: 70 }),
    });
    fc.assert(
      fc.property(
        moment,
        span,
        fc.constantFrom(1 as const, -1 as const),
        ({ zone, ms }, { unit, value }, sign) => {
          const name = { d: 'days', wk: 'weeks', mo: 'months' }[unit];
          const wanted = zoned(ms, zone).add({ [name]: sign * value }).epochMilliseconds;
          expect(new Calendar(zone).add(ms, { unit, value }, sign)).toBe(wanted);
        },
      ),
      runs,
    );
  });

  it('in the bounds of a day, a month and a year', () => {
    const precision = fc.constantFrom('day' as const, 'month' as const, 'year' as const);
    fc.assert(
      fc.property(moment, precision, ({ zone, ms }, precision) => {
        const text = zoned(ms, zone).toPlainDate().toString();
        const given = { precision, text: text.slice(0, { day: 10, month: 7, year: 4 }[precision]) };
        const first = Temporal.PlainDate.from(`${given.text}-01-01`.slice(0, 10));
        const next = first.add({ [`${precision}s`]: 1 });
        const calendar = new Calendar(zone);
        expect([calendar.earliest(given), calendar.latest(given)]).toEqual([
          first.toZonedDateTime(zone).epochMilliseconds,
          next.toZonedDateTime(zone).epochMilliseconds,
        ]);
      }),
      runs,
    );
  });

  it('in the next and the last of the times of a day', () => {
    const times = fc.uniqueArray(fc.constantFrom('00:00', '01:30', '02:00', '02:30:30', '03:00', '23:59'), {
      minLength: 1,
      maxLength: 3,
    });
    const days = fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { maxLength: 3 });
    fc.assert(
      fc.property(moment, times, days, ({ zone, ms }, times, days) => {
        const slots = [-2, -1, 0, ...Array.from({ length: 9 }, (_, i) => i + 1)]
          .map((by) => zoned(ms, zone).toPlainDate().add({ days: by }))
          .flatMap((day) =>
            [...times]
              .sort()
              .map((time) => ({ day, at: day.toZonedDateTime({ timeZone: zone, plainTime: time }) })),
          );
        const ats = slots.map(({ at }) => at.epochMilliseconds);
        const today = zoned(ms, zone).toPlainDate();
        const next = slots
          .filter(({ day }) => Temporal.PlainDate.compare(day, today) >= 0)
          .filter(({ day }) => days.length === 0 || days.includes(day.dayOfWeek))
          .map(({ at }) => at.epochMilliseconds)
          .find((at) => at > ms);
        const calendar = new Calendar(zone);
        expect(calendar.nextSlot(ms, days, times)).toBe(next);
        expect(calendar.lastSlot(ms, times)).toBe(Math.max(...ats.filter((at) => at <= ms)));
      }),
      runs,
    );
  });

  it('in an instant, whichever way it is written', () => {
    const two = (most: number) =>
      fc.integer({ min: 0, max: most }).map((one) => String(one).padStart(2, '0'));
    const text = fc
      .record({
        ...{
          year: fc.integer({ min: 0, max: 9999 }),
          month: two(13),
          day: two(32),
          hour: two(24),
          minute: two(60),
        },
        rest: fc.constantFrom('', ':00', ':59', ':60', ':07.5', ':07.1234567', ':07.123456789'),
        zone: fc.oneof(
          fc.constantFrom('Z', '+14:00', '-12:30', '+24:00', '', 'z'),
          two(23).map((h) => `-${h}:59`),
        ),
      })
      .map(
        (at) =>
          `${String(at.year).padStart(4, '0')}-${at.month}-${at.day}T${at.hour}:${at.minute}${at.rest}${at.zone}`,
      );
    const reference = (given: string) => {
      try {
        return Temporal.Instant.from(given).epochMilliseconds;
      } catch {
        return undefined;
      }
    };
    fc.assert(
      fc.property(text, (given) => {
        const wanted = reference(given);
        const plain = plainInstantMs(given);
        if (plain !== undefined) expect(plain, given).toBe(wanted);
        if (wanted === undefined) expect(() => instantMs(given)).toThrow(/is not an instant/);
        else expect(instantMs(given)).toBe(wanted);
      }),
      { numRuns: 8_000 },
    );
    expect(plainInstantMs('2026-11-25T07:30:00+01:00')).toBe(1_795_588_200_000);
  });

  it('in the days of the calendar, there and back', () => {
    const epoch = Temporal.PlainDate.from('1970-01-01');
    fc.assert(
      fc.property(fc.integer({ min: -800_000, max: 2_900_000 }), (number) => {
        const { year, month, day } = epoch.add({ days: number });
        expect(dayOfNumber(number)).toEqual({ year, month, day });
        expect(dayNumber({ year, month, day })).toBe(number);
      }),
      runs,
    );
  });
});
