// Held against a statistics library that shares no code with ours.
import {
  byarInterval,
  compareRates,
  compareShares,
  exactInterval,
  kaplanMeier,
  midPInterval,
  standardisedRatio,
} from '@dwellward/figures';
import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import chisquareQuantile from '@stdlib/stats-base-dists-chisquare-quantile';
import hypergeometricCdf from '@stdlib/stats-base-dists-hypergeometric-cdf';
import poissonCdf from '@stdlib/stats-base-dists-poisson-cdf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const events = fc.integer({ min: 0, max: 100 });
const doubled = (below: number, upTo: number) =>
  Math.min(1, 2 * Math.min((below + upTo) / 2, 1 - (below + upTo) / 2));

/** Twice the middle of the tail on the side of the ratio. */
const sided = (above: boolean, below: number, upTo: number) =>
  Math.min(1, above ? 2 - below - upTo : below + upTo);

describe('against an independent statistics library', () => {
  it('exact intervals are quantiles of chi-square', () => {
    fc.assert(
      fc.property(events, (n) => {
        const { lower, upper } = exactInterval(n);
        expect(upper).toBeCloseTo(chisquareQuantile(0.975, 2 * (n + 1)) / 2, 6);
        if (n > 0) expect(lower).toBeCloseTo(chisquareQuantile(0.025, 2 * n) / 2, 6);
      }),
    );
  });

  it('mid-P intervals leave 2.5 % with half of the count beyond each bound', () => {
    fc.assert(
      fc.property(events, (n) => {
        const { lower, upper } = midPInterval(n);
        const middle = (mean: number) => (poissonCdf(n - 1, mean) + poissonCdf(n, mean)) / 2;
        expect(middle(upper)).toBeCloseTo(0.025, 8);
        if (lower !== undefined) expect(1 - middle(lower)).toBeCloseTo(0.025, 8);
        else expect(n).toBe(0);
      }),
    );
  });

  it('Byar comes near the exact interval in large numbers', () => {
    fc.assert(
      fc.property(fc.integer({ min: 15, max: 3000 }), (n) => {
        expect(byarInterval(n).upper / (chisquareQuantile(0.975, 2 * (n + 1)) / 2)).toBeCloseTo(1, 2);
        expect((byarInterval(n).lower ?? 0) / (chisquareQuantile(0.025, 2 * n) / 2)).toBeCloseTo(1, 2);
      }),
    );
  });

  it('p-values of a ratio are those of Poisson, and go on smoothly above 100 observed', () => {
    fc.assert(
      fc.property(events, fc.double({ min: 1, max: 150, noNaN: true }), (n, mean) => {
        const answer = standardisedRatio(n, mean);
        expect(answer.computed && answer.pValue).toBeCloseTo(
          sided(n > mean, poissonCdf(n - 1, mean), poissonCdf(n, mean)),
          8,
        );
      }),
    );
    fc.assert(
      fc.property(
        fc.integer({ min: 101, max: 400 }),
        fc.double({ min: 0.7, max: 1.4, noNaN: true }),
        (n, by) => {
          const answer = standardisedRatio(n, n * by);
          expect(answer.computed && answer.pValue).toBeCloseTo(
            doubled(poissonCdf(n - 1, n * by), poissonCdf(n, n * by)),
            1,
          );
        },
      ),
    );
  });

  it('rates are compared by the binomial, shares by the hypergeometric distribution', () => {
    const days = fc.integer({ min: 1, max: 20_000 });
    fc.assert(
      fc.property(events, events, days, days, (a, b, one, other) => {
        const chance = one / (one + other);
        const below = a === 0 ? 0 : binomialCdf(a - 1, a + b, chance);
        expect(compareRates({ events: a, days: one }, { events: b, days: other })).toBeCloseTo(
          doubled(below, binomialCdf(a, a + b, chance)),
          7,
        );
      }),
    );
    fc.assert(
      fc.property(
        ...[fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 300 })],
        ...[fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })],
        (m, n, x, y) => {
          const [a, b] = [Math.round(m * x), Math.round(n * y)];
          const cdf = (k: number) => (k < 0 ? 0 : hypergeometricCdf(k, m + n, a + b, m));
          expect(compareShares({ part: a, whole: m }, { part: b, whole: n })).toBeCloseTo(
            doubled(cdf(a - 1), cdf(a)),
            7,
          );
        },
      ),
    );
  });
});

describe('Kaplan-Meier', () => {
  it('without censoring is the share that is left, with the standard error of a proportion', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1, maxLength: 40 }), (times) => {
        for (const { time, share, standardError } of kaplanMeier(
          times.map((at) => ({ time: at, event: true })),
        )) {
          const left = times.filter((one) => one > time).length / times.length;
          expect(share).toBeCloseTo(left, 10);
          if (standardError !== undefined)
            expect(standardError).toBeCloseTo(Math.sqrt((left * (1 - left)) / times.length), 10);
        }
      }),
    );
  });
});
