import type { LineCareActivity, SubstanceCode } from '@dwellward/profiles';
import type { UnansweredSentences } from './issues.js';
import type { WorkText } from './handover.js';
import type { Name, Of, When } from './common.js';

/** Titles and standing sentences of the sheet for home. */
export type HomeLabel =
  | 'title'
  | 'intro-help'
  | 'intro-shown'
  | 'intro-unit-first'
  | 'call-title'
  | 'unit-phone'
  | 'emergency-phone'
  | 'emergency-title'
  | 'broken-title'
  | 'signs-title'
  | 'late-title'
  | 'now-title'
  | 'not-now-title'
  | 'daily-title'
  | 'days-title'
  | 'day'
  | 'todo'
  | 'only-daily'
  | 'nothing'
  | 'always-title'
  | 'never-title'
  | 'bring-title'
  | 'supplies-title'
  | 'safe-side'
  | 'plan-can-change'
  | 'planned-title'
  | 'no-line'
  | 'unsure';

/** A piece of advice on the sheet. */
export type AdviceCode =
  | 'chest-hurts'
  | 'hard-to-breathe'
  | 'line-falls-out'
  | 'line-breaks'
  | 'cap-off'
  | 'needle-out'
  | 'port-red'
  | 'port-needle-is-for-staff'
  | 'dialysis-unit-only'
  | 'fever'
  | 'cold-after-flush'
  | 'red-or-fluid'
  | 'rash'
  | 'arm-or-neck-swells'
  | 'longer-or-shorter'
  | 'hard-to-flush'
  | 'dressing-wet'
  | 'wash-hands'
  | 'scrub-the-end'
  | 'keep-dry'
  | 'tape-in-a-loop'
  | 'no-forced-flush'
  | 'not-under-water'
  | 'no-cuff-on-the-arm'
  | 'no-scissors'
  | 'never-push-in'
  | 'this-sheet'
  | 'card-of-the-line'
  | 'list-of-drugs'
  | 'the-clamp'
  | 'still-needed';

/** What is done, in plain words: a part of a sentence. */
export interface HomeTaskSentences {
  readonly 'home-task': {
    readonly activity: LineCareActivity;
    readonly at: 'line' | 'incision' | 'port';
    /** The lumens it is done to, where they have names. */
    readonly tubes: readonly Name[];
  };
}

type Task = Of<HomeTaskSentences>;

/** What there is to do. */
export interface HomeTodoSentences {
  /** By a time on the clock of a day that stands beside it: `10:30`. */
  readonly 'do-by-clock': { readonly clock: string; readonly task: Task };
  readonly 'do-it': { readonly task: Task };
  readonly 'do-by-day': { readonly at: When; readonly task: Task };
  readonly 'do-late': { readonly task: Task };
  /** What staff do, on the day that stands beside it; by a time; or that is late. */
  readonly 'nurse-does': { readonly tasks: readonly Task[] };
  readonly 'nurse-does-by': { readonly tasks: readonly Task[]; readonly at: When };
  readonly 'nurse-late': { readonly tasks: readonly Task[]; readonly at?: When };
}

export interface HomeSentences extends HomeTaskSentences, HomeTodoSentences {
  readonly 'home-label': { readonly label: HomeLabel };
  readonly 'home-advice': { readonly advice: AdviceCode };
  /** Trouble on record: by what answers it, with the title of its rule where there are no plain words. */
  readonly 'call-about': { readonly activity: LineCareActivity; readonly title: string };
  /** What was found wrong and the plan has no answer to. */
  readonly 'tell-nurse': { readonly found: Of<UnansweredSentences> };
  readonly 'wait-with-this': { readonly todo: Of<HomeTodoSentences> };
  /** Something on record speaks against what it uses. */
  readonly 'ask-before-you-do': {
    readonly todo: Of<HomeTodoSentences>;
    readonly substances: readonly SubstanceCode[];
  };
  readonly 'ask-what-is-in-it': { readonly substance: SubstanceCode };
  readonly 'leave-at-home': {
    readonly activity: LineCareActivity;
    readonly tube?: Name;
    readonly until?: When;
  };
  readonly 'sheet-for': { readonly patient: string; readonly made: When };
  readonly 'your-line': { readonly name: Name };
  readonly 'line-goes-in': { readonly at?: When };
  /** Something to have at home, in the words of a family. */
  readonly 'home-supply': { readonly count: number; readonly what: WorkText };
  readonly 'home-day': { readonly at: When };
}
