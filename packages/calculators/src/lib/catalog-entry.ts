import type { Card, Result } from './calculator.js';
import type { Specs } from './input.js';

/** A calculator as data and function: enough for a help page, a form or a command. */
export interface CatalogEntry {
  readonly name: string;
  /** The folder it stands in: `geometry`, `flush`, ... */
  readonly group: string;
  readonly title: string;
  readonly formula: string;
  /** The unit of `value`. */
  readonly unit: string;
  readonly source: string;
  /** The cautions that come with every result. */
  readonly cautions: readonly string[];
  /** When accepted inputs are refused together. */
  readonly refuses: readonly string[];
  /** What each input is, with unit and range. */
  readonly inputs: Specs;
  /**
   * Checks the input and computes.
   *
   * @throws CalculatorError where the input is not accepted, whatever it is
   */
  readonly run: (input: unknown) => Result<string | number>;
}

// Nothing is built until asked for: importing the catalog costs no more than its code.
export const entry = (
  group: string,
  card: () => Card,
  run: (input: never) => Result<string | number>,
): CatalogEntry => ({
  group,
  // Every calculator checks whatever it is given, so the narrower type of its argument may be dropped here.
  run: run as CatalogEntry['run'],
  get name() {
    return card().name;
  },
  get title() {
    return card().title;
  },
  get formula() {
    return card().formula;
  },
  get unit() {
    return card().unit;
  },
  get source() {
    return card().source;
  },
  get cautions() {
    return card().cautions;
  },
  get refuses() {
    return card().refuses ?? [];
  },
  get inputs() {
    return card().inputs;
  },
});
