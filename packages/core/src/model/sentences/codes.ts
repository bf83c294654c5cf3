import type { CodeSeen, Standing } from '../codes.js';

/** The codes of a record, for whoever says what they mean. */
export interface CodeSentences {
  readonly 'codes-head': { readonly standing: Standing; readonly codes: number };
  readonly 'code-seen': { readonly seen: CodeSeen };
  readonly 'code-values': { readonly values: readonly string[] };
  readonly 'codes-left-out': { readonly standing: Standing; readonly codes: number };
  readonly 'codes-next': { readonly unclear: number };
}
