import { ucum } from '#outside';
import { Decimal } from 'decimal.js';
import type { UcumUtilities } from './outside/libraries.js';

/** A converted value as decimal text, or why it could not be converted. */
export type Conversion =
  { readonly ok: true; readonly value: string } | { readonly ok: false; readonly reason: string };

type Factor =
  | { readonly kind: 'factor'; readonly by: Decimal }
  | { readonly kind: 'scale' }
  | { readonly kind: 'none'; readonly reason: string };

// Places kept after a conversion. The library works in binary floating point (200 {cells}/uL becomes
// 0.19999999999999998 10*9/L), so fewer digits than it has are kept: a limit must be met exactly.
const decimalPlaces = 8;
// A binary double carries 15 to 17 digits; the last few are noise of the library's own products.
const factorDigits = 12;
// Units come from laboratories' messages; the cache must not grow with them without end.
const cacheLimit = 2_000;

let utilities: UcumUtilities | undefined;
const factors = new Map<string, Factor>();

function raw(from: string, value: number, to: string): number | string {
  // What the library would write to the console about is refused before it.
  const odd = [from, to].find((unit) => /\s|\(\)|\}\d/.test(unit));
  if (odd !== undefined)
    return `“${odd}” is not a UCUM unit: it has a blank, empty brackets or a number after an annotation in it.`;
  try {
    utilities ??= ucum().UcumLhcUtils.getInstance();
    const answer = utilities.convertUnitTo(from, value, to);
    if (answer.status === 'succeeded' && typeof answer.toVal === 'number') return answer.toVal;
    return answer.msg.join(' ') || `${from} can't be converted to ${to}.`;
  } catch {
    return `${from} can't be read as a UCUM unit.`;
  }
}

function factorOf(from: string, to: string): Factor {
  const key = `${from} ${to}`;
  const known = factors.get(key);
  if (known !== undefined) return known;
  const one = raw(from, 1, to);
  const zero = raw(from, 0, to);
  let factor: Factor;
  if (typeof one === 'string') factor = { kind: 'none', reason: one };
  // Temperatures and logarithms have no factor: they go through the library value by value.
  else if (zero !== 0) factor = { kind: 'scale' };
  else factor = { kind: 'factor', by: new Decimal(one).toSignificantDigits(factorDigits) };
  if (factors.size >= cacheLimit) factors.clear();
  factors.set(key, factor);
  return factor;
}

/**
 * Converts a decimal value between two UCUM units, rounded half up to 8 decimal places.
 *
 * @param value decimal number as text, for example `200`; surrounding blanks are allowed.
 * @param from UCUM unit of the value, case-sensitive, for example `{cells}/uL`.
 * @param to UCUM unit wanted, for example `10*9/L`.
 * @returns the value as plain decimal text without exponent, or the reason why there is none: not a number,
 * a unit that UCUM does not know, or units of different dimensions. Never throws.
 * Source of the factors: the UCUM tables of the reference library.
 * @example
 * ```ts
 * convertUnit('200', '/uL', '10*9/L'); // { ok: true, value: '0.2' }
 * ```
 */
export function convertUnit(value: string, from: string, to: string): Conversion {
  const text = value.trim();
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/.test(text)) {
    return { ok: false, reason: `"${value}" is not a decimal number.` };
  }
  const number = new Decimal(text);
  if (from === to) return { ok: true, value: plain(number) };
  const factor = factorOf(from, to);
  if (factor.kind === 'none') return { ok: false, reason: factor.reason };
  if (factor.kind === 'factor') return { ok: true, value: plain(number.times(factor.by)) };
  const converted = raw(from, number.toNumber(), to);
  if (typeof converted === 'string' || !Number.isFinite(converted)) {
    return { ok: false, reason: `${value} ${from} can't be converted to ${to}.` };
  }
  return { ok: true, value: plain(new Decimal(converted)) };
}

function plain(number: Decimal): string {
  const rounded = number.toDecimalPlaces(decimalPlaces, Decimal.ROUND_HALF_UP);
  return rounded.isZero() ? '0' : rounded.toFixed();
}
