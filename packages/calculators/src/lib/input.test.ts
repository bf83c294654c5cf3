import { describe, expect, it } from 'vitest';
import { toText } from './decimal.js';
import { CalculatorError } from './error.js';
import {
  type Specs,
  choice,
  date,
  flag,
  list,
  localTime,
  name,
  optional,
  quantity,
  readInput,
  whole,
} from './input.js';

function refused(
  specs: Specs,
  input: unknown,
): Pick<CalculatorError, 'code' | 'input' | 'received' | 'accepted'> {
  try {
    readInput(specs, input);
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    expect(error.name).toBe('CalculatorError');
    expect(error.message).toBe(
      `${error.input}: ${error.code}, got ${error.received}; accepted: ${error.accepted}`,
    );
    return { code: error.code, input: error.input, received: error.received, accepted: error.accepted };
  }
  throw new Error('accepted');
}

const volume = { volumeMl: quantity('mL', '0.5', '10', 'a volume') };

describe('a quantity', () => {
  it('is read from text or number, ends of the range included', () => {
    expect(toText(readInput(volume, { volumeMl: '0.50' }).volumeMl)).toBe('0.5');
    expect(toText(readInput(volume, { volumeMl: 10 }).volumeMl)).toBe('10');
  });
  const range = '0.5 to 10 mL';
  it.each([
    ['0.49', 'out-of-range', "'0.49'"],
    [10.01, 'out-of-range', '10.01'],
    ['-1', 'out-of-range', "'-1'"],
    ['1,5', 'not-a-number', "'1,5'"],
    [NaN, 'not-a-number', 'NaN'],
    [Infinity, 'not-a-number', 'Infinity'],
    [true, 'wrong-type', 'true'],
    [null, 'wrong-type', 'null'],
    [5n, 'wrong-type', '5'],
    [[1, 2], 'wrong-type', 'a list of 2'],
    [{ a: 1 }, 'wrong-type', 'an object'],
    [() => 1, 'wrong-type', 'a function'],
    [Symbol('x'), 'wrong-type', 'Symbol(x)'],
    ['y'.repeat(40), 'not-a-number', `'${'y'.repeat(40)}'`],
    ['y'.repeat(41), 'not-a-number', `'${'y'.repeat(40)}…'`],
  ])('%o is refused as %s', (value, code, received) => {
    expect(refused(volume, { volumeMl: value })).toEqual({
      code,
      input: 'volumeMl',
      received,
      accepted: range,
    });
  });
  it('that is missing is refused, unless it is optional', () => {
    const missing = { code: 'missing', input: 'volumeMl', received: 'undefined', accepted: range };
    expect(refused(volume, {})).toEqual(missing);
    expect(refused(volume, { volumeMl: undefined })).toEqual(missing);
    expect(readInput({ volumeMl: optional(volume.volumeMl) }, {}).volumeMl).toBeUndefined();
    expect(
      readInput({ volumeMl: optional(volume.volumeMl) }, { volumeMl: undefined }).volumeMl,
    ).toBeUndefined();
    expect(refused({ volumeMl: optional(volume.volumeMl) }, { volumeMl: 11 }).code).toBe('out-of-range');
  });
  it('does not come from the prototype', () => {
    const heir: unknown = Object.create({ volumeMl: 1 });
    expect(refused(volume, heir).code).toBe('missing');
  });
});

describe('the input as a whole', () => {
  it.each([null, undefined, 5, 'text', [1]])('%o is refused', (value) => {
    const error = refused(volume, value);
    expect(error.code).toBe('wrong-type');
    expect(error.input).toBe('input');
    expect(error.accepted).toBe('an object with volumeMl');
  });
  it('with a misspelt name is refused, also among the names every object inherits', () => {
    const specs = { ...volume, other: optional(flag('x')) };
    const wanted = { code: 'unknown-input', accepted: 'only volumeMl, other' };
    expect(refused(specs, { volumeML: 1 })).toEqual({ ...wanted, input: 'volumeML', received: "'volumeML'" });
    expect(refused(specs, { volumeMl: 1, toString: 1 })).toEqual({
      ...wanted,
      input: 'toString',
      received: "'toString'",
    });
  });
  it('is not written to', () => {
    const input = Object.freeze({ volumeMl: Object.freeze('1') });
    readInput(volume, input);
    expect(input).toEqual({ volumeMl: '1' });
  });
});

describe('a whole number', () => {
  const specs = { days: whole('d', '0', '100', 'days') };
  const range = 'a whole number from 0 to 100 d';
  it('is read exactly', () => {
    expect(readInput(specs, { days: '7.0' }).days).toBe(7);
    expect(readInput(specs, { days: 0 }).days).toBe(0);
  });
  it('with anything behind the point is refused, however little', () => {
    expect(refused(specs, { days: '7.0000000000000000000000001' }).code).toBe('not-a-number');
    expect(refused(specs, { days: 7.5 })).toEqual({
      code: 'not-a-number',
      input: 'days',
      received: '7.5',
      accepted: range,
    });
    expect(refused(specs, { days: 101 }).code).toBe('out-of-range');
  });
});

