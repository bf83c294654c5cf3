import { type Decimal, toText } from './decimal.js';
import { CalculatorError } from './error.js';
import type { Specs } from './input.js';

/**
 * What every calculator returns.
 *
 * `value` is decimal text, never a float, wherever it is a measured amount (a volume, a dose, a length, a ratio,
 * a count of cells); a JavaScript whole number for a score, a grade or a number of days; a word where the answer
 * is a choice. Further results stand beside it under their own names, by the same rule.
 */
export interface Result<V extends string | number = string> {
  readonly value: V;
  /** UCUM where UCUM has one (`mL`, `mg`, `/uL`, `%`); else a plain word; empty for a word. */
  readonly unit: string;
  /** What to bear in mind before acting on it; the most pressing first. Never empty. */
  readonly cautions: readonly string[];
  /** Where the rule comes from, or `common practice, no source`; `from memory` where the text was not seen. */
  readonly source: string;
  /** The working, one line a step, so that it can be checked by hand. */
  readonly steps: readonly string[];
}

/** What is known of a calculator without running it: for help pages, forms and generated documentation. */
export interface Card<S extends Specs = Specs> {
  /** As in `@dwellward/calculators/NAME` and `dwellward calc NAME`. */
  readonly name: string;
  readonly title: string;
  readonly formula: string;
  /** The unit of `value`. */
  readonly unit: string;
  readonly source: string;
  /** The cautions that come with every result; further ones depend on the input. */
  readonly cautions: readonly string[];
  /** When inputs that are each accepted are refused together; beyond a missing, unknown or ill-formed input. */
  readonly refuses?: readonly string[];
  readonly inputs: S;
}

export const card = <const S extends Specs>(content: Card<S>): Card<S> => content;

/** The common part of a result; cautions that the input brought up go before the standing ones. */
export function answer<V extends string | number>(
  { unit, source, cautions }: Card,
  value: V,
  steps: readonly string[],
  raised: readonly string[] = [],
): Result<V> {
  return { value, unit, cautions: [...raised, ...cautions], source, steps };
}

/** The same for an amount. */
export const answerAmount = (
  from: Card,
  value: Decimal,
  steps: readonly string[],
  raised: readonly string[] = [],
): Result => answer(from, toText(value), steps, raised);

/** A refusal of inputs that are each accepted but don't go together. */
export const inconsistent = (input: string, received: unknown, accepted: string): CalculatorError =>
  new CalculatorError('inconsistent', input, received, accepted);

/** Keeps the texts whose condition holds, in order. */
export const raisedWhere = (...pairs: readonly (readonly [boolean, string])[]): readonly string[] =>
  pairs.filter(([holds]) => holds).map(([, text]) => text);
