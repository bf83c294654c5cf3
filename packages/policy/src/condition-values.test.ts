import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { knownOf, trials, type Between } from './condition-values.js';
import type { FactName, Facts, QuantityRange } from './facts.js';

const between = (low?: string, high?: string, more: Partial<QuantityRange> = {}): QuantityRange => ({
  ...(low === undefined ? {} : { low }),
  lowIncluded: true,
  ...(high === undefined ? {} : { high }),
  highIncluded: true,
  unit: '10*9/L',
  ...more,
});
// What was read of a value is kept by the value: each reading has one of its own.
const known = (facts: Facts) => knownOf(structuredClone(facts), Object.keys(facts) as FactName[]);

describe('a quantity', () => {
  it.each([
    ['as it is', between('0.5', '0.5'), '0.5'],
    ['converted into the unit of the fact', between('500', '500', { unit: '/uL' }), '0.5'],
  ])('is known exactly where both ends are one: %s', (_, range, expected) => {
    const { exact, between: open } = known({ 'labs.anc': range });
    expect([...exact].map(([name, value]) => [name, String(value)])).toEqual([['labs.anc', expected]]);
    expect(open).toEqual([]);
  });

  it.each<[string, QuantityRange, Partial<Record<'low' | 'high', string>>]>([
    ['two', between('0.1', '0.5'), { low: '0.1', high: '0.5' }],
    ['an upper one alone', between(undefined, '0.1', { highIncluded: false }), { high: '0.1' }],
    ['a lower one alone', between('0.5', undefined, { lowIncluded: false }), { low: '0.5' }],
    ['two of another unit', between('100', '500', { unit: '/uL' }), { low: '0.1', high: '0.5' }],
  ])('keeps its limits, and whether they count: %s', (_, range, limits) => {
    const { exact, between: open } = known({ 'labs.anc': range });
    expect(exact.size).toBe(0);
    expect(JSON.parse(JSON.stringify(open))).toStrictEqual([
      { fact: 'labs.anc', lowIncluded: range.lowIncluded, highIncluded: range.highIncluded, ...limits },
    ]);
    expect(Object.keys(open[0] ?? {}).filter((key) => key === 'low' || key === 'high')).toEqual(
      Object.keys(limits),
    );
  });

  // Each of these would decide care by a number that nobody measured.
  it.each<[string, QuantityRange]>([
    ['no limits', between()],
    ['crossed limits', between('2', '1')],
    ['one point without its lower end', between('1', '1', { lowIncluded: false })],
    ['one point without its upper end', between('1', '1', { highIncluded: false })],
    ['a lower limit that is no number', between('low', '1')],
    ['an upper limit that is no number', between('1', 'high')],
    ['a lower limit alone that is no number', between('low')],
    ['a unit of something else', between('1', '1', { unit: 'kg' })],
  ])('is not known with %s', (_, range) => {
    expect(known({ 'labs.anc': range })).toEqual({ exact: new Map(), between: [], timesBetween: [] });
  });

  it('that two facts share is read in the unit of each, and once', () => {
    const range = between('1', '1', { unit: '1' });
    const both = { 'labs.inr': range, 'labs.anc': range };
    for (let time = 0; time < 2; time += 1) {
      const { exact } = knownOf(both, ['labs.inr', 'labs.anc']);
      expect([...exact].map(([name, value]) => [name, String(value)])).toEqual([['labs.inr', '1']]);
    }
    const first = knownOf(both, ['labs.inr']).exact.get('labs.inr');
    expect(knownOf(both, ['labs.inr']).exact.get('labs.inr')).toBe(first);
  });
});

describe('other facts', () => {
  it('are taken as they are, and times as a time or between two', () => {
    const facts = {
      'line.type': 'picc',
      'line.cuffed': false,
      'patient.ageDays': 0,
      'last.repair': { lowMs: 1000, highMs: 1000 },
      'last.flush': { lowMs: 1000, highMs: 2000 },
      'last.lock': { lowMs: 2000, highMs: 1000 },
      'last.bath': { lowMs: Number.NaN, highMs: 1000 },
    } as const;
    expect(known(facts)).toEqual({
      exact: new Map<string, unknown>([
        ['line.type', 'picc'],
        ['line.cuffed', false],
        ['patient.ageDays', 0],
        ['last.repair', 1000],
      ]),
      between: [],
      timesBetween: [{ fact: 'last.flush', lowMs: 1000, highMs: 2000 }],
    });
  });

  it('that came with the value of another kind, or that nobody knows, are unknown', () => {
    const nothing = { exact: new Map(), between: [], timesBetween: [] };
    const time = { lowMs: 1, highMs: 1 } as unknown as QuantityRange;
    expect(known({ 'labs.anc': time })).toEqual(nothing);
    const quantity = between('1', '1') as unknown as { lowMs: number; highMs: number };
    expect(known({ 'last.repair': quantity })).toEqual(nothing);
    const strange = { 'no.fact': between('1', '1') } as unknown as Facts;
    expect(known(strange)).toEqual(nothing);
    expect(knownOf({ 'line.type': 'picc' }, [])).toEqual(nothing);
    expect(knownOf({}, ['line.type'])).toEqual(nothing);
  });
});

describe('the values to try of a quantity between limits', () => {
  const range = (low?: number, high?: number, lowIncluded = true, highIncluded = true): Between => ({
    fact: 'labs.anc',
    ...(low === undefined ? {} : { low: new Decimal(low) }),
    lowIncluded,
    ...(high === undefined ? {} : { high: new Decimal(high) }),
    highIncluded,
  });
  // One value of each stretch in which a condition can't change its answer, and each limit itself.
  it.each<[string, Between, number[], number[]]>([
    ['between two without a limit inside', range(1, 3), [], [1, 2, 3]],
    ['without its ends', range(1, 3, false, false), [], [2]],
    ['limits out of order', range(0, 8), [6, 2], [0, 1, 2, 4, 6, 7, 8]],
    ['limits at its ends and outside', range(1, 3), [1, 3, 0, 9], [1, 2, 3]],
    ['below one', range(undefined, 4), [2], [1, 2, 3, 4]],
    ['above one', range(4), [6], [4, 5, 6, 7]],
    ['below one that does not count', range(undefined, 4, false, false), [], [3]],
    ['above one that does not count', range(4, undefined, false, false), [], [5]],
  ])('%s', (_, between, thresholds, expected) => {
    const tried = trials(
      between,
      thresholds.map((one) => new Decimal(one)),
    ).map(Number);
    expect(tried.sort((a, b) => a - b)).toEqual(expected);
  });
});
