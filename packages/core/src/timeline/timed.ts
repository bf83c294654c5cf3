import type { RecordedTime, Ref } from '../model/record.js';

/** A fact of the record with its place in time. `ms` is the start of a date, `latestMs` its end. */
export interface Timed<Fact> {
  readonly fact: Fact;
  readonly ms: number;
  readonly latestMs: number;
  readonly imprecise?: RecordedTime;
  /** The same event under other references: it was charted more than once. */
  readonly twins?: readonly Ref[];
}
