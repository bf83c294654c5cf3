/**
 * Exact decimal numbers: `digits / 10^scale`. Sums, differences and products are exact; only {@link divide} and
 * {@link round} lose digits, and both make the caller say in which direction.
 */
export interface Decimal {
  readonly digits: bigint;
  readonly scale: number;
}

/** Away from zero, towards zero, or to the nearest with halves away from zero. */
export type Rounding = 'up' | 'down' | 'nearest';

const grammar = /^([+-]?)(\d{1,40})(?:\.(\d{1,40}))?(?:[eE]([+-]?\d{1,3}))?$/;

// Far outside any quantity at the bedside; without it `1e999` would make a number of a thousand digits.
const largestExponent = 40;

/** Reads decimal text as FHIR and JSON write it; anything else, and any exponent beyond ±40, is `undefined`. */
export function parseDecimal(text: string): Decimal | undefined {
  const match = grammar.exec(text);
  if (match === null) return undefined;
  const [, sign, whole = '', fraction = '', exponentText = '0'] = match;
  const exponent = Number(exponentText);
  if (Math.abs(exponent) > largestExponent) return undefined;
  const magnitude = BigInt(whole + fraction);
  const digits = sign === '-' ? -magnitude : magnitude;
  const scale = fraction.length - exponent;
  return scale < 0 ? { digits: digits * tenTo(-scale), scale: 0 } : { digits, scale };
}

/** A constant of the program; text that is no number is a programming error. */
export function decimal(text: string): Decimal {
  const parsed = parseDecimal(text);
  if (parsed === undefined) throw new RangeError(`not a decimal number: ${text}`);
  return parsed;
}

const tenTo = (exponent: number): bigint => 10n ** BigInt(exponent);

const digitsAt = (value: Decimal, scale: number): bigint => value.digits * tenTo(scale - value.scale);

export function plus(a: Decimal, b: Decimal): Decimal {
  const scale = Math.max(a.scale, b.scale);
  return { digits: digitsAt(a, scale) + digitsAt(b, scale), scale };
}

export function minus(a: Decimal, b: Decimal): Decimal {
  return plus(a, { digits: -b.digits, scale: b.scale });
}

export function times(a: Decimal, b: Decimal): Decimal {
  return { digits: a.digits * b.digits, scale: a.scale + b.scale };
}

/** Below zero, zero or above zero as `a` is smaller than, equal to or larger than `b`. */
export function compare(a: Decimal, b: Decimal): number {
  const { digits } = minus(a, b);
  return digits < 0n ? -1 : digits > 0n ? 1 : 0;
}

export const smaller = (a: Decimal, b: Decimal): Decimal => (compare(a, b) <= 0 ? a : b);

/** Zero where the value is below zero. */
export const notNegative = (value: Decimal): Decimal =>
  value.digits < 0n ? { digits: 0n, scale: 0 } : value;

/** `a / b` to `places` decimal places, rounded once. The caller has made sure that `b` is not zero. */
export function divide(a: Decimal, b: Decimal, places: number, rounding: Rounding): Decimal {
  const shift = places + b.scale - a.scale;
  const numerator = shift < 0 ? a.digits : a.digits * tenTo(shift);
  const denominator = shift < 0 ? b.digits * tenTo(-shift) : b.digits;
  return { digits: roundedQuotient(numerator, denominator, rounding), scale: places };
}

/** The value to `places` decimal places. */
export function round(value: Decimal, places: number, rounding: Rounding): Decimal {
  return divide(value, { digits: 1n, scale: 0 }, places, rounding);
}

function roundedQuotient(numerator: bigint, denominator: bigint, rounding: Rounding): bigint {
  const n = numerator < 0n ? -numerator : numerator;
  const d = denominator < 0n ? -denominator : denominator;
  const remainder = n % d;
  const away = rounding === 'up' ? remainder > 0n : rounding === 'nearest' && remainder * 2n >= d;
  const magnitude = n / d + (away ? 1n : 0n);
  return numerator < 0n === denominator < 0n ? magnitude : -magnitude;
}

/**
 * Plain decimal text: no exponent, a zero before the point, no zeros at the end. A trailing zero on a dose is
 * misread by a factor of ten too easily to print one.
 */
export function toText(value: Decimal): string {
  const negative = value.digits < 0n;
  const padded = String(negative ? -value.digits : value.digits).padStart(value.scale + 1, '0');
  const whole = padded.slice(0, padded.length - value.scale);
  const fraction = padded.slice(padded.length - value.scale).replace(/0+$/, '');
  return (negative ? '-' : '') + whole + (fraction === '' ? '' : `.${fraction}`);
}
