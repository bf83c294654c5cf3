/** Tails of the distributions that counts follow. Probabilities are summed in logarithms, so that none vanishes early. */

/** A tail that ends at a value: the probability beyond it, and of the value itself. */
export interface Tails {
  readonly below: number;
  readonly at: number;
  readonly above: number;
}

/** The two-sided 95 % point of the standard normal distribution. */
export const z95 = 1.959963984540054;

const logFactorials: number[] = [0];

/** ln n! */
function logFactorial(n: number): number {
  for (let i = logFactorials.length; i <= n; i++) {
    logFactorials.push((logFactorials[i - 1] ?? 0) + Math.log(i));
  }
  return logFactorials[n] ?? 0;
}

const logChoose = (n: number, k: number) => logFactorial(n) - logFactorial(k) - logFactorial(n - k);

/** Poisson with the mean, around a count. */
export function poissonTails(count: number, mean: number): Tails {
  return around(count, 0, undefined, (k) => -mean + k * Math.log(mean) - logFactorial(k));
}

/** Binomial of n with the chance p, around k. */
export function binomialTails(k: number, n: number, p: number): Tails {
  return around(k, 0, n, (i) => logChoose(n, i) + i * Math.log(p) + (n - i) * Math.log1p(-p));
}

/** Hypergeometric: of n drawn out of `marked + others`, k are marked. */
export function hypergeometricTails(k: number, n: number, marked: number, others: number): Tails {
  const whole = logChoose(marked + others, n);
  return around(
    k,
    Math.max(0, n - others),
    Math.min(n, marked),
    (i) => logChoose(marked, i) + logChoose(others, n - i) - whole,
  );
}

// What is above is summed for itself where it is small: as a difference from 1 it would be rounding alone.
function around(k: number, least: number, most: number | undefined, log: (k: number) => number): Tails {
  const at = Math.exp(log(k));
  let below = 0;
  for (let i = k - 1; i >= least; i--) {
    const more = Math.exp(log(i));
    below += more;
    if (more < below * 1e-18) break;
  }
  let above = 0;
  for (let i = k + 1; most === undefined || i <= most; i++) {
    const more = Math.exp(log(i));
    above += more;
    if (more <= above * 1e-18 && (above > 0 || below + at > 0.5)) break;
  }
  return { below, at, above };
}

/** Two-sided mid-P: twice the smaller tail with half of the value itself, at most 1. */
export function midP({ below, at, above }: Tails): number {
  return Math.min(1, 2 * (Math.min(below, above) + at / 2));
}

/** The probability that a standard normal value exceeds z, z >= 0. */
export function normalTail(z: number): number {
  const x = z / Math.SQRT2;
  if (x < 2.5) {
    let term = x;
    let sum = x;
    for (let n = 1; Math.abs(term) > 1e-18; n++) {
      term *= -(x * x) / n;
      sum += term / (2 * n + 1);
    }
    return 0.5 - sum / Math.sqrt(Math.PI);
  }
  // The continued fraction of erfc, from its end.
  let fraction = 0;
  for (let n = 60; n > 0; n--) fraction = n / 2 / (x + fraction);
  return Math.exp(-x * x) / (x + fraction) / Math.sqrt(Math.PI) / 2;
}

/** Where a falling or rising function is zero between two values, by halving. */
export function root(from: number, to: number, f: (x: number) => number): number {
  let [low, high] = [from, to];
  const rising = f(high) > 0;
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (f(middle) > 0 === rising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
