import type { DressingType, LineCareActivity, LineFinding } from '@dwellward/profiles';
import type { InstantText } from '../model/care.js';
import type { Ref } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';
import type { ChartingSentences } from '../model/sentences/board.js';

/** Something that was seen, felt or measured, in the kind of value that the finding has. */
export interface ChartedFinding {
  readonly finding: LineFinding;
  /** A value of the finding’s; of one with parts, a part that is there. */
  readonly value?: string;
  readonly flag?: boolean;
  /** Decimal text, in the unit of the finding. */
  readonly quantity?: string;
}

/** Care that somebody says was done, what was seen with it, or both, of one line at one moment. */
export interface Charted {
  /** Made by whoever asks, once for each act: the same id again is the same act. */
  readonly id: string;
  readonly line: Ref;
  /** The lumen, as the line’s record names it; the line where absent. */
  readonly lumen?: Ref;
  readonly activity?: LineCareActivity;
  readonly findings: readonly ChartedFinding[];
  readonly at: InstantText;
  /** Who did it, as they sign. */
  readonly by?: string;
  readonly putOn?: DressingType;
  readonly note?: string;
}

/** A question that has to be answered with yes before it is written; one that is refused has no yes. */
export interface ChartQuestion {
  readonly code: keyof ChartingSentences;
  readonly refused: boolean;
  readonly sentence: Sentence<keyof ChartingSentences>;
}
