import { counted, positive } from '../error.js';
import { normalTail, poissonTails } from './distributions.js';
import { poissonInterval, type Interval, type IntervalMethod } from './poisson.js';

/** A standardised infection ratio, or why there is none. */
export type StandardisedRatio =
  | {
      readonly computed: true;
      readonly observed: number;
      readonly predicted: number;
      readonly ratio: number;
      readonly interval: Interval;
      /** Two-sided, against a ratio of 1. */
      readonly pValue: number;
      readonly method: IntervalMethod;
    }
  | {
      readonly computed: false;
      readonly observed: number;
      readonly predicted: number;
      readonly reason: string;
    };

const leastPredicted = 1;
const midPMost = 100;

/**
 * Standardised infection ratio: observed over predicted, with its 95 % interval and a two-sided p-value.
 *
 * - Units: both numbers of infections; the predicted one comes from the user’s own baseline.
 * - Ranges: observed a whole number from 0 to 1,000,000; predicted above 0. Not computed below one predicted infection: the
 *   answer then says so.
 * - Errors: throws a {@link FiguresError} beyond the ranges.
 * - Cautions: it is adjusted for no more than the baseline is. The p-value is mid-P up to 100 observed, Byar’s approximation
 *   above, whatever the method of the interval; one published routine asks that the predicted number, too, is at most 100.
 *   To test against a target, multiply the predicted number by it.
 * - Source: CDC `SIRcomp.sas`, since February 2014; NHSN Patient Safety Component Manual, January 2026, chapter 4 (P >= 1).
 *
 * @example
 * ```ts
 * standardisedRatio(5, 0.9).computed; // false
 * ```
 */
export function standardisedRatio(
  observed: number,
  predicted: number,
  method: IntervalMethod = 'mid-p-or-byar',
): StandardisedRatio {
  counted('observed', observed);
  positive('predicted', predicted);
  if (predicted < leastPredicted)
    return {
      computed: false,
      observed,
      predicted,
      reason: 'Fewer than one infection is predicted: a ratio would say more than is known.',
    };
  const { lower, upper } = poissonInterval(observed, method);
  return {
    computed: true,
    observed,
    predicted,
    ratio: observed / predicted,
    interval: { ...(lower === undefined ? {} : { lower: lower / predicted }), upper: upper / predicted },
    pValue: observed <= midPMost ? exactP(observed, predicted) : byarP(observed, predicted),
    method,
  };
}

// The routine doubles the tail on the side of the ratio, which is not always the smaller one: near 1 that gives 1.
function exactP(observed: number, predicted: number): number {
  const { below, at, above } = poissonTails(observed, predicted);
  return Math.min(1, 2 * ((observed > predicted ? above : below) + at / 2));
}

function byarP(observed: number, predicted: number): number {
  const count = observed > predicted ? observed : observed + 1;
  const z = 3 * Math.sqrt(count) * (1 - 1 / (9 * count) - Math.cbrt(predicted / count));
  return Math.min(1, 2 * normalTail(Math.abs(z)));
}
