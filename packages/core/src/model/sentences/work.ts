import type { ComputedInput } from '@dwellward/policy';
import type { RecordedTime } from '../basics.js';
import type { DrawPartSentences, TubeCode } from './tubes.js';
import type { ReadingSentences } from './remarks.js';
import type { WhatRunsSentences } from './drugs.js';
import type { Of, Plain, When, WordSentences } from './common.js';

/** What an item's work says: amounts, steps, and what to mind. */
export interface WorkSentences {
  readonly 'flush-with': { readonly ml: string };
  readonly 'lock-with': { readonly ml: string };
  readonly 'syringe-no-narrower-than': { readonly ml: string };
  readonly 'alteplase-if-ordered': { readonly mg: string; readonly ml: string };
  readonly 'not-worked-out': { readonly what: ComputedInput | 'discard-volume'; readonly reason: Reason };
  readonly 'no-dose-no-further': { readonly reason: Reason };
  /** The policy's own text, with what is worked out for it in its place. */
  readonly step: { readonly parts: readonly (string | StepPart)[] };
  readonly 'add-ons-not-counted': Plain;
  readonly 'no-overfill': Plain;
  readonly 'dose-is-for-weight': { readonly kg: string; readonly measured: RecordedTime };
  readonly 'second-and-last-dose': { readonly firstAt: When };
}

/** Why an amount could not be worked out: parts of a sentence, without a full stop. */
export interface ReasonSentences {
  readonly 'lumen-not-on-record': Plain;
  readonly 'priming-volume-not-on-record': Plain;
  /** More than any lumen holds. */
  readonly 'priming-volume-not-believed': { readonly ml: string };
  readonly 'weight-not-exact': Plain;
  readonly 'dose-needs-lumen-volume': Plain;
  readonly 'doses-already-given': { readonly count: number };
  /** An allergy or a problem speaks against what it is the amount of. */
  readonly 'ask-first': Plain;
  /** What is the least all the same, where the rest is not known. */
  readonly 'at-least': { readonly ml: string; readonly reason: Reason };
}

/** Why there is no amount: in our words, or in those of the calculator that refused. */
export type Reason = Of<ReasonSentences & Pick<WordSentences, 'calculator-text'>>;

/** What stands in a step where it names a calculated value. */
export interface CalculatedSentences {
  readonly 'dose-in-volume': { readonly mg: string; readonly ml: string };
  readonly 'cannot-be-worked-out': { readonly what: 'volume' | 'dose'; readonly reason: Reason };
  /** What is withdrawn from a treated lumen; in a child with what may still be drawn today, where that is known. */
  readonly 'volume-between': {
    readonly leastMl: string;
    readonly mostMl: string;
    readonly loss?: { readonly safeTodayMl?: string; readonly within?: boolean };
  };
  /** What an old lock fills; absent where no volume of the lumen is on record. */
  readonly 'old-lock': { readonly ml?: string; readonly printed: boolean };
  /** What is put in fills the lumen and no more. */
  readonly 'printed-volume': { readonly ml: string };
  readonly 'withdrawal-by-weight': Plain;
  readonly 'discard-volumes': { readonly generalMl: string; readonly coagulationMl: string };
  readonly 'order-of-draw': { readonly tubes: readonly TubeCode[] };
  readonly 'every-idle-lumen': Plain;
}

/** A calculated value in a step. */
export type StepPart = Of<
  CalculatedSentences &
    DrawPartSentences &
    ReadingSentences &
    WhatRunsSentences &
    Pick<WordSentences, 'amount'>
>;

/** A rule that forbids what was done all the same. */
export interface ForbiddenBy {
  readonly title: string;
  readonly id: string;
}
