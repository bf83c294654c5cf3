import type { FactName, Facts } from './facts.js';

/** The answer of a condition. Unknown names the facts that would have decided it. */
export type Truth =
  | { readonly is: 'true' }
  | { readonly is: 'false' }
  | { readonly is: 'unknown'; readonly missing: readonly FactName[] };

/** A compiled applicability condition over the facts. */
export interface Condition {
  /** The FHIRPath text, several joined by ` and `; empty where the rule always holds. */
  readonly text: string;
  readonly uses: readonly FactName[];
  /** How it is evaluated: by a plain closure, or by the reference FHIRPath engine. */
  readonly via: 'closure' | 'engine';
  evaluate(facts: Facts): Truth;
}
