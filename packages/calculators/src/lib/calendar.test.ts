import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateOf, dayNumber, localMinutes, localTimeOf } from './calendar.js';

const first = Date.UTC(1900, 0, 1) / 86_400_000;
const last = Date.UTC(2199, 11, 31) / 86_400_000;

describe('day numbers', () => {
  it('of every day from 1900 to 2199 are those of the platform’s own calendar, both ways', () => {
    const wrong: string[] = [];
    for (let day = first; day <= last; day += 1) {
      const date = new Date(day * 86_400_000).toISOString().slice(0, 10);
      if (dayNumber(date) !== day || dateOf(day) !== date) wrong.push(date);
    }
    expect(wrong).toEqual([]);
  });
  it.each([
    '1899-12-31',
    '2200-01-01',
    '2026-02-29',
    '1900-02-29',
    '2026-13-01',
    '2026-00-10',
    '2026-01-00',
    '2026-04-31',
    '2026-1-1',
    '2026-01-01T00:00',
    'x2026-01-01',
    '2026-01-01x',
    '',
  ])('%j is no day', (text) => {
    expect(dayNumber(text)).toBeUndefined();
  });
  it('exist for 29 February of leap years, 2000 among them', () => {
    expect(dayNumber('2000-02-29')).toBe(11_016);
    expect(dayNumber('2024-02-29')).toBeDefined();
  });
});

describe('local times', () => {
  it('count minutes as the platform does in UTC, both ways', () => {
    fc.assert(
      fc.property(fc.integer({ min: first * 1440, max: last * 1440 + 1439 }), (minutes) => {
        const text = new Date(minutes * 60_000).toISOString().slice(0, 16);
        expect(localMinutes(text)).toBe(minutes);
        expect(localTimeOf(minutes)).toBe(text);
      }),
    );
  });
  it.each([
    '2026-02-30T10:00',
    '2026-01-01T24:00',
    '2026-01-01T10:60',
    '2026-01-01 10:00',
    '2026-01-01',
    'x2026-01-01T10:00',
    '2026-01-01T10:00:00',
  ])('%j is no local time', (text) => {
    expect(localMinutes(text)).toBeUndefined();
  });
  it('have 23:59 as their last minute', () => {
    expect(localMinutes('1970-01-01T23:59')).toBe(1439);
    expect(localMinutes('1970-01-01T00:00')).toBe(0);
  });
});
