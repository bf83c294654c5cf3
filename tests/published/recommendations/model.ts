/** What the product makes of a recommendation. */
export type Answer =
  /** `check` throws where it is no longer so. */
  | { readonly is: 'kept'; readonly by: readonly string[]; readonly check: () => void }
  | { readonly is: 'not-computable'; readonly why: string }
  /** Comes with a later part of the product. */
  | { readonly is: 'later'; readonly part: string }
  | { readonly is: 'missing'; readonly what: string };

/** `seen` was read in the source, `reported` in another text, `from memory` was not read. */
export type Mark = 'seen' | 'reported' | 'from memory';

/** One numbered recommendation of a source. */
export interface Recommendation {
  readonly source: string;
  readonly number: number;
  readonly text: string;
  readonly mark: Mark;
  readonly answer: Answer;
}

/** A source’s recommendations in its own order: what each says, and what is made of it. */
export function recommendationsOf(
  source: string,
  mark: Mark,
  rows: readonly (readonly [text: string, answer: Answer, mark?: Mark])[],
): Recommendation[] {
  return rows.map(([text, answer, own], index) => ({
    source,
    number: index + 1,
    text,
    mark: own ?? mark,
    answer,
  }));
}

/** Kept by these rules, layers, calculators or code, as the check shows. */
export const kept = (by: string | readonly string[], check: () => void): Answer => ({
  is: 'kept',
  by: typeof by === 'string' ? [by] : by,
  check,
});
export const notComputable = (why: string): Answer => ({ is: 'not-computable', why });
export const later = (part: string): Answer => ({ is: 'later', part });
export const missing = (what: string): Answer => ({ is: 'missing', what });
