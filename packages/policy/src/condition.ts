import type { LineCareActivity, LineFinding } from '@dwellward/profiles';
import type { FactName, Facts } from './facts.js';

/** The answer of a condition. Unknown names the facts that would have decided it. */
export type Truth =
  | { readonly is: 'true' }
  | { readonly is: 'false' }
  | { readonly is: 'unknown'; readonly missing: readonly FactName[] };

/** What a condition is for: `start` and `stop` stand beside a trigger. */
export type ConditionKind = 'applicability' | 'start' | 'stop';

/** One thing that ends a rule since it began: something is found, the activity is done, or what was found is put right. */
export type Ending =
  | { readonly found: LineFinding; readonly value?: string }
  | { readonly done: LineCareActivity }
  | { readonly answered: true };

/** A compiled condition over the facts. */
export interface Condition {
  /** The FHIRPath text as it is written, several joined by ` and `; empty where it is always true. */
  readonly text: string;
  /** The same with every named expression written out: two conditions that mean the same have the same. */
  readonly meaning: string;
  readonly uses: readonly FactName[];
  /** How it is evaluated: by a plain closure, or by the reference FHIRPath engine. */
  readonly via: 'closure' | 'engine';
  /** Of a stop condition that is nothing but this: any one of these ends the rule. */
  readonly ends?: readonly Ending[];
  evaluate(facts: Facts): Truth;
}
