import type { Ref } from '../basics.js';
import type { CodedElement } from './issues.js';

/** What was not understood of the input, and what is of other business. */
export interface UnderstandingSentences {
  readonly 'not-understood-head': { readonly resources: number; readonly kinds: number };
  /** One kind of it: an element with its code, its text, or neither. */
  readonly 'not-understood-kind': CodedElement & { readonly count: number; readonly example?: Ref };
  readonly 'not-understood-more': { readonly kinds: number };
  readonly 'no-line-found': { readonly devices: number };
  readonly 'other-business': {
    readonly counts: readonly { readonly resourceType: string; readonly count: number }[];
  };
}
