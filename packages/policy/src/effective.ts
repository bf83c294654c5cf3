import type { Findings } from './findings.js';
import { elementsOf, isObject, shown } from './json.js';
import type { EffectivePeriod } from './model.js';

const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return month === 2 && leap ? 29 : (monthDays[month - 1] ?? 0);
}

function text(year: number, month: number, day: number): string {
  const digits = (value: number, length: number) => String(value).padStart(length, '0');
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}`;
}

/** The day after a date `YYYY-MM-DD`. */
export function dayAfter(date: string): string {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  if (day < daysIn(year, month)) return text(year, month, day + 1);
  return month < 12 ? text(year, month + 1, 1) : text(year + 1, 1, 1);
}

/** The day before a date `YYYY-MM-DD`. */
export function dayBefore(date: string): string {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  if (day > 1) return text(year, month, day - 1);
  return month > 1 ? text(year, month - 1, daysIn(year, month - 1)) : text(year - 1, 12, 31);
}

/** The first or last day of a FHIR date, month or year; undefined where it is none, or has a time of day. */
function dayOf(value: unknown, which: 'start' | 'end'): string | undefined {
  const match = typeof value === 'string' ? /^(\d{4})(?:-(\d{2}))?(?:-(\d{2}))?$/.exec(value) : null;
  if (match === null) return undefined;
  const year = Number(match[1]);
  const month = match[2] === undefined ? (which === 'start' ? 1 : 12) : Number(match[2]);
  if (year < 1 || month < 1 || month > 12) return undefined;
  const last = daysIn(year, month);
  const day = match[3] === undefined ? (which === 'start' ? 1 : last) : Number(match[3]);
  return day < 1 || day > last ? undefined : text(year, month, day);
}

/**
 * Reads PlanDefinition.effectivePeriod: whole days of the unit’s calendar, the last one included. A time of day is
 * refused: when a policy changes must be the same day for everyone who reads it.
 */
export function readEffectivePeriod(period: unknown, findings: Findings): EffectivePeriod | undefined {
  if (period === undefined) return undefined;
  const cure =
    'Give start and end as dates, such as 2026-12-01: whole days of the unit, the last one included.';
  if (!isObject(period))
    return findings.error('', 'effective-period', `${shown(period)} is not a Period`, cure);
  const found: { start?: string; end?: string } = {};
  let wrong = false;
  for (const key of elementsOf(period)) {
    if (key !== 'start' && key !== 'end') {
      if (key === 'id' || key === 'extension')
        findings.information(key, 'unused-element', 'is not used', 'Leave it out.');
      else findings.error(key, 'unread-element', 'can’t be kept', cure);
      continue;
    }
    const day = dayOf(period[key], key);
    if (day === undefined) {
      findings.error(key, 'effective-period', `${shown(period[key])} is not a date`, cure);
      wrong = true;
    } else found[key] = day;
  }
  if (wrong) return undefined;
  if (found.start !== undefined && found.end !== undefined && found.end < found.start) {
    return findings.error(
      'end',
      'effective-period',
      `${found.end} lies before the start, ${found.start}`,
      cure,
    );
  }
  return found.start === undefined && found.end === undefined ? undefined : found;
}
