/**
 * How sure a source is: its text was read; it was read in a secondary text; it is known from memory; or there is no
 * published one.
 */
export type SourceMark = 'seen' | 'seen-secondary' | 'from-memory' | 'common-practice';

/** Where a row of a table comes from. */
export interface TableSource {
  readonly text: string;
  readonly mark: SourceMark;
}
