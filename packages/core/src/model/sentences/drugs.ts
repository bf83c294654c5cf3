import type { SubstanceCode, TableSource } from '@dwellward/profiles';
import type { RecordedTime, Ref, RunningDrug } from '../basics.js';
import type { Name, Of, Plain, WordSentences } from './common.js';

/**
 * Whether what runs may be stopped: not what keeps up the circulation, nor what harms when it stops suddenly; what is
 * not known has to be found out first.
 */
export type Stopping = 'circulation' | 'harm' | 'find-out' | 'may-stop';

/** One thing that runs. */
export interface RunningSaid {
  /** Absent where it is of the line as a whole. */
  readonly lumen?: Name;
  /** Absent where the record does not tell what it is. */
  readonly drug?: RunningDrug;
  /** It has neither an end nor the status of one that runs. */
  readonly unsure?: true;
  readonly stopping: Stopping;
}

/** What to do about something that runs where nothing should: the same wherever it is said. */
export interface WhatRunsSentences {
  readonly 'what-runs': {
    readonly running: readonly RunningSaid[];
    /** What may be stopped is stopped now; or unless there is a reason, which is then said; or for a blood draw. */
    readonly stop: 'now' | 'or-say-why' | 'for-draw';
  };
}

/** What stands on top of a line. */
export interface WarningSentences {
  readonly 'warning-against-hold': {
    readonly lumens: readonly Name[];
    readonly rest: Of<WhatRunsSentences>;
  };
  /** What harms tissue that it leaks into runs through a line whose tip lies in a small vein. */
  readonly 'vesicant-in-small-vein': {
    readonly running: readonly RunningSaid[];
    readonly sources: readonly TableSource[];
  };
  /** Heparin of the last 24 hours as far as it is on record; what has no amount is not in the sum. */
  readonly 'heparin-of-day': {
    readonly doses: number;
    readonly units: string;
    readonly unitsPerKg?: string;
    readonly limitUnitsPerKg?: string;
    readonly limitCheck: 'within' | 'above' | 'not-checked';
    readonly unknown: number;
  };
  /** An error of ours; `reason` in its own words. */
  readonly 'care-not-computed': { readonly reason: Of<Pick<WordSentences, 'outside-text'>> };
  /** Something runs while it is still asked for where the tip lies. */
  readonly 'runs-before-tip-is-confirmed': { readonly running: readonly RunningSaid[] };
}

/** What is asked of the responsible clinician before something is used. */
export interface QuestionSentences {
  readonly 'may-it-be-used': {
    readonly substance: SubstanceCode;
    readonly entry: {
      readonly ref: Ref;
      readonly kind: 'allergy' | 'problem' | 'flag';
      readonly sure: boolean;
      readonly text?: string;
      readonly at?: RecordedTime;
      readonly over?: true;
    };
    /** Whether something of the work is left out until it is answered. */
    readonly withheld: boolean;
  };
}

/** The same in short, where it stands in full above. */
export interface ShortQuestionSentences {
  readonly 'ask-first-of': { readonly substances: readonly SubstanceCode[] };
}

/** What is not read, and so stands behind no item: said once in every output. */
export interface NotReadSentences {
  readonly 'not-read': Plain;
}

export interface DrugSentences
  extends WhatRunsSentences, WarningSentences, QuestionSentences, ShortQuestionSentences, NotReadSentences {}
