import { counted } from '../error.js';
import { poissonTails, root, z95, type Tails } from './distributions.js';

/** A 95 % interval of a number of events. Of no event there is no lower bound. */
export interface Interval {
  readonly lower?: number;
  readonly upper: number;
}

/**
 * The published ways to the interval of a count. `mid-p-or-byar` (since February 2014): mid-P exact up to 100 events, Byar
 * above. `exact-or-byar` (June 2011): exact below 15 events, Byar from 15.
 */
export type IntervalMethod = 'mid-p-or-byar' | 'exact-or-byar';

/** What each method says of itself. */
export const intervalMethods: Readonly<Record<IntervalMethod, string>> = {
  'mid-p-or-byar':
    'mid-P exact to 100 events, Byar’s approximation above (CDC SIRcomp.sas, since February 2014)',
  'exact-or-byar':
    'exact Poisson below 15 events, Byar’s approximation from 15 (CDC NHSN_CompareSIRto1.sas, June 2011)',
};

const midPMost = 100;
const exactBelow = 15;

/**
 * The 95 % interval of a number of events, by a published method.
 *
 * - Units: events in, events out; divide by line days or by the predicted number afterwards.
 * - Ranges: a whole number from 0 to 1,000,000.
 * - Errors: throws a {@link FiguresError} beyond them.
 * - Cautions: the two methods give different bounds for the same count; a report names the one it used.
 * - Source: CDC `SIRcomp.sas` (2014) and `NHSN_CompareSIRto1.sas` (June 2011).
 *
 * @example
 * ```ts
 * poissonInterval(0).upper.toFixed(4); // '2.9957'
 * ```
 */
export function poissonInterval(events: number, method: IntervalMethod = 'mid-p-or-byar'): Interval {
  counted('events', events);
  if (method === 'exact-or-byar') return events < exactBelow ? exactInterval(events) : byarInterval(events);
  return events <= midPMost ? midPInterval(events) : byarInterval(events);
}

/**
 * The exact (Garwood) 95 % interval of a Poisson count: each bound leaves 2.5 % beyond it.
 *
 * - Units: events. Ranges: a whole number from 0 to 1,000,000. Errors: {@link FiguresError}.
 * - Cautions: it holds more than 95 %; the newer published method takes mid-P instead.
 * - Source: CDC `NHSN_CompareSIRto1.sas`, June 2011.
 *
 * @example
 * ```ts
 * exactInterval(0).upper.toFixed(4); // '3.6889'
 * ```
 */
export function exactInterval(events: number): Interval {
  return between(
    counted('events', events),
    ({ at, above }) => above + at,
    ({ below, at }) => below + at,
  );
}

/**
 * The mid-P exact 95 % interval of a Poisson count: half of the probability of the count itself lies beyond each bound.
 *
 * - Units: events. Ranges: a whole number from 0 to 1,000,000. Errors: {@link FiguresError}.
 * - Cautions: narrower than the exact interval; in small numbers it may hold a little less than 95 %.
 * - Source: CDC `SIRcomp.sas`, since February 2014.
 *
 * @example
 * ```ts
 * (midPInterval(2).upper / 2.04).toFixed(3); // '3.239'
 * ```
 */
export function midPInterval(events: number): Interval {
  return between(
    counted('events', events),
    ({ at, above }) => above + at / 2,
    ({ below, at }) => below + at / 2,
  );
}

/**
 * Byar’s approximation to the 95 % interval of a Poisson count.
 *
 * - Units: events. Ranges: a whole number from 0 to 1,000,000. Errors: {@link FiguresError}.
 * - Cautions: an approximation; the published methods take it for large counts only.
 * - Source: as in both published methods.
 *
 * @example
 * ```ts
 * (byarInterval(342).lower ?? 0).toFixed(1); // '306.7'
 * ```
 */
export function byarInterval(events: number): Interval {
  counted('events', events);
  const bound = (count: number, sign: 1 | -1) =>
    count * (1 - 1 / (9 * count) + (sign * z95) / (3 * Math.sqrt(count))) ** 3;
  const upper = bound(events + 1, 1);
  return events === 0 ? { upper } : { lower: Math.max(0, bound(events, -1)), upper };
}

function between(events: number, beyondLower: Beyond, beyondUpper: Beyond): Interval {
  const solve = (low: number, high: number, beyond: Beyond) =>
    root(low, high, (mean) => beyond(poissonTails(events, mean)) - 0.025);
  // Ten standard deviations: no 2.5 % lies beyond.
  const upper = solve(Math.max(events, 1e-9), events + 10 + 10 * Math.sqrt(events), beyondUpper);
  return events === 0 ? { upper } : { lower: solve(1e-9, events, beyondLower), upper };
}

type Beyond = (tails: Tails) => number;
