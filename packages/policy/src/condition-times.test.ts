import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ConditionKind } from './condition.js';
import { compile, compileCondition } from './condition-compile.js';
import type { Facts, TimeRange } from './facts.js';

const minute = 60_000;
const hour = 60 * minute;
const at = (ms: number): TimeRange => ({ lowMs: ms, highMs: ms });
const noon = 1_780_000_000_000;
/** A time that is known by its day alone. */
const day: TimeRange = { lowMs: noon - 12 * hour, highMs: noon + 12 * hour - 1 };

function answers(text: string, given: Facts, kind: ConditionKind = 'stop') {
  return (['fastest', 'engine'] as const).map((way) => {
    const reading = compile([text], way, { kind });
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    expect(reading.condition.via).toBe(way === 'engine' ? 'engine' : 'closure');
    return reading.condition.evaluate(given).is;
  });
}

const repaired = '%last.repair >= %began';
const late = '%began >= %last.occlusionTreatment + 120 minutes';

describe('times are compared the same way by closures and on the reference FHIRPath engine', () => {
  it.each<[string, Facts, 'true' | 'false' | 'unknown']>([
    [repaired, { began: at(noon), 'last.repair': at(noon) }, 'true'],
    [repaired, { began: at(noon), 'last.repair': at(noon - 1) }, 'false'],
    [repaired, { began: at(noon) }, 'unknown'],
    [repaired, {}, 'unknown'],
    // Known by the day: decided only where the whole day agrees.
    [repaired, { began: at(day.lowMs), 'last.repair': day }, 'true'],
    [repaired, { began: at(day.lowMs + 1), 'last.repair': day }, 'unknown'],
    [repaired, { began: at(day.highMs), 'last.repair': day }, 'unknown'],
    [repaired, { began: at(day.highMs + 1), 'last.repair': day }, 'false'],
    [repaired, { began: day, 'last.repair': day }, 'unknown'],
    ['%last.repair < %began', { began: day, 'last.repair': at(day.lowMs - 1) }, 'true'],
    // On one day they may or may not have been at the same moment: neither end alone would tell.
    ['%last.repair = %began', { began: at(noon), 'last.repair': day }, 'unknown'],
    ['%last.repair != %began', { began: at(noon), 'last.repair': day }, 'unknown'],
    ['%last.repair = %began', { began: at(day.highMs + 1), 'last.repair': day }, 'false'],
    ['%last.repair = %began', { began: at(noon), 'last.repair': at(noon) }, 'true'],
    // What holds of a time wherever in its day it was.
    ['%last.repair < %began or %last.repair >= %began', { began: at(noon), 'last.repair': day }, 'true'],
    ['%last.repair < %began and %last.repair > %began', { began: at(noon), 'last.repair': day }, 'false'],
    [
      '%last.repair >= %found.damage or %found.damage >= %last.repair',
      { 'found.damage': day, 'last.repair': day },
      'true',
    ],
    [
      '%last.repair > %found.damage and %found.damage > %began and %began > %last.repair',
      { began: day, 'found.damage': day, 'last.repair': day },
      'false',
    ],
    [
      '%last.repair > %found.damage and %found.damage > %began',
      { began: day, 'found.damage': day, 'last.repair': day },
      'unknown',
    ],
    // Minutes and hours are exact.
    [late, { began: at(noon), 'last.occlusionTreatment': at(noon - 120 * minute) }, 'true'],
    [late, { began: at(noon), 'last.occlusionTreatment': at(noon - 120 * minute + 1) }, 'false'],
    [
      '%began - 2 hours >= %last.occlusionTreatment',
      { began: at(noon), 'last.occlusionTreatment': at(noon - 120 * minute) },
      'true',
    ],
    [
      '%last.occlusionTreatment + 3 hours - 60 minutes <= %began',
      { began: at(noon), 'last.occlusionTreatment': at(noon - 2 * hour) },
      'true',
    ],
    [late, { began: day, 'last.occlusionTreatment': day }, 'unknown'],
    [late, { began: day, 'last.occlusionTreatment': at(day.lowMs - 2 * hour) }, 'true'],
    ['%found.bloodReturn.brisk.exists()', { 'found.bloodReturn.brisk': day }, 'true'],
    ['%found.bloodReturn.brisk.exists()', { 'found.bloodReturn': day }, 'false'],
    ['%last.tipConfirmation.empty()', {}, 'true'],
    ['%last.tipConfirmation.empty()', { 'last.tipConfirmation': day }, 'false'],
    ['%answered.exists()', { answered: at(noon) }, 'true'],
    ['%answered.exists()', { began: at(noon) }, 'false'],
    // A grade in a hospital’s own words.
    ['%found.redness.grade2 >= %began', { began: at(noon), 'found.redness.grade2': at(noon) }, 'true'],
    // Times whose ends are crossed are not known.
    [repaired, { began: at(noon), 'last.repair': { lowMs: noon + 1, highMs: noon } }, 'unknown'],
    ['%last.repair.exists()', { 'last.repair': { lowMs: noon + 1, highMs: noon } }, 'false'],
    // A time with no known beginning.
    [repaired, { began: at(noon), 'last.repair': { lowMs: -Infinity, highMs: noon - 1 } }, 'false'],
    [repaired, { began: at(noon), 'last.repair': { lowMs: -Infinity, highMs: noon } }, 'unknown'],
  ])('%s of %j is %s', (text, given, expected) => {
    expect(answers(text, given)).toEqual([expected, expected]);
  });

  const names = ['began', 'last.repair', 'found.damage', 'last.flush'] as const;
  type Name = (typeof names)[number];
  type Node =
    | { readonly op: 'compare'; readonly by: string; readonly a: Term; readonly b: Term }
    | { readonly op: 'exists' | 'empty'; readonly of: Name }
    | { readonly op: 'and' | 'or'; readonly sides: readonly [Node, Node] }
    | { readonly op: 'not'; readonly of: Node };
  interface Term {
    readonly name: Name;
    readonly minutes: number;
  }

  const term: fc.Arbitrary<Term> = fc.record({
    name: fc.constantFrom(...names),
    minutes: fc.constantFrom(0, 0, 1, -1, 2),
  });
  const { node } = fc.letrec<{ node: Node }>((tie) => ({
    node: fc.oneof(
      { maxDepth: 2, withCrossShrink: true },
      fc.record({
        op: fc.constant('compare' as const),
        by: fc.constantFrom('<', '<=', '>', '>=', '=', '!='),
        a: term,
        b: term,
      }),
      fc.record({ op: fc.constantFrom('exists' as const, 'empty' as const), of: fc.constantFrom(...names) }),
      fc.record({
        op: fc.constantFrom('and' as const, 'or' as const),
        sides: fc.tuple(tie('node'), tie('node')),
      }),
      fc.record({ op: fc.constant('not' as const), of: tie('node') }),
    ),
  }));

  const written = (one: Node): string => {
    switch (one.op) {
      case 'compare': {
        const side = ({ name, minutes }: Term) =>
          minutes === 0 ? `%${name}` : `(%${name} ${minutes < 0 ? '-' : '+'} ${Math.abs(minutes)} minutes)`;
        return `${side(one.a)} ${one.by} ${side(one.b)}`;
      }
      case 'and':
      case 'or':
        return `(${written(one.sides[0])}) ${one.op} (${written(one.sides[1])})`;
      case 'not':
        return `(${written(one.of)}).not()`;
      default:
        return `%${one.of}.${one.op}()`;
    }
  };

  // Independent of the policy: three-valued logic over one moment for each time, undefined is unknown.
  type Moments = Partial<Record<Name, number>>;
  const judged = (one: Node, moments: Moments): boolean | undefined => {
    switch (one.op) {
      case 'compare': {
        const [a, b] = [one.a, one.b].map(({ name, minutes }) => {
          const ms = moments[name];
          return ms === undefined ? undefined : ms + minutes * minute;
        });
        if (a === undefined || b === undefined) return undefined;
        const by: Record<string, boolean> = {
          '<': a < b,
          '<=': a <= b,
          '>': a > b,
          '>=': a >= b,
          '=': a === b,
          '!=': a !== b,
        };
        return by[one.by];
      }
      case 'and':
      case 'or': {
        const sides = one.sides.map((side) => judged(side, moments));
        const decisive = one.op === 'or';
        if (sides.includes(decisive)) return decisive;
        return sides.includes(undefined) ? undefined : !decisive;
      }
      case 'not': {
        const of = judged(one.of, moments);
        return of === undefined ? undefined : !of;
      }
      default:
        return (moments[one.of] !== undefined) === (one.op === 'exists');
    }
  };

  /** Every moment that the times may have been, to the millisecond: the ranges are a few milliseconds wide. */
  const everyMoment = (facts: Partial<Record<Name, TimeRange>>): Moments[] =>
    names.reduce<Moments[]>(
      (all, name) => {
        const range = facts[name];
        if (range === undefined) return all;
        const moments = Array.from(
          { length: range.highMs - range.lowMs + 1 },
          (_, index) => range.lowMs + index,
        );
        return all.flatMap((one) => moments.map((ms) => ({ ...one, [name]: ms })));
      },
      [{}],
    );

  const range = fc
    .tuple(fc.integer({ min: 0, max: 2 }), fc.integer({ min: -2, max: 2 }), fc.integer({ min: 0, max: 3 }))
    .map(([minutes, ms, width]) => {
      const lowMs = noon + minutes * minute + ms;
      return { lowMs, highMs: lowMs + width };
    });
  const someTimes = fc.record(
    { began: range, 'last.repair': range, 'found.damage': range, 'last.flush': range },
    { requiredKeys: [] },
  );

  it('and that is what every moment that they may have been agrees on', () => {
    fc.assert(
      fc.property(node, someTimes, (one, facts) => {
        const said = new Set(everyMoment(facts).map((moments) => judged(one, moments)));
        const [first] = said;
        const expected = said.size === 1 && first !== undefined ? String(first) : 'unknown';
        expect(answers(written(one), facts)).toEqual([expected, expected]);
      }),
      { numRuns: 150 },
    );
  });

  it('also over many more cases where a closure decides alone', () => {
    fc.assert(
      fc.property(node, someTimes, (one, facts) => {
        const said = new Set(everyMoment(facts).map((moments) => judged(one, moments)));
        const [first] = said;
        const expected = said.size === 1 && first !== undefined ? String(first) : 'unknown';
        const reading = compileCondition([written(one)], { kind: 'stop' });
        expect(reading.ok && reading.condition.evaluate(facts).is).toBe(expected);
      }),
      { numRuns: 3_000 },
    );
  });
});

