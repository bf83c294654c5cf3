import { factKind, isFactName, type FactName } from './facts.js';
import type { ConditionFault } from './expression.js';
import { operandOf, sides, strip, type Tree } from './tree.js';

/** A fact that is a time, moved by so many milliseconds. */
export interface TimeTerm {
  readonly fact: FactName;
  readonly offsetMs: number;
}

/** A part of a condition as a time, what is wrong with it, or undefined where it is no time at all. */
export type TimeReading =
  | { readonly ok: true; readonly term: TimeTerm }
  | { readonly ok: false; readonly fault: ConditionFault }
  | undefined;

const msIn: Readonly<Record<string, number>> = {
  minute: 60_000,
  minutes: 60_000,
  hour: 3_600_000,
  hours: 3_600_000,
};

const cure =
  'Add or take away whole minutes or hours, such as %began + 120 minutes: a day is not always 24 hours.';

/** Reads a fact that is a time, or one with minutes or hours added or taken away. */
export function timeOf(tree: Tree): TimeReading {
  const node = strip(tree);
  const operand = operandOf(node);
  if (operand.kind === 'fact') {
    const { name } = operand;
    if (!isFactName(name) || factKind(name)?.kind !== 'time') return undefined;
    return { ok: true, term: { fact: name, offsetMs: 0 } };
  }
  const pair = node.type === 'AdditiveExpression' ? sides(node) : undefined;
  const sign = node.text === '+' ? 1 : node.text === '-' ? -1 : undefined;
  if (pair === undefined) return undefined;
  const left = timeOf(pair[0]);
  if (left === undefined) return timeOf(pair[1]) === undefined ? undefined : wrong('a length of time alone');
  if (!left.ok) return left;
  if (sign === undefined) return wrong(`${node.text ?? ''}`);
  const length = operandOf(pair[1]);
  const written = length.kind === 'quantity' ? `${length.value} ${length.unit}` : 'something else';
  const unitMs = length.kind === 'quantity' && length.calendar ? msIn[length.unit] : undefined;
  if (length.kind !== 'quantity' || unitMs === undefined || !/^\d+$/.test(length.value))
    return wrong(written);
  const { fact, offsetMs } = left.term;
  return { ok: true, term: { fact, offsetMs: offsetMs + sign * Number(length.value) * unitMs } };
}

function wrong(what: string): TimeReading {
  return {
    ok: false,
    fault: { code: 'time-arithmetic', message: `a time with ${what} can’t be kept`, cure },
  };
}

/** Two times that a condition compares: what matters is whether `left` less `right` is below, at or above `apartMs`. */
export interface TimeLink {
  readonly left: FactName;
  readonly right: FactName;
  readonly apartMs: number;
}

/** A time that is only known between two ends, both included. */
export interface TimeBetween {
  readonly fact: FactName;
  readonly lowMs: number;
  readonly highMs: number;
}

/**
 * Values to try for every time between two ends, so that whatever order of the times is possible is tried. Any order
 * that is possible has a solution in which each time is the latest that the comparisons allow: an end, or a time that
 * follows from another by one comparison after the other, one millisecond earlier where the two must differ.
 * Undefined where they are too many.
 */
export function timeTrials(
  between: readonly TimeBetween[],
  exact: ReadonlyMap<FactName, number>,
  links: readonly TimeLink[],
  most: number,
): ReadonlyMap<FactName, readonly number[]> | undefined {
  const ranges = new Map(between.map((range) => [range.fact, range]));
  const found = new Map(between.map(({ fact, highMs }) => [fact, new Set([highMs])]));
  const valuesOf = (fact: FactName): Iterable<number> => {
    const value = exact.get(fact);
    return found.get(fact) ?? (value === undefined ? [] : [value]);
  };
  const add = (fact: FactName, ms: number): void => {
    const range = ranges.get(fact);
    if (range !== undefined && ms >= range.lowMs && ms <= range.highMs) found.get(fact)?.add(ms);
  };
  // A chain of comparisons passes through no time twice.
  const compared = new Set(links.flatMap(({ left, right }) => [left, right]));
  for (let step = 1; step < compared.size; step += 1) {
    for (const { left, right, apartMs } of links) {
      for (const ms of [...valuesOf(right)])
        [ms + apartMs, ms + apartMs - 1].forEach((one) => add(left, one));
      for (const ms of [...valuesOf(left)])
        [ms - apartMs, ms - apartMs - 1].forEach((one) => add(right, one));
    }
    if ([...found.values()].some(({ size }) => size > most)) return undefined;
  }
  return new Map([...found].map(([fact, values]) => [fact, [...values]]));
}
