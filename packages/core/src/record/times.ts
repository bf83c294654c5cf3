import { Temporal } from 'temporal-polyfill';
import { dayMs, dayNumber, plainDayOf, plainInstantMs } from '../model/civil.js';
import type { RecordedTime } from '../model/record.js';
import type { Unusable } from '../model/sentences.js';

const instant = /^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2})(?::(\d{2})(?:\.(\d+))?)?(Z|[+-]\d{2}:\d{2})$/;
const partial = /^\d{4}(-\d{2}(-\d{2})?)?$/;
const local = /^(\d{4}-\d{2}-\d{2})T\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/;

/** Years, the first and the last of them included. */
export interface Years {
  readonly first: number;
  readonly last: number;
}

/**
 * The years that what is charted of a line can lie in; common practice, no source: no line that is in use was put in before
 * the first. One of the year 0226 is a slip of the pen, and would be counted through for eighteen centuries.
 */
export const yearsOfCare: Years = { first: 1980, last: 2199 };
/** The years that a patient who lives can be born in; common practice, no source. */
export const yearsOfBirth: Years = { first: 1890, last: 2199 };

// ISO 8601 and FHIR: no clock on earth is more than 14 hours from UTC.
const widestOffsetMinutes = 14 * 60;
// Nanoseconds: more digits are no other moment that could matter.
const fractionDigits = 9;

/** A time, or why there is none. */
export type TimeReading = { readonly time: RecordedTime } | { readonly reason: Unusable };

/**
 * A FHIR date, dateTime or instant as it was recorded, or undefined where it is none, or one that can’t be.
 * A time of day without an offset is read as its day only: which clock it was on can’t be known.
 */
export function recordedTime(text: string | undefined, years: Years = yearsOfCare): RecordedTime | undefined {
  const reading = text === undefined ? undefined : readTime(text, years);
  return reading !== undefined && 'time' in reading ? reading.time : undefined;
}

/** The same with the reason why it can’t be used. Never throws. */
export function readTime(text: string, years: Years = yearsOfCare): TimeReading {
  const trimmed = text.trim();
  const day = (partial.test(trimmed) ? `${trimmed}-01-01` : trimmed).slice(0, 10);
  const parts = instant.exec(trimmed);
  const whole =
    parts === null ? (local.exec(trimmed)?.[1] ?? (partial.test(trimmed) ? trimmed : undefined)) : trimmed;
  if (whole === undefined || !isCalendarDay(day)) return { reason: { code: 'no-time' } };
  const year = Number(day.slice(0, 4));
  if (year < years.first || year > years.last) return { reason: { code: 'year-not-plausible', year } };
  if (parts === null) {
    const precision = whole.length === 10 ? 'day' : whole.length === 7 ? 'month' : 'year';
    return { time: { text: whole, precision } };
  }
  const [, minute = '', second = '00', fraction = '', offset = 'Z'] = parts;
  if (!isClockTime(minute.slice(11), second)) return { reason: { code: 'no-time' } };
  if (!isOffset(offset)) return { reason: { code: 'no-such-offset', offset } };
  // As it was written wherever that can be: it names the moment in identities.
  const exact = fraction.length > fractionDigits;
  const written = exact ? `${minute}:${second}.${fraction.slice(0, fractionDigits)}${offset}` : trimmed;
  return { time: { text: written, precision: 'instant' } };
}

/** The same for the same moment, whichever offset it was written in; of a date, its text. */
export function momentKey({ text, precision }: RecordedTime): string {
  return precision === 'instant' ? String(msOf(text)) : text;
}

/** The earlier first; a date counts from its start in UTC, which tells days apart in every zone. */
export function compareTimes(a: RecordedTime, b: RecordedTime): number {
  return roughMs(a) - roughMs(b) || (a.text < b.text ? -1 : a.text > b.text ? 1 : 0);
}

function roughMs({ text, precision }: RecordedTime): number {
  if (precision === 'instant') return msOf(text);
  const day = precision === 'day' ? text : precision === 'month' ? `${text}-01` : `${text}-01-01`;
  const plain = plainDayOf(day);
  return plain === undefined ? msOf(`${day}T00:00Z`) : dayNumber(plain) * dayMs;
}

function msOf(text: string): number {
  return plainInstantMs(text) ?? Temporal.Instant.from(text).epochMilliseconds;
}

function isCalendarDay(text: string): boolean {
  return plainDayOf(text) !== undefined;
}

function isClockTime(minute: string, second: string): boolean {
  return Number(minute.slice(0, 2)) < 24 && Number(minute.slice(3)) < 60 && Number(second) < 61;
}

function isOffset(offset: string): boolean {
  if (offset === 'Z') return true;
  const [hours = 0, minutes = 0] = offset.slice(1).split(':').map(Number);
  return minutes < 60 && hours * 60 + minutes <= widestOffsetMinutes;
}
