import type { Ref } from './basics.js';

/** What a code is read as. */
export interface ReadAs {
  /** The table that `code` is of; `other-business`: known, and of no line. */
  readonly kind:
    | 'line-type'
    | 'line-property'
    | 'activity'
    | 'finding'
    | 'finding-value'
    | 'dressing'
    | 'securement'
    | 'charted-item'
    | 'result'
    | 'temperature'
    | 'drug'
    | 'infusate'
    | 'substance'
    | 'blood'
    | 'other-business';
  readonly code: string;
}

/**
 * What understanding a code would change, the most first: a line and all its care; when care was last done; which dressing
 * is on; what was found; what is known of the line; what runs; what was drawn; what the patient does not bear.
 */
export const concerns = [
  'line',
  'act',
  'dressing',
  'finding',
  'finding-value',
  'line-property',
  'drug',
  'blood',
  'alert',
] as const;
export type Concern = (typeof concerns)[number];

/**
 * `not-understood`: it concerns a line, and changes nothing until somebody says what it is. `passed-over`: nothing shows that
 * it concerns a line. `read`: it counts as `readAs` says.
 */
export type Standing = 'not-understood' | 'passed-over' | 'read';

/** One code, or one text that stands without a code, as a record has it at one element. */
export interface CodeSeen {
  readonly resourceType: string;
  /** FHIRPath of the element, without indices. */
  readonly path: string;
  readonly system?: string;
  readonly code?: string;
  readonly text?: string;
  readonly standing: Standing;
  readonly concern: Concern;
  readonly readAs?: ReadAs;
  /** How many resources have it, and of how many patients. */
  readonly count: number;
  readonly patients: number;
  /** True where one of them points to a line or a lumen by itself. */
  readonly onLine: boolean;
  /** Up to three of them. */
  readonly examples: readonly Ref[];
  /** Of an Observation: up to three different values that stand with it, as a person would read them. */
  readonly values: readonly string[];
}
