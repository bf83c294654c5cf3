import { Decimal as Reference } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Decimal,
  compare,
  decimal,
  divide,
  minus,
  notNegative,
  parseDecimal,
  plus,
  round,
  smaller,
  times,
  toText,
} from './decimal.js';

const R = Reference.clone({ precision: 200, toExpNeg: -1000, toExpPos: 1000 });
const modes = { up: R.ROUND_UP, down: R.ROUND_DOWN, nearest: R.ROUND_HALF_UP } as const;

const text = fc
  .tuple(
    fc.bigInt({ min: -(10n ** 18n), max: 10n ** 18n }),
    fc.option(fc.stringMatching(/^\d{1,12}$/), { nil: undefined }),
    fc.option(fc.integer({ min: -20, max: 20 }), { nil: undefined }),
  )
  .map(([whole, fraction, exponent]) => {
    const point = fraction === undefined ? '' : `.${fraction}`;
    return `${whole}${point}${exponent === undefined ? '' : `e${exponent}`}`;
  });
const places = fc.integer({ min: 0, max: 12 });
const rounding = fc.constantFrom('up', 'down', 'nearest');
const same = (ours: Decimal, theirs: Reference): void => {
  // decimal.js knows a negative zero.
  expect(toText(ours)).toBe(theirs.isZero() ? '0' : theirs.toFixed());
};

describe('decimals against decimal.js', () => {
  it('read and print alike', () => {
    fc.assert(fc.property(text, (a) => same(decimal(a), new R(a))));
  });
  it('add, subtract, multiply and compare alike', () => {
    fc.assert(
      fc.property(text, text, (a, b) => {
        same(plus(decimal(a), decimal(b)), new R(a).plus(b));
        same(minus(decimal(a), decimal(b)), new R(a).minus(b));
        same(times(decimal(a), decimal(b)), new R(a).times(b));
        expect(compare(decimal(a), decimal(b))).toBe(new R(a).comparedTo(b));
        same(smaller(decimal(a), decimal(b)), R.min(a, b));
        same(notNegative(decimal(a)), R.max(a, 0));
      }),
    );
  });
  it('divide alike in every direction of rounding', () => {
    fc.assert(
      fc.property(text, text, places, rounding, (a, b, to, direction) => {
        fc.pre(decimal(b).digits !== 0n);
        same(
          divide(decimal(a), decimal(b), to, direction),
          new R(a).div(b).toDecimalPlaces(to, modes[direction]),
        );
      }),
    );
  });
  it('round alike in every direction', () => {
    fc.assert(
      fc.property(text, places, rounding, (a, to, direction) => {
        same(round(decimal(a), to, direction), new R(a).toDecimalPlaces(to, modes[direction]));
      }),
    );
  });
  it('compare equal whatever the number of zeros', () => {
    expect(compare(decimal('1.50'), decimal('1.5'))).toBe(0);
    expect(compare(decimal('-1'), decimal('1'))).toBe(-1);
    expect(compare(decimal('1'), decimal('0.9'))).toBe(1);
  });
});

describe('rounding at the edges', () => {
  it.each([
    ['2.5', 'nearest', '3'],
    ['-2.5', 'nearest', '-3'],
    ['2.4999', 'nearest', '2'],
    ['2.0001', 'up', '3'],
    ['-2.0001', 'up', '-3'],
    ['2.9999', 'down', '2'],
    ['-2.9999', 'down', '-2'],
    ['2', 'up', '2'],
  ] as const)('%s %s is %s', (value, direction, expected) => {
    expect(toText(round(decimal(value), 0, direction))).toBe(expected);
  });
});

describe('text', () => {
  it.each([
    ['1.500', '1.5'],
    ['0.05', '0.05'],
    ['100', '100'],
    ['-0.50', '-0.5'],
    ['0.000', '0'],
    ['1e3', '1000'],
    ['1.5E+2', '150'],
    ['15e-3', '0.015'],
    ['+7', '7'],
    ['007', '7'],
  ])('%s prints as %s', (given, printed) => {
    expect(toText(decimal(given))).toBe(printed);
  });
  it.each([
    '',
    ' 1',
    '1 ',
    '1,5',
    '.5',
    '5.',
    'NaN',
    'Infinity',
    '--1',
    '1e',
    '1e41',
    '1e-41',
    '0x10',
    '1e1000',
    '1n',
  ])('%j is no decimal', (given) => {
    expect(parseDecimal(given)).toBeUndefined();
  });
  it('takes 40 digits on either side of the point, and no more', () => {
    expect(parseDecimal('9'.repeat(40))).toBeDefined();
    expect(parseDecimal('9'.repeat(41))).toBeUndefined();
    expect(parseDecimal(`0.${'9'.repeat(40)}`)).toBeDefined();
    expect(parseDecimal(`0.${'9'.repeat(41)}`)).toBeUndefined();
    expect(toText(decimal('1e40'))).toBe(`1${'0'.repeat(40)}`);
    expect(toText(decimal('1e-40'))).toBe(`0.${'0'.repeat(39)}1`);
  });
  it('of a constant that is no number is a programming error', () => {
    expect(() => decimal('one')).toThrow(new RangeError('not a decimal number: one'));
  });
});
