import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anything, both, list, number, object, oneOf, optional, shaped, text, yesNo } from './shape.js';
import { activityShape, actionShape, planShape } from './shapes.js';

const coding = object({ code: optional(text), rank: optional(number), mine: optional(yesNo) });
const one = object({
  kind: oneOf('a', 'b'),
  literal: oneOf('only'),
  coding: optional(list(coding)),
  rest: optional(anything),
});

const name = fc.constantFrom('kind', 'literal', 'coding', 'rest', 'code', 'rank', 'mine', 'a', 'b', 'only');
const anyJson = fc.letrec((tie) => ({
  value: fc.oneof(
    { depthSize: 'small' },
    fc.constantFrom('a', 'only', '', 0, 1.5, true, null, undefined),
    fc.array(tie('value'), { maxLength: 3 }),
    fc.dictionary(name, tie('value'), { maxKeys: 5 }),
  ),
})).value;

/** What is nearly in order: the judgement turns on one member. */
const nearly = fc.record({ name, value: anyJson, inside: fc.boolean() }).map(({ name, value, inside }) => ({
  ...{ kind: 'a', literal: 'only', other: 1 },
  coding: [{ code: 'x', rank: 1, mine: false, ...(inside ? { [name]: value } : {}) }],
  ...(inside ? {} : { [name]: value }),
}));

describe('a shape', () => {
  it.each([
    ['an object', one],
    ['both of two', both(one, coding)],
    ['a list', list(one)],
    ['a plan', planShape],
    ['an action', actionShape],
    ['an activity', activityShape],
  ])('judges as the schema library does: %s', (_, shape) => {
    fc.assert(
      fc.property(
        fc.oneof(
          anyJson,
          nearly,
          nearly.map((value) => [value]),
        ),
        (value) => {
          expect(shape.accepts(value)).toBe(shape.schema().safeParse(value).success);
        },
      ),
      { numRuns: 2_000 },
    );
  });

  it('takes no number that JSON can’t say', () => {
    for (const value of [NaN, Infinity, -Infinity])
      expect([number.accepts(value), number.schema().safeParse(value).success]).toEqual([false, false]);
  });

  it('takes both what it should and what it should not', () => {
    const good = { kind: 'a', literal: 'only', coding: [{ rank: 1 }], more: {} };
    expect(shaped(one, good)).toEqual({ success: true, data: good });
    expect(shaped(one, good).data).toBe(good);
    expect(shaped(one, { ...good, coding: [{ rank: NaN }] }).error?.issues).toMatchObject([
      { path: ['coding', 0, 'rank'] },
    ]);
    expect(one.accepts({ ...good, kind: 'c' })).toBe(false);
    expect(both(one, coding).accepts({ ...good, mine: 'no' })).toBe(false);
  });
});