describe('words, truth values, dates and names', () => {
  const specs = {
    kind: optional(choice(['a', 'b'], 'kind')),
    yes: optional(flag('yes')),
    day: optional(date('day')),
    at: optional(localTime('at')),
    name: optional(name('name')),
  };
  it('are read', () => {
    const read = readInput(specs, {
      kind: 'b',
      yes: false,
      day: '1970-01-02',
      at: '1970-01-02T00:01',
      name: ' x',
    });
    expect(read).toEqual({ kind: 'b', yes: false, day: 1, at: 1441, name: ' x' });
    expect(readInput(specs, { name: 'x'.repeat(80) }).name).toHaveLength(80);
  });
  it.each([
    ['kind', 'c', 'not-a-choice', 'one of a, b'],
    ['kind', 1, 'not-a-choice', 'one of a, b'],
    ['yes', 'true', 'wrong-type', 'true or false'],
    ['yes', null, 'wrong-type', 'true or false'],
    ['day', '2026-02-30', 'not-a-date', 'a date YYYY-MM-DD of the years 1900 to 2199'],
    ['day', 5, 'wrong-type', 'a date YYYY-MM-DD of the years 1900 to 2199'],
    ['at', '2026-02-03', 'not-a-date', 'a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199'],
    ['at', 5, 'wrong-type', 'a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199'],
    ['name', '', 'out-of-range', 'text of 1 to 80 characters'],
    ['name', ' \n', 'out-of-range', 'text of 1 to 80 characters'],
    ['name', 'x'.repeat(81), 'out-of-range', 'text of 1 to 80 characters'],
    ['name', 5, 'wrong-type', 'text of 1 to 80 characters'],
  ])('%s: %o is refused as %s', (input, value, code, range) => {
    const error = refused(specs, { [input]: value });
    expect(error.code).toBe(code);
    expect(error.input).toBe(input);
    expect(error.accepted).toBe(range);
  });
});

describe('a list', () => {
  const specs = { lumens: list(1, 2, volume, 'lumens') };
  it('is read entry by entry', () => {
    const read = readInput(specs, { lumens: [{ volumeMl: 1 }, { volumeMl: 2 }] });
    expect(read.lumens.map((lumen) => toText(lumen.volumeMl))).toEqual(['1', '2']);
  });
  it('names the entry that is refused', () => {
    expect(refused(specs, { lumens: [{ volumeMl: 1 }, { volumeMl: 99 }] }).input).toBe('lumens[1].volumeMl');
    expect(refused(specs, { lumens: [{ volumeMl: 1, x: 1 }] }).input).toBe('lumens[0].x');
    expect(refused(specs, { lumens: [{}] }).input).toBe('lumens[0].volumeMl');
    const error = refused(specs, { lumens: [5] });
    expect(error.input).toBe('lumens[0]');
    expect(error.accepted).toBe('an object with volumeMl');
  });
  it('too short, too long, with holes or no list is refused', () => {
    const range = 'a list of 1 to 2 entries';
    expect(refused(specs, { lumens: [] })).toEqual({
      code: 'out-of-range',
      input: 'lumens',
      received: 'a list of 0',
      accepted: range,
    });
    expect(refused(specs, { lumens: [1, 2, 3] }).code).toBe('out-of-range');
    expect(refused(specs, { lumens: {} }).code).toBe('wrong-type');
    expect(refused(specs, { lumens: new Array(2) }).input).toBe('lumens[0]');
  });
});

describe('what is accepted', () => {
  it('reads as text', () => {
    expect(whole('d', '1', '9', 'days').accepted).toBe('a whole number from 1 to 9 d');
    expect(list(0, 9, volume, 'lumens').accepted).toBe('a list of 0 to 9 entries');
  });
});

describe('the makers of specs', () => {
  it('keep what they were given', () => {
    expect(quantity('mL', '1', '2', 'v')).toMatchObject({
      kind: 'quantity',
      unit: 'mL',
      min: '1',
      max: '2',
      about: 'v',
    });
    expect(whole('d', '1', '2', 'v')).toMatchObject({
      kind: 'whole',
      unit: 'd',
      min: '1',
      max: '2',
      about: 'v',
    });
    expect(choice(['a'], 'v')).toMatchObject({ kind: 'choice', choices: ['a'], about: 'v' });
    expect(flag('v')).toMatchObject({ kind: 'flag', about: 'v' });
    expect(date('v')).toMatchObject({ kind: 'date', about: 'v' });
    expect(localTime('v')).toMatchObject({ kind: 'local-time', about: 'v' });
    expect(name('v')).toMatchObject({ kind: 'name', about: 'v' });
    expect(optional(flag('v'))).toMatchObject({ kind: 'flag', about: 'v', optional: true });
  });
});
