import { counted, FiguresError, positive } from '../error.js';
import { binomialTails, hypergeometricTails, midP } from './distributions.js';
import { poissonInterval, type Interval, type IntervalMethod } from './poisson.js';

/** Events of an amount at risk. */
export interface Counted {
  readonly events: number;
  readonly days: number;
}

/** A rate of 1,000 days. */
export interface Rate extends Counted {
  readonly per1000: number;
  /** Of 1,000 days, 95 %. */
  readonly interval: Interval;
  readonly method: IntervalMethod;
}

/**
 * Events of 1,000 days with the 95 % interval.
 *
 * - Units: events and days in, events of 1,000 days out.
 * - Ranges: events a whole number from 0 to 1,000,000; days above 0.
 * - Errors: throws a {@link FiguresError} beyond them.
 * - Cautions: raw rates of units with other patients are not comparable.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapter 4; the interval as {@link poissonInterval}.
 *
 * @example
 * ```ts
 * ratePer1000({ events: 12, days: 8000 }).per1000; // 1.5
 * ```
 */
export function ratePer1000({ events, days }: Counted, method: IntervalMethod = 'mid-p-or-byar'): Rate {
  positive('days', days);
  const { lower, upper } = poissonInterval(events, method);
  const per = (count: number) => (count * 1000) / days;
  return {
    events,
    days,
    per1000: per(events),
    interval: { ...(lower === undefined ? {} : { lower: per(lower) }), upper: per(upper) },
    method,
  };
}

/**
 * Two-sided mid-P value that two rates are the same: given all events, those of the first are binomial.
 *
 * - Units: days of both in the same unit. Ranges: events whole numbers from 0; days above 0. The value is 0 to 1; 1 where
 *   neither has an event.
 * - Errors: throws a {@link FiguresError} beyond the ranges.
 * - Cautions: a p-value says nothing of how large a difference is, or of its cause.
 * - Source: CDC `BINOM.sas`, `IDRcomp.sas` (conditional binomial, mid-P).
 *
 * @example
 * ```ts
 * compareRates({ events: 3, days: 1000 }, { events: 3, days: 1000 }); // 1
 * ```
 */
export function compareRates(one: Counted, other: Counted): number {
  counted('events', one.events);
  counted('events', other.events);
  const chance = positive('days', one.days) / (one.days + positive('days', other.days));
  return midP(binomialTails(one.events, one.events + other.events, chance));
}

/** Days with something among days. */
export interface Share {
  readonly part: number;
  readonly whole: number;
}

/**
 * Two-sided mid-P value that two shares, such as device utilisation ratios, are the same: hypergeometric.
 *
 * - Units: counts. Ranges: whole numbers from 0, a part at most its whole. Errors: throws a {@link FiguresError} beyond them.
 * - Cautions: days of one patient are not independent of each other: the true value is larger.
 * - Source: CDC `Pcomp.sas` (hypergeometric, mid-P).
 *
 * @example
 * ```ts
 * compareShares({ part: 300, whole: 500 }, { part: 250, whole: 550 }).toExponential(1); // '2.4e-6'
 * ```
 */
export function compareShares(one: Share, other: Share): number {
  for (const { part, whole } of [one, other]) {
    counted('part', part);
    counted('whole', whole);
    if (part > whole)
      throw new FiguresError('inconsistent', 'part', part, `a number up to the whole, ${whole},`);
  }
  const marked = one.part + other.part;
  return midP(hypergeometricTails(one.part, one.whole, marked, one.whole + other.whole - marked));
}
