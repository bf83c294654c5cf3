import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stepChanges } from './step-changes.js';

const short = (before: string, after: string) =>
  stepChanges([...before], [...after]).map(
    (one) =>
      `${one.before ? `-${one.before.number}${one.before.text}` : ''}${one.after ? `+${one.after.number}${one.after.text}` : ''}`,
  );

describe('the changes of steps', () => {
  it.each([
    ['abc', 'abc', []],
    ['abc', 'axbc', ['+2x']],
    ['abc', 'ac', ['-2b']],
    ['abc', 'axc', ['-2b+2x']],
    ['abc', 'axyc', ['-2b+2x', '+3y']],
    ['', 'ab', ['+1a', '+2b']],
    ['ab', '', ['-1a', '-2b']],
    // A new first step gives the others a new number, which is no change.
    ['abcd', 'xabcd', ['+1x']],
    ['abcde', 'xbcy', ['-1a+1x', '-4d+4y', '-5e']],
    ['aab', 'ab', ['-2a']],
  ])('of %s to %s are %j', (before, after, expected) => {
    expect(short(before, after)).toEqual(expected);
  });

  it('say that a step was moved', () => {
    expect(short('abc', 'bca')).toEqual(['-1a', '+3a']);
  });

  it('turn the first list into the second, and are none where the lists are the same', () => {
    const list = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 8 });
    fc.assert(
      fc.property(list, list, (before, after) => {
        const changes = stepChanges(before, after);
        const gone = new Map(
          changes.flatMap((one) => (one.before ? [[one.before.number, one.before.text]] : [])),
        );
        const come = new Map(
          changes.flatMap((one) => (one.after ? [[one.after.number, one.after.text]] : [])),
        );
        for (const [number, text] of gone) expect(before[Number(number) - 1]).toBe(text);
        for (const [number, text] of come) expect(after[Number(number) - 1]).toBe(text);
        expect(before.filter((_, i) => !gone.has(i + 1))).toEqual(after.filter((_, i) => !come.has(i + 1)));
        expect(changes.length === 0).toBe(before.join() === after.join());
      }),
    );
  });
});
