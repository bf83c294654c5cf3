import { describe, expect, it } from 'vitest';
import { parsed } from './expression.js';

const nested = (levels: number, [open, close]: string = '()') =>
  `${open}`.repeat(levels) + 'true' + `${close}`.repeat(levels);
const codesOf = (text: string) => {
  const reading = parsed(text);
  return reading.ok ? [] : reading.faults.map(({ code }) => code);
};

describe('what the parser is not asked to read', () => {
  it('is what has more than fifty parentheses within each other, closed or not', () => {
    expect(codesOf(nested(50))).toEqual([]);
    expect(codesOf(nested(51))).toEqual(['deep-condition']);
    expect(codesOf('('.repeat(1000))).toEqual(['deep-condition']);
    expect(codesOf(nested(51, '[]'))).toEqual(['deep-condition']);
  });

  it('but parentheses one after another, and in quotes, are none within each other', () => {
    expect(codesOf(Array.from({ length: 60 }, () => '(true)').join(' and '))).toEqual([]);
    expect(codesOf(`%line.type = '${'('.repeat(60)}'`)).toEqual([]);
    expect(codesOf(String.raw`%line.type = 'it\'s ${'('.repeat(60)}'`)).toEqual([]);
  });

  it('is what has more than 4,000 characters', () => {
    expect(codesOf(`${' '.repeat(5000)}true`)).toEqual([]);
    expect(codesOf(`true or '${'a'.repeat(4000)}' = 'a'`)).toEqual(['long-condition']);
  });
});
