import type { LumenStateCode } from '@dwellward/profiles';
import type { Ref } from '../basics.js';
import type { DrawPartSentences, DrawTest, TubeSentences } from './tubes.js';
import type { LumenWhySentences } from './lumens.js';
import type { ClosedBecause } from './common.js';
import type { Name, Of, Plain, When, WordSentences } from './common.js';

/** What has to be known before the first step of a draw. */
export interface DrawWarningSentences {
  readonly 'draw-above-limit': {
    readonly thisDrawMl: string;
    readonly safeTodayMl: string;
    /** Not every volume is known: it takes at least this. */
    readonly atLeast: boolean;
  };
  readonly 'no-push-pull-for-coagulation': Plain;
  readonly 'no-push-pull-for-level': Plain;
  /** A child in whom one cycle is too much against the blood volume, or it is not known. */
  readonly 'no-push-pull-for-child': { readonly cycleMl?: string; readonly mostMl?: string };
  /** With what the draw takes without its discard, and whether that keeps within; of a child with its own cycle. */
  readonly 'push-pull-instead': {
    readonly cycleMl: string;
    readonly child: boolean;
    readonly without?: { readonly ml: string; readonly within: boolean };
  };
  /** A child whose limit could not be worked out. */
  readonly 'child-without-limit': Plain;
  readonly 'draw-from-unknown-type': Plain;
  readonly 'drug-may-be-in-lumen': { readonly lumen: Name };
}

/** What to ask where a draw takes more than may be drawn. */
export interface DrawAskSentences {
  readonly 'ask-which-can-wait': {
    readonly tubes: readonly {
      readonly tube: Of<TubeSentences>;
      readonly tests: readonly DrawTest[];
      readonly volumeMl?: string;
    }[];
  };
  readonly 'ask-for-smaller-tubes': Plain;
  readonly 'ask-another-way': Plain;
  readonly 'then-ask-again': Plain;
}

/** What falsifies a sample, and what else to mind. */
export interface DrawCautionSentences {
  readonly 'heparin-falsifies': { readonly tests: readonly DrawTest[] };
  readonly 'level-of-a-given-drug': Plain;
  readonly 'discard-before-coagulation': Plain;
  readonly 'lumen-is-sluggish': { readonly why: Of<LumenWhySentences> };
}

/** Which limit of blood loss was taken, and what is not known. */
export interface LossSentences {
  readonly 'volumes-without-discards': Plain;
  readonly 'draws-of-unknown-volume': { readonly count: number };
  /** What was withdrawn after a blocked lumen was opened. */
  readonly 'withdrawals-counted': { readonly count: number };
  readonly 'fill-volume-not-given': { readonly tests: readonly DrawTest[] };
  readonly 'discard-not-worked-out': Plain;
  readonly 'no-limit-without-age': Plain;
  readonly 'no-limit-without-weight': Plain;
  readonly 'strictest-limit-taken': Plain;
  readonly 'limit-not-worked-out': { readonly reason: Of<Pick<WordSentences, 'calculator-text'>> };
  readonly 'planned-above-safe': Plain;
  readonly 'nothing-left-today': Plain;
}

/** A lumen by its name and its Device. */
export interface NamedLumen {
  readonly name: Name;
  readonly ref: Ref;
}

/** Why nothing was worked out. */
export interface RefusalSentences {
  readonly 'no-test-named': Plain;
  readonly 'no-steps-of-a-draw': Plain;
  readonly 'no-steps-of-a-repair': Plain;
  readonly 'say-which-lumen': { readonly line: Ref; readonly lumens: readonly NamedLumen[] };
  readonly 'say-which-damaged-lumen': { readonly line: Ref; readonly lumens: readonly NamedLumen[] };
  readonly 'no-such-lumen': {
    readonly line: Ref;
    readonly given: Ref;
    readonly lumens: readonly NamedLumen[];
  };
  readonly 'no-draw-from-line': { readonly line: Ref; readonly because: ClosedBecause };
  readonly 'no-draw-from-lumen': {
    readonly lumen: NamedLumen;
    readonly state: LumenStateCode;
    readonly since?: When;
    /** Holds on the draw itself say more than what else is held. */
    readonly holds: readonly { readonly title: string; readonly until?: When }[];
    readonly why: readonly Of<LumenWhySentences>[];
    readonly others: readonly NamedLumen[];
  };
}

/** The page of a draw. */
export interface DrawPageSentences {
  readonly 'draw-head': {
    readonly name: Name;
    readonly line: Ref;
    readonly lumen: Name;
    readonly patient: Ref;
    readonly at: When;
  };
  readonly 'hold-by-title': { readonly title: string; readonly until?: When };
  readonly 'this-draw-takes': { readonly ml?: string; readonly leastMl?: string };
  readonly 'lost-before': {
    readonly last24HoursMl: string;
    readonly last30DaysMl: string;
    readonly last8WeeksMl: string;
  };
  readonly 'may-still-be-drawn': { readonly ml: string; readonly within?: boolean };
}

export interface DrawSentences
  extends
    TubeSentences,
    DrawPartSentences,
    DrawWarningSentences,
    DrawAskSentences,
    DrawCautionSentences,
    LossSentences,
    RefusalSentences,
    DrawPageSentences {}
