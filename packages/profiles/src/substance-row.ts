import type { TableSource } from './source.js';

/** What care of a line uses that a patient may not stand. A column that is absent has none. */
export interface SubstanceRow {
  readonly display: string;
  readonly definition: string;
  /** SNOMED CT: the substance itself, and findings of an allergy to it. */
  readonly snomed?: readonly string[];
  /** ATC codes, or the beginning that a group of them shares. */
  readonly atc?: readonly string[];
  /** RxNorm ingredients. */
  readonly rxnorm?: readonly string[];
  /** Problems with which it must not be given. */
  readonly problems?: {
    readonly snomed?: readonly string[];
    /** ICD-10-CM: a code, or the beginning that a group of them shares. */
    readonly icd10cm?: readonly string[];
    readonly icd9cm?: readonly string[];
    readonly hpo?: readonly string[];
    readonly words?: readonly string[];
  };
  /**
   * How its name, or that of a product of its kind, begins in a text, in lower case; in capitals where only capitals
   * mean it. A reason to ask, never to decide.
   */
  readonly words: readonly string[];
  readonly sources: readonly TableSource[];
}
