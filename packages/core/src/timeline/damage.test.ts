import { describe, expect, it } from 'vitest';
import type { CareEvent, Finding, LineRecord } from '../model/record.js';
import { answersDamage, readDamage, standingDamages } from './damage.js';
import type { Timed } from './timed.js';

// Which repair was of which damage: design, safety. No source says it; the protective reading is taken.

const lineOf = (...lumens: string[]) => ({ lumens: lumens.map((ref) => ({ ref })) }) as unknown as LineRecord;
const two = lineOf('red', 'white');
const at = (ms: number, latestMs = ms) => ({ ms, latestMs });
const damage = (ms: number, lumen?: string, flag = true, latestMs = ms): Timed<Finding> => ({
  ...at(ms, latestMs),
  fact: { ref: `found-${ms}`, finding: 'damage', values: [], flag, ...(lumen ? { lumen } : {}) } as never,
});
const repair = (ms: number, lumen?: string): Timed<CareEvent> => ({
  ...at(ms),
  fact: { ref: `repair-${ms}`, activity: 'repair', ...(lumen ? { lumen } : {}) } as never,
});
const endsOf = (line: LineRecord, events: Timed<CareEvent>[], findings: Timed<Finding>[]) =>
  readDamage(line, events, findings).damages.map(({ endMs }) => endMs);

describe('whether a repair answers a damage', () => {
  const red = { lumen: 'red' };
  const white = { lumen: 'white' };
  const whole = {};
  it.each([
    ['of the lumen, that lumen', red, red, [red, white, whole], true],
    ['of another lumen', white, red, [red], false],
    ['of the line, the only damaged lumen', whole, red, [red, red], true],
    ['of the line, one of two damaged lumens', whole, red, [red, white], false],
    ['of the line, a lumen beside damage of the whole', whole, red, [red, whole], false],
    ['of the line, the line', whole, whole, [red, whole], true],
    ['of a lumen, the line', red, whole, [whole], false],
  ])('%s: %s', (_, act, found, standing, answer) => {
    expect(answersDamage(act, found, standing)).toBe(answer);
  });
});

describe('the end of a damage', () => {
  it('of a line with one lumen is any repair after it, and none before or on a day that may be before', () => {
    const one = lineOf('red');
    expect(endsOf(one, [repair(5)], [damage(4, 'red')])).toEqual([5]);
    expect(endsOf(one, [repair(5, 'red')], [damage(4)])).toEqual([5]);
    expect(endsOf(one, [repair(3)], [damage(4)])).toEqual([Infinity]);
    expect(endsOf(one, [repair(5)], [damage(4, undefined, true, 9)])).toEqual([Infinity]);
    expect(endsOf(lineOf(), [repair(5)], [damage(4)])).toEqual([5]);
  });
  it('is a repair at the same moment, but no look at the same moment', () => {
    expect(endsOf(two, [repair(4, 'red')], [damage(4, 'red')])).toEqual([4]);
    expect(endsOf(two, [], [damage(4, 'red'), damage(4, 'red', false)])).toEqual([Infinity]);
    expect(endsOf(two, [], [damage(4, 'red'), damage(5, 'red', false)])).toEqual([5]);
  });
  it('of the line as a whole is the repair of the last of its lumens, in whatever order', () => {
    expect(endsOf(two, [repair(5, 'red'), repair(6, 'white')], [damage(4)])).toEqual([6]);
    expect(endsOf(two, [repair(5, 'white'), repair(6, 'white')], [damage(4)])).toEqual([Infinity]);
    // One repair that names both is on record as one event on each.
    expect(endsOf(two, [repair(5, 'red'), repair(5, 'white')], [damage(4)])).toEqual([5]);
  });
  it('does not reach back: the white lumen repaired before the red one leaves only that', () => {
    const ends = endsOf(two, [repair(5, 'white'), repair(7)], [damage(4, 'red'), damage(4, 'white')]);
    expect(ends).toEqual([7, 5]);
  });
});

describe('a repair that names no lumen', () => {
  const lumensOf = (events: Timed<CareEvent>[], findings: Timed<Finding>[]) =>
    readDamage(two, events, findings).events.map(({ fact }) => fact.lumen);
  it('is read as of the only damaged lumen, else left as it is', () => {
    expect(lumensOf([repair(5)], [damage(4, 'red')])).toEqual(['red']);
    expect(lumensOf([repair(5)], [damage(4, 'red'), damage(4, 'white')])).toEqual([undefined]);
    expect(lumensOf([repair(5)], [damage(4)])).toEqual([undefined]);
    expect(lumensOf([repair(5)], [])).toEqual([undefined]);
    expect(lumensOf([repair(5)], [damage(6, 'red')])).toEqual([undefined]);
  });
  it('is unclear only while what it left stands', () => {
    const both = [damage(4, 'red'), damage(4, 'white')];
    const unclear = (...events: Timed<CareEvent>[]) => readDamage(two, events, both).unclearRepairs;
    expect(unclear(repair(5)).map(({ left }) => left.map(({ lumen }) => lumen))).toEqual([['red', 'white']]);
    expect(unclear(repair(5), repair(6, 'red'))[0]?.left.map(({ lumen }) => lumen)).toEqual(['white']);
    expect(unclear(repair(5), repair(6, 'red'), repair(7, 'white'))).toEqual([]);
  });
});

it('standing damage is that of the lumen and of the line, from when it was found until it ended', () => {
  const reading = readDamage(two, [repair(6, 'red')], [damage(4, 'red'), damage(5, 'white')]);
  const refs = (ms: number, lumen?: string) =>
    standingDamages(reading, ms, lumen).map(({ found }) => found.ms);
  expect([refs(3), refs(4), refs(5), refs(6)]).toEqual([[], [4], [4, 5], [5]]);
  expect([refs(5, 'red'), refs(5, 'white'), refs(6, 'red')]).toEqual([[4], [5], []]);
  expect(standingDamages(readDamage(two, [], [damage(4)]), 5, 'red')).toHaveLength(1);
});
