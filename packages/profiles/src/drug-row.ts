import type { Infusate } from './codes.js';
import type { TableSource } from './source.js';

/**
 * What happens when it stops suddenly: the circulation, which it keeps up, may fail; or it harms in another way. Either
 * is never just stopped.
 */
export type IfStopped = 'circulation' | 'harm';

/** What it does to tissue that it leaks into. */
export type InTissue = 'vesicant' | 'irritant';

/** What the engine must know of a drug that runs through a line. A column that is absent says no. */
export interface DrugRow {
  /** Its international nonproprietary name, or that of its group. */
  readonly display: string;
  /** ATC codes, or the beginning that a group of them shares: of all rows the longest that fits decides. */
  readonly atc?: readonly string[];
  /** RxNorm ingredients. */
  readonly rxnorm?: readonly string[];
  /** SNOMED CT substances. */
  readonly snomed?: readonly string[];
  /** How its name begins, in lower case, in the languages of the records seen: a reason to ask, never to decide. */
  readonly words?: readonly string[];
  readonly ifStopped?: IfStopped;
  readonly inTissue?: InTissue;
  /** What it is to the rules on administration sets. */
  readonly infusate?: Infusate;
  /** Where the codes, and what is said of it, come from. */
  readonly sources: readonly TableSource[];
}
