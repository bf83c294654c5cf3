import { Decimal } from 'decimal.js';
import type { TimeBetween } from './condition-times.js';
import { factKind, type FactName, type Facts, type QuantityRange, type TimeRange } from './facts.js';
import { convertUnit } from './units.js';

/** A fact’s value with no doubt left in it. Quantities are in the unit of `factKind`, times in milliseconds since 1970. */
export type ExactValue = string | number | boolean | Decimal;

/** The facts that are known, by their full names. */
export type Values = ReadonlyMap<FactName, ExactValue>;

/** An answer over exact values: true, false, or the facts that are missing for one. */
export type Answer = boolean | readonly FactName[];

/** Decides a condition over exact values. */
export type Decide = (values: Values) => Answer;

/** A quantity that is only known between limits, in the unit of its fact. */
export interface Between {
  readonly fact: FactName;
  readonly low?: Decimal;
  readonly lowIncluded: boolean;
  readonly high?: Decimal;
  readonly highIncluded: boolean;
}

/** Facts split into what is known exactly and what is only known between limits. */
export interface Known {
  readonly exact: Map<FactName, ExactValue>;
  readonly between: readonly Between[];
  readonly timesBetween: readonly TimeBetween[];
}

function limit(value: string | undefined, from: string, to: string): Decimal | undefined | 'unreadable' {
  if (value === undefined) return undefined;
  const converted = convertUnit(value, from, to);
  return converted.ok ? new Decimal(converted.value) : 'unreadable';
}

// A laboratory value is asked about by many rules and never changes: it is converted once.
const read = new WeakMap<QuantityRange, Map<FactName, Decimal | Between | undefined>>();

function quantity(fact: FactName, range: QuantityRange, unit: string): Decimal | Between | undefined {
  const known = read.get(range) ?? new Map<FactName, Decimal | Between | undefined>();
  read.set(range, known);
  if (!known.has(fact)) known.set(fact, convertedRange(fact, range, unit));
  return known.get(fact);
}

function convertedRange(fact: FactName, range: QuantityRange, unit: string): Decimal | Between | undefined {
  const low = limit(range.low, range.unit, unit);
  const high = limit(range.high, range.unit, unit);
  // A value that can’t be read in the fact’s unit is not known; nor is one whose limits are crossed.
  if (low === 'unreadable' || high === 'unreadable' || (low === undefined && high === undefined))
    return undefined;
  if (low !== undefined && high !== undefined) {
    if (low.greaterThan(high)) return undefined;
    if (low.equals(high)) return range.lowIncluded && range.highIncluded ? low : undefined;
  }
  return {
    fact,
    ...(low === undefined ? {} : { low }),
    lowIncluded: range.lowIncluded,
    ...(high === undefined ? {} : { high }),
    highIncluded: range.highIncluded,
  };
}

// What a date can say in FHIR: the years 1 to 9999.
const firstMs = -62_135_596_800_000;
const lastMs = 253_402_300_799_999;

/** A time within what a date can say; undefined where its ends are crossed or are no numbers. */
function timeRange(fact: FactName, { lowMs, highMs }: TimeRange): TimeBetween | undefined {
  const [low, high] = [Math.max(firstMs, Math.floor(lowMs)), Math.min(lastMs, Math.ceil(highMs))];
  return low <= high ? { fact, lowMs: low, highMs: high } : undefined;
}

/** The values of the facts that a condition asks about; those that are not known are left out. */
export function knownOf(facts: Facts, uses: readonly FactName[]): Known {
  const exact = new Map<FactName, ExactValue>();
  const between: Between[] = [];
  const timesBetween: TimeBetween[] = [];
  for (const name of uses) {
    const value = facts[name];
    const kind = factKind(name);
    if (value === undefined) continue;
    if (typeof value !== 'object') exact.set(name, value);
    else if (kind?.kind === 'time' && 'lowMs' in value) {
      const range = timeRange(name, value);
      if (range?.lowMs === range?.highMs && range !== undefined) exact.set(name, range.lowMs);
      else if (range !== undefined) timesBetween.push(range);
    } else if (kind?.kind === 'quantity' && 'unit' in value) {
      const converted = quantity(name, value, kind.unit);
      if (converted instanceof Decimal) exact.set(name, converted);
      else if (converted !== undefined) between.push(converted);
    }
  }
  return { exact, between, timesBetween };
}

/**
 * Values to try for a quantity between limits: its ends, every limit of the condition inside them and one value in
 * each gap. A condition that only compares the quantity with those limits gives the same answer all over a gap.
 */
export function trials(range: Between, thresholds: readonly Decimal[]): readonly Decimal[] {
  const { low, high } = range;
  const inside = thresholds
    .filter((t) => (low === undefined || t.greaterThan(low)) && (high === undefined || t.lessThan(high)))
    .sort((a, b) => a.comparedTo(b));
  const corners = [...(low === undefined ? [] : [low]), ...inside, ...(high === undefined ? [] : [high])];
  const first = corners[0] ?? new Decimal(0);
  const last = corners[corners.length - 1] ?? new Decimal(0);
  const tried = [...inside];
  if (low === undefined) tried.push(first.minus(1));
  else if (range.lowIncluded) tried.push(low);
  if (high === undefined) tried.push(last.plus(1));
  else if (range.highIncluded) tried.push(high);
  corners.slice(1).forEach((corner, index) => tried.push(corner.plus(corners[index] ?? corner).dividedBy(2)));
  return tried;
}
