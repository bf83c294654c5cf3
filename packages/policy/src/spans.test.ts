import { standard } from '@dwellward/profiles';
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { comparableMinutes, readSpan, timeUnitOf, wholeSpan, type FhirTimeUnit } from './spans.js';

// The codes of HL7 FHIR R4's units-of-time, and their English names as people write them.
describe('a unit of time', () => {
  it.each<[FhirTimeUnit, string[]]>([
    ['s', ['s', 'sec', 'second', 'seconds']],
    ['min', ['min', 'minute', 'minutes']],
    ['h', ['h', 'hr', 'hour', 'hours']],
    ['d', ['d', 'day', 'days']],
    ['wk', ['wk', 'week', 'weeks']],
    ['mo', ['mo', 'month', 'months']],
    ['a', ['a', 'year', 'years']],
  ])('%s is written %j', (unit, names) => {
    for (const name of names) expect([name, timeUnitOf(name)]).toEqual([name, unit]);
  });

  it.each(['', 'm', 'D', 'H', 'toString', 'constructor', 'fortnight'])('is not “%s”', (name) => {
    expect(timeUnitOf(name)).toBeUndefined();
  });
});

describe('a number of units as a whole span', () => {
  it.each<[string, FhirTimeUnit, number, string, string?]>([
    ['7', 'd', 7, 'd'],
    ['1000000', 'd', 1_000_000, 'd'],
    ['90', 's', 1, 'min', 'parts of a minute'],
    ['120', 's', 2, 'min'],
    ['3600', 's', 1, 'h'],
    ['86400', 's', 24, 'h'],
    ['1.5', 'h', 90, 'min'],
    ['0.5', 'd', 12, 'h'],
    ['0.5', 'wk', 84, 'h'],
    ['1.142857142857142857', 'wk', 8, 'd'],
    ['24', 'h', 24, 'h'],
    ['0.5', 'mo', 14, 'd', 'part of 28 days'],
    ['1', 'a', 12, 'mo'],
    ['0.5', 'a', 6, 'mo'],
    ['0', 's', 0, 'min'],
    ['0', 'min', 0, 'min'],
    ['0', 'd', 0, 'd'],
    ['0', 'mo', 0, 'mo'],
    ['0', 'a', 0, 'mo'],
  ])('%s %s is %d %s', (value, unit, whole, as, note) => {
    const reading = wholeSpan(new Decimal(value), unit);
    expect(reading?.span).toEqual({ value: whole, unit: as });
    if (note === undefined) expect(reading).not.toHaveProperty('note');
    else expect(reading?.note).toContain(note);
  });

  it.each<[string, FhirTimeUnit]>([
    ['30', 's'],
    ['0.5', 'min'],
    [String(1_000_001), 'd'],
    ['-1', 'd'],
    ['-0.5', 's'],
    ['Infinity', 'd'],
    ['NaN', 'd'],
    ['0.00001', 'mo'],
  ])('%s %s is none', (value, unit) => {
    expect(wholeSpan(new Decimal(value), unit)).toBeUndefined();
  });
});

describe('a Duration', () => {
  it.each([
    [
      { value: 7, system: standard.ucum, code: 'd' },
      { value: 7, unit: 'd' },
    ],
    [
      { value: 7, unit: 'days' },
      { value: 7, unit: 'd' },
    ],
    [
      { value: 7, code: 'h', unit: 'days' },
      { value: 7, unit: 'h' },
    ],
    [
      { value: 0, code: 'd' },
      { value: 0, unit: 'd' },
    ],
  ])('%j is read', (duration, span) => {
    expect(readSpan(duration)).toEqual({ ok: true, span });
  });

  it.each<[string, unknown, string, string]>([
    ['text', '7 d', '', 'is not a Duration'],
    ['a comparator', { value: 7, code: 'd', comparator: '<' }, 'comparator', 'comparator'],
    ['no value', { code: 'd' }, 'value', 'a number from 0 up'],
    ['text as the value', { value: '7', code: 'd' }, 'value', 'a number from 0 up'],
    ['no number', { value: Number.NaN, code: 'd' }, 'value', 'a number from 0 up'],
    ['no end', { value: Number.POSITIVE_INFINITY, code: 'd' }, 'value', 'a number from 0 up'],
    ['less than nothing', { value: -1, code: 'd' }, 'value', 'a number from 0 up'],
    ['another system', { value: 7, system: 'urn:own', code: 'd' }, 'system', 'not the system of UCUM'],
    ['neither code nor unit', { value: 7 }, 'code', 'is not a unit of time'],
    ['an unknown code', { value: 7, code: 'D' }, 'code', 'D'],
    ['an unknown code beside a unit', { value: 7, code: 'D', unit: 'days' }, 'code', 'D'],
    ['an unknown unit', { value: 7, unit: 'shifts' }, 'unit', 'shifts'],
    ['a number as the code', { value: 7, code: 7 }, 'code', 'is not a unit of time'],
    ['less than a minute', { value: 10, code: 's' }, 'value', '10 s is not a whole minute'],
    ['too long a time', { value: 1_000_001, code: 'd' }, 'value', 'too long'],
  ])('with %s is refused where that stands', (_, duration, path, message) => {
    const reading = readSpan(duration);
    expect(reading).toMatchObject({ ok: false, path });
    if (!reading.ok) expect(reading.message).toContain(message);
  });
});

it('spans of all units are compared in minutes, a month as its mean', () => {
  const minutes = (value: number, unit: 'min' | 'h' | 'd' | 'wk' | 'mo') =>
    comparableMinutes({ value, unit });
  expect([minutes(3, 'min'), minutes(2, 'h'), minutes(2, 'd'), minutes(2, 'wk')]).toEqual([
    3, 120, 2880, 20160,
  ]);
  expect(minutes(12, 'mo')).toBeCloseTo(365.2425 * 1440);
});
