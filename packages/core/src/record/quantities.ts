import { convertUnit, type QuantityRange } from '@dwellward/policy';
import type { SentQuantity } from '../model/record.js';
import type { Unusable } from '../model/sentences.js';
import type { Quantity } from './shapes.js';

// How laboratories spell count units. What stands here is looked up before UCUM is asked, because some spellings mean
// another thing there (`G` is gauss) or nothing at all.
const countSpellings: ReadonlyMap<string, string> = new Map(
  Object.entries<string>({
    'k/ul': '10*3/uL',
    'k/mm3': '10*3/uL',
    'k/mcl': '10*3/uL',
    'th/ul': '10*3/uL',
    'thou/mcl': '10*3/uL',
    'thou/ul': '10*3/uL',
    '10^3/ul': '10*3/uL',
    '10*3/ul': '10*3/uL',
    '10*3/mm3': '10*3/uL',
    '10^3/mm3': '10*3/uL',
    'x10*3/ul': '10*3/uL',
    'x10^3/ul': '10*3/uL',
    'x10e3/ul': '10*3/uL',
    '10e3/ul': '10*3/uL',
    '10^9/l': '10*9/L',
    '10*9/l': '10*9/L',
    'x10^9/l': '10*9/L',
    'x10*9/l': '10*9/L',
    'x10e9/l': '10*9/L',
    '10e9/l': '10*9/L',
    'g/l': '10*9/L',
    'gpt/l': '10*9/L',
    '10^6/l': '10*6/L',
    '10*6/l': '10*6/L',
    '/ul': '/uL',
    '/mcl': '/uL',
    '/mm3': '/uL',
    '/mm^3': '/uL',
    '/cmm': '/uL',
    'cells/ul': '/uL',
    'cells/mcl': '/uL',
    'cells/mm3': '/uL',
    'cells/cmm': '/uL',
    'lakhs/cu.mm': '10*5/uL',
  }),
);

// A gram per litre is no count: only the laboratory’s own capital spelling is giga.
const onlyAsWritten = new Map([['g/l', new Set(['G/l', 'G/L', 'Gpt/l'])]]);

/** The UCUM unit of a cell count, from the code or the text that was sent; undefined where it has none. */
export function countUnit(quantity: Quantity): string | undefined {
  for (const sent of [quantity.code, quantity.unit]) {
    const trimmed = sent?.trim();
    if (!trimmed) continue;
    const key = trimmed
      .replace(/\s+/g, '')
      .replace(/[µμ]/g, 'u')
      .replace(/×/g, 'x')
      // A raised figure after ten is its power, after a length the length cubed.
      .replace(/10³/g, '10^3')
      .replace(/³/g, '3')
      .replace(/⁶/g, '^6')
      .replace(/⁹/g, '^9')
      .toLowerCase();
    const written = onlyAsWritten.get(key);
    if (written) return written.has(trimmed) ? countSpellings.get(key) : trimmed;
    return countSpellings.get(key) ?? trimmed;
  }
  return undefined;
}

/** Any other unit as it was sent. */
export function sentUnit(quantity: Quantity): string | undefined {
  return quantity.code?.trim() || quantity.unit?.trim() || undefined;
}

export type RangeReading =
  | { readonly ok: true; readonly range: QuantityRange }
  | {
      readonly ok: false;
      readonly code: 'unknown-unit' | 'implausible-value' | 'unreadable';
      readonly reason: Unusable;
    };

/** A quantity in `target`, with its comparator honoured: `<0.1` is anything from 0 up to, and without, 0.1. */
export function readRange(quantity: Quantity, unit: string | undefined, target: string): RangeReading {
  const { value, comparator } = quantity;
  if (value === undefined) return { ok: false, code: 'unreadable', reason: { code: 'no-value' } };
  if (value < 0) return { ok: false, code: 'implausible-value', reason: { code: 'below-zero', value } };
  if (unit === undefined) return { ok: false, code: 'unknown-unit', reason: { code: 'no-unit' } };
  const converted = convertUnit(decimalText(value), unit, target);
  if (!converted.ok)
    return { ok: false, code: 'unknown-unit', reason: { code: 'outside-text', text: converted.reason } };
  const at = converted.value;
  const below = { low: '0', lowIncluded: true, high: at, unit: target };
  switch (comparator) {
    case undefined:
    case '':
      return { ok: true, range: { low: at, lowIncluded: true, high: at, highIncluded: true, unit: target } };
    case '<':
      return { ok: true, range: { ...below, highIncluded: false } };
    case '<=':
      return { ok: true, range: { ...below, highIncluded: true } };
    case '>':
    case '>=':
      return {
        ok: true,
        range: { low: at, lowIncluded: comparator === '>=', highIncluded: false, unit: target },
      };
    default:
      return {
        ok: false,
        code: 'unreadable',
        reason: { code: 'comparator-not-known', comparator },
      };
  }
}

/** What was sent, for people. */
export function sentOf({ comparator, value, unit, code }: Quantity): SentQuantity {
  const given = unit ?? code;
  return {
    ...(comparator === undefined ? {} : { comparator }),
    ...(value === undefined ? {} : { value }),
    ...(given === undefined ? {} : { unit: given }),
  };
}

/** A JSON number as plain decimal text, never in exponent form. */
export function decimalText(value: number): string {
  const text = String(value);
  const [, sign = '', whole = '', fraction = '', exponent] =
    /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(text) ?? [];
  if (exponent === undefined) return text;
  const digits = whole + fraction;
  const point = whole.length + Number(exponent);
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`;
  return (
    sign +
    digits.padEnd(point, '0').slice(0, point) +
    (point < digits.length ? `.${digits.slice(point)}` : '')
  );
}