describe('a condition on times', () => {
  const refused = (text: string, kind: ConditionKind = 'stop') => {
    const reading = compileCondition([text], { kind });
    if (reading.ok) throw new Error('accepted');
    return reading.problems;
  };

  it.each<[string, string, string, string]>([
    ['%began + 3 days > %last.repair', 'time-arithmetic', '3 days', 'not always 24 hours'],
    ['%began + 1 month > %last.repair', 'time-arithmetic', '1 month', 'minutes or hours'],
    ["%began + 2 'h' > %last.repair", 'time-arithmetic', '2 h', 'minutes or hours'],
    ['%began + 1.5 hours > %last.repair', 'time-arithmetic', '1.5 hours', 'whole minutes'],
    ['%began + 2 > %last.repair', 'time-arithmetic', 'something else', 'minutes or hours'],
    ['%began - %last.repair > 2 hours', 'time-arithmetic', 'can’t be kept', 'minutes or hours'],
    ['2 hours + %began > %last.repair', 'time-arithmetic', 'a length of time', 'minutes or hours'],
    ['%began', 'time-comparison', '%began is a time.', '%began.exists()'],
    ['%last.repair = 3', 'time-comparison', '%last.repair is a time.', 'another time'],
    ['%last.repair > @2026-01-01', 'time-comparison', 'A date or a time of day', 'facts'],
    ["%last.repair in ('a' | 'b')", 'time-comparison', '%last.repair is a time.', 'another time'],
    ['%last.repair ~ %began', 'unknown-as-false', 'takes an unknown fact as false', '='],
    ['%last.repair.toString() = %began', 'time-comparison', '', 'another time'],
    ['iif(%began > %last.repair, %last.repair, %began) > %last.flush', 'time-comparison', 'is a time', ''],
    ['@2026-01-01 < @2026-01-02', 'time-comparison', 'A date or a time of day', 'effectivePeriod'],
    ['%last.repaired > %began', 'unknown-fact', '%last.repaired', 'Did you mean %last.repair?'],
  ])('refuses %s', (text, code, message, cure) => {
    const [first] = refused(text);
    expect(first?.code).toBe(code);
    expect(first?.message).toContain(message);
    expect(first?.cure).toContain(cure);
  });

  it.each<[string, ConditionKind, boolean]>([
    ['%began > %last.repair', 'applicability', false],
    ['%began > %last.repair', 'start', true],
    ['%began > %last.repair', 'stop', true],
    ['%answered.exists()', 'applicability', false],
    ['%answered.exists()', 'start', false],
    ['%answered.exists()', 'stop', true],
  ])('%s in a condition of kind %s: %s', (text, kind, allowed) => {
    const reading = compileCondition([text], { kind });
    expect(reading.ok).toBe(allowed);
    if (!reading.ok) {
      expect(reading.problems[0]?.code).toBe('trigger-fact');
      expect(reading.problems[0]?.cure).toContain('stop');
    }
  });

  it.each<[string, unknown]>([
    ['%found.damage >= %began', [{ found: 'damage' }]],
    ['%began <= %found.bloodReturn.brisk', [{ found: 'blood-return', value: 'brisk' }]],
    ['%last.tipConfirmation > %began', [{ done: 'tip-confirmation' }]],
    ['%answered.exists()', [{ answered: true }]],
    [
      '%found.bloodReturn.brisk >= %began or (%found.flushResistance.none >= %began or %last.repair > %began)',
      [
        { found: 'blood-return', value: 'brisk' },
        { found: 'flush-resistance', value: 'none' },
        { done: 'repair' },
      ],
    ],
    [
      '%found.connectorCondition.bloodResidue >= %began',
      [{ found: 'connector-condition', value: 'blood-residue' }],
    ],
    // Whatever is more than such a list is no list.
    ['%found.damage >= %began and %line.cuffed', undefined],
    ['%found.damage >= %began or %line.cuffed', undefined],
    ['%found.damage >= %began xor %last.repair >= %began', undefined],
    ['%found.damage < %began', undefined],
    ['%found.damage = %began', undefined],
    ['%found.damage >= %began + 2 hours', undefined],
    ['%found.damage >= %last.repair', undefined],
    ['%answered.empty()', undefined],
    ['(%found.damage >= %began).not()', undefined],
  ])('%s ends with %j', (text, ends) => {
    const reading = compileCondition([text], { kind: 'stop' });
    expect(reading.ok && reading.condition.ends).toEqual(ends);
  });

  it('ends nothing where it is no stop condition, or one of several', () => {
    const start = compileCondition(['%last.repair >= %began'], { kind: 'start' });
    expect(start.ok && start.condition).not.toHaveProperty('ends');
    const two = compileCondition(['%last.repair >= %began', '%line.cuffed'], { kind: 'stop' });
    expect(two.ok && two.condition).not.toHaveProperty('ends');
  });
});
