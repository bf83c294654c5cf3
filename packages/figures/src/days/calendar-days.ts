import { Calendar } from '@dwellward/core';
import { FiguresError } from '../error.js';

/** A calendar day, `2026-04-01`. */
export type Day = string;

const utc = new Calendar('UTC');

/** A day as it was given; throws a {@link FiguresError} where it is none. */
export function day(input: string, text: string): Day {
  if (!/^\d{4}-\d\d-\d\d$/.test(text) || !onCalendar(text))
    throw new FiguresError('out-of-range', input, text, 'a date such as 2026-04-01');
  return text;
}

function onCalendar(text: string): boolean {
  try {
    return utc.text(startMs(text)).slice(0, 10) === text;
  } catch {
    return false;
  }
}

const startMs = (text: Day) => utc.earliest({ text, precision: 'day' });

/** A day some days later, or earlier. */
export function addDays(from: Day, days: number): Day {
  const span = { value: Math.abs(days), unit: 'd' } as const;
  return utc.text(utc.add(startMs(day('day', from)), span, days < 0 ? -1 : 1)).slice(0, 10);
}

/** Days from one to another, both counted. */
export function daysIn({ from, to }: DaySpan): number {
  return utc.daysBetween(startMs(from), startMs(to)) + 1;
}

/** Every day of a span. */
export function eachDay({ from, to }: DaySpan): Day[] {
  const days: Day[] = [];
  for (let at = from; at <= to; at = addDays(at, 1)) days.push(at);
  return days;
}

/** From a day to another, both in it. */
export interface DaySpan {
  readonly from: Day;
  readonly to: Day;
}

/** Whether a day lies in a span. */
export function within(at: Day, { from, to }: DaySpan): boolean {
  return from <= at && at <= to;
}
