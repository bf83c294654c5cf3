import type { LumenStateCode } from '@dwellward/profiles';
import type { Citation } from '@dwellward/policy';
import type { DueItem, Hold, InstantText } from '../model/care.js';
import type { Ref } from '../model/record.js';
import type { Name, Sentence, WorkText } from '../model/sentences.js';
import type { GivenDraw, LossLimit } from '../facts/blood-loss.js';
import type {
  DrawAskSentences,
  DrawCautionSentences,
  DrawWarningSentences,
  LossSentences,
} from '../model/sentences/draw.js';
import type { LumenWhySentences } from '../model/sentences/lumens.js';
import type { DrawTest } from '../model/sentences/tubes.js';

export type { DrawTest } from '../model/sentences/tubes.js';

/** What is to be drawn, and what is known of earlier draws. */
export interface DrawOptions {
  readonly tests: readonly {
    readonly test: DrawTest;
    /** Fill volume of its tubes together, mL as decimal text; the tube says it. */
    readonly volumeMl?: string;
  }[];
  /** Lumen to draw from; may be left out where the line has one. */
  readonly lumen?: Ref;
  /**
   * Earlier draws, discards included; what was given back does not count. They stand beside the Specimens on record:
   * one that was collected within ten minutes of a draw given here is taken to be in it.
   */
  readonly draws?: readonly GivenDraw[];
  /** The unit’s limit, in percent of the blood volume; the strictest ceilings in use where left out. */
  readonly limit?: LossLimit;
}

/** One tube in its place in the order of draw. */
export interface DrawTube {
  readonly tube: Sentence<'tube'>;
  readonly tests: readonly DrawTest[];
  /** Absent where one of its volumes is not given. */
  readonly volumeMl?: string;
}

/** What sampling takes and took from the patient. */
export interface DrawLoss {
  /** Tubes, discard and drawn-off lock of this draw; absent where a volume is not known. */
  readonly thisDrawMl?: string;
  /** Where one is not known: what the known ones are together. */
  readonly leastMl?: string;
  readonly last24HoursMl: string;
  readonly last30DaysMl: string;
  readonly last8WeeksMl: string;
  /** The most that may still be drawn today; absent where no limit is kept to or it could not be worked out. */
  readonly safeTodayMl?: string;
  /** Whether this draw keeps within; absent where that is not known. */
  readonly within?: boolean;
  /** Which limit, what is not known. */
  readonly remarks: readonly Sentence<keyof LossSentences>[];
}

/** The steps of one blood draw, in order, with their volumes. */
export interface BloodDraw {
  readonly line: Ref;
  readonly patient: Ref;
  readonly lumen: { readonly ref: Ref; readonly name: Name };
  readonly at: InstantText;
  readonly rule: { readonly id: string; readonly title: string };
  /** What to ask the responsible clinician first, by allergies and problems on record. */
  readonly questions: DueItem['questions'];
  /** What has to be known before the first step: that it takes too much, that its result would be false. */
  readonly warnings: readonly Sentence<keyof DrawWarningSentences>[];
  /** None where the draw takes more than may be drawn: what to ask stands in their place. */
  readonly steps: readonly Sentence<'step'>[];
  readonly ask: readonly Sentence<keyof DrawAskSentences>[];
  readonly tubes: readonly DrawTube[];
  /** Lumens whose infusion stops, and those of which it is not known whether anything runs. */
  readonly stop: readonly { readonly ref: Ref; readonly name: Name; readonly sure: boolean }[];
  /** Other lumens that are not infusing: irrigated and clamped too. */
  readonly irrigate: readonly { readonly ref: Ref; readonly name: Name }[];
  /** Other lumens that are blocked, damaged or not to be used: nothing goes into them. */
  readonly leave: readonly {
    readonly ref: Ref;
    readonly name: Name;
    readonly state: LumenStateCode;
    readonly why: Sentence<keyof LumenWhySentences>;
  }[];
  /** mL as decimal text; absent where it could not be worked out. */
  readonly discardMl?: string;
  /** Of a dialysis catheter: the old lock that is drawn off first, mL; absent where it is not known. */
  readonly oldLockMl?: string;
  /** What stands in the way of a draw from this lumen now. */
  readonly holds: readonly Hold[];
  readonly supplies: readonly WorkText[];
  /** The most pressing first. */
  readonly cautions: readonly (WorkText | Sentence<keyof DrawCautionSentences>)[];
  readonly sources: readonly Citation[];
  readonly notes: readonly string[];
  readonly loss: DrawLoss;
}
