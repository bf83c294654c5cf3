import { Decimal } from 'decimal.js';
import { standard } from '@dwellward/profiles';
import { isObject, shown } from './json.js';
import type { Span, TimeUnit } from './model.js';
import { sentence } from './sentence.js';

/** Time units of FHIR's units-of-time that a rule can be written in. */
export type FhirTimeUnit = 's' | TimeUnit | 'a';

const words: Readonly<Record<string, FhirTimeUnit>> = {
  s: 's',
  sec: 's',
  second: 's',
  seconds: 's',
  min: 'min',
  minute: 'min',
  minutes: 'min',
  h: 'h',
  hr: 'h',
  hour: 'h',
  hours: 'h',
  d: 'd',
  day: 'd',
  days: 'd',
  wk: 'wk',
  week: 'wk',
  weeks: 'wk',
  mo: 'mo',
  month: 'mo',
  months: 'mo',
  a: 'a',
  year: 'a',
  years: 'a',
};

const minutesIn: Readonly<Record<Exclude<TimeUnit, 'mo'>, number>> = { min: 1, h: 60, d: 1440, wk: 10080 };

// A month has at least 28 days: the protective reading wherever part of a month has to be given in days.
const shortestMonthDays = 28;

/** A UCUM time code or an English word for it as a time unit; undefined where it is neither. */
export function timeUnitOf(text: string): FhirTimeUnit | undefined {
  return Object.hasOwn(words, text) ? words[text] : undefined;
}

/** A span, with a note where a shorter one stands for what can't be said exactly. */
export interface SpanReading {
  readonly span: Span;
  readonly note?: string;
}

/**
 * `value` units as a span of whole units: the unit itself where that is whole, else whole days, hours or minutes.
 * Parts of a minute are dropped and parts of a month are taken as parts of 28 days: the shorter, protective reading,
 * and noted. Undefined where less than a minute would remain, or the number is too large to be a time.
 */
export function wholeSpan(value: Decimal, unit: FhirTimeUnit): SpanReading | undefined {
  if (!value.isFinite() || value.isNegative() || value.greaterThan(1_000_000)) return undefined;
  if (value.isZero()) return { span: { value: 0, unit: unit === 's' ? 'min' : unit === 'a' ? 'mo' : unit } };
  if (unit === 'a') return wholeSpan(value.times(12), 'mo');
  if (unit === 's') return inSmaller(value.dividedBy(60));
  if (value.isInteger()) return { span: { value: value.toNumber(), unit } };
  if (unit === 'mo') {
    const days = wholeSpan(value.times(shortestMonthDays), 'd');
    if (days === undefined) return undefined;
    return { span: days.span, note: `part of a month is read as part of ${shortestMonthDays} days` };
  }
  return inSmaller(value.times(minutesIn[unit]), unit === 'd' || unit === 'wk');
}

function inSmaller(minutes: Decimal, calendar = false): SpanReading | undefined {
  // A quotient such as 24 h / 7 has no end in decimals; noise in its last places must not cost a whole minute.
  const exact = minutes.toDecimalPlaces(9);
  const days = exact.dividedBy(minutesIn.d);
  if (calendar && days.isInteger()) return { span: { value: days.toNumber(), unit: 'd' } };
  const hours = exact.dividedBy(minutesIn.h);
  if (hours.isInteger()) return { span: { value: hours.toNumber(), unit: 'h' } };
  const whole = exact.floor();
  if (whole.isZero()) return undefined;
  const span: Span = { value: whole.toNumber(), unit: 'min' };
  return exact.isInteger() ? { span } : { span, note: 'parts of a minute are dropped' };
}

/** The span that a FHIR Duration (or time Quantity) gives, or what is wrong with it. */
export type DurationReading =
  | { readonly ok: true; readonly span: Span; readonly note?: string }
  | { readonly ok: false; readonly path: string; readonly message: string };

/**
 * Reads a FHIR Duration. `path` of a problem is relative to it, empty for the Duration as a whole.
 * The code decides where there is one, else the unit's name (`days`). Zero is allowed; a comparator is refused,
 * and so is a system other than UCUM: whose `d` is a day is known of UCUM alone.
 * @example
 * ```ts
 * readSpan({ value: 7, system: 'http://unitsofmeasure.org', code: 'd' }); // { ok: true, span: { value: 7, unit: 'd' } }
 * ```
 */
export function readSpan(duration: unknown): DurationReading {
  const wrong = (path: string, message: string): DurationReading => ({
    ok: false,
    path,
    message: sentence(message, path),
  });
  if (!isObject(duration)) return wrong('', `${shown(duration)} is not a Duration`);
  const { value, code, unit, system, comparator } = duration;
  if (comparator !== undefined)
    return wrong('comparator', 'A length of time with a comparator can’t be kept');
  if (typeof value !== 'number' || !Number.isFinite(value) || value < 0) {
    return wrong('value', `${shown(value)} is not a length of time: a number from 0 up is needed`);
  }
  if (system !== undefined && system !== standard.ucum)
    return wrong('system', `${shown(system)} is not the system of UCUM, ${standard.ucum}`);
  const named = code ?? unit;
  const known = typeof named === 'string' ? timeUnitOf(named) : undefined;
  if (known === undefined) {
    return wrong(
      code === undefined && unit !== undefined ? 'unit' : 'code',
      `${shown(named)} is not a unit of time`,
    );
  }
  const reading = wholeSpan(new Decimal(value), known);
  if (reading === undefined)
    return wrong('value', `${value} ${known} is not a whole minute or more, or too long`);
  return { ok: true, ...reading };
}

/**
 * Length of a span in minutes for comparing two of them, never for scheduling: a month counts as the mean of
 * 30.436875 days.
 */
export function comparableMinutes(span: Span): number {
  return span.unit === 'mo' ? span.value * 43829.1 : span.value * minutesIn[span.unit];
}
