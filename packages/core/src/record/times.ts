import { Temporal } from 'temporal-polyfill';
import type { RecordedTime } from '../model/record.js';

const instant = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;
const partial = /^\d{4}(-\d{2}(-\d{2})?)?$/;

/**
 * A FHIR date, dateTime or instant as it was recorded, or undefined where it is none.
 * A time of day without an offset is read as its day only: which clock it was on can’t be known.
 */
export function recordedTime(text: string | undefined): RecordedTime | undefined {
  const trimmed = text?.trim();
  if (!trimmed) return undefined;
  if (instant.test(trimmed) && isCalendarDay(trimmed.slice(0, 10)) && isClockTime(trimmed)) {
    return { text: trimmed, precision: 'instant' };
  }
  if (partial.test(trimmed)) {
    const precision = trimmed.length === 10 ? 'day' : trimmed.length === 7 ? 'month' : 'year';
    return isCalendarDay(`${trimmed}-01-01`.slice(0, 10)) ? { text: trimmed, precision } : undefined;
  }
  const local = /^(\d{4}-\d{2}-\d{2})T\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/.exec(trimmed)?.[1];
  return local && isCalendarDay(local) ? { text: local, precision: 'day' } : undefined;
}

/** The same for the same moment, whichever offset it was written in; of a date, its text. */
export function momentKey({ text, precision }: RecordedTime): string {
  return precision === 'instant' ? String(Temporal.Instant.from(text).epochMilliseconds) : text;
}

/** The earlier first; a date counts from its start in UTC, which tells days apart in every zone. */
export function compareTimes(a: RecordedTime, b: RecordedTime): number {
  return roughMs(a) - roughMs(b) || (a.text < b.text ? -1 : a.text > b.text ? 1 : 0);
}

function roughMs({ text, precision }: RecordedTime): number {
  if (precision === 'instant') return Temporal.Instant.from(text).epochMilliseconds;
  const day = precision === 'day' ? text : precision === 'month' ? `${text}-01` : `${text}-01-01`;
  return Temporal.Instant.from(`${day}T00:00Z`).epochMilliseconds;
}

function isCalendarDay(text: string): boolean {
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number);
  if (year < 1 || month < 1 || month > 12 || day < 1) return false;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  return day <= days;
}

function isClockTime(text: string): boolean {
  const [, hours, minutes, seconds] = /T(\d{2}):(\d{2})(?::(\d{2}))?/.exec(text) ?? [];
  return Number(hours) < 24 && Number(minutes) < 60 && Number(seconds ?? 0) < 61;
}
