import type { QuantityRange } from '@dwellward/policy';
import type { DressingType, LineCareActivity, LineFinding } from '@dwellward/profiles';
import type { ClosedBecause, Name, Plain, When } from './common.js';

/** What is asked, or refused, before care is charted. */
export interface ChartingSentences {
  /** What is charted is held; `until` is absent where something has to be found or done for it to end. */
  readonly 'charts-against-hold': {
    readonly activity: LineCareActivity;
    readonly on: Name;
    readonly title: string;
    readonly until?: When;
  };
  readonly 'charts-of-closed-line': { readonly because: ClosedBecause; readonly at?: When };
  readonly 'charts-before-insertion': { readonly at: When; readonly insertedAt: When };
  readonly 'charts-in-future': { readonly at: When; readonly now: When };
  readonly 'charts-twice': { readonly activity: LineCareActivity; readonly on: Name; readonly at: When };
  readonly 'charts-on-no-lumen': { readonly activity: LineCareActivity };
  readonly 'charts-on-unknown': Plain;
  /** An error of ours keeps the care of the line, and its holds, from being worked out. */
  readonly 'charts-against-unknown': Plain;
  /** The record only counts its lumens: nothing can be written of one of them. */
  readonly 'charts-on-counted-lumen': { readonly on: Name };
  readonly 'charts-of-others': Plain;
}

/** What stands on a page beside what every output says. */
export interface BoardSentences {
  readonly 'dressing-is': { readonly dressing: DressingType };
  /** A finding with its values, as an event or as a trouble. */
  readonly 'finding-with': {
    readonly finding: LineFinding;
    readonly values: readonly string[];
    readonly flag?: boolean;
    readonly quantity?: QuantityRange;
  };
  /** A shift by its hours, with what falls due in it. */
  readonly 'shift-band': {
    readonly runs: boolean;
    readonly from: When;
    readonly until: When;
    readonly items: number;
  };
  /** How a window of care ended; `at` where it was done. */
  readonly 'window-ended': {
    readonly activity: LineCareActivity;
    readonly outcome: 'on-time' | 'late' | 'missed' | 'held';
    readonly dueBy: When;
    readonly at?: When;
  };
  /** One value of a finding, or one of its parts, as it is chosen from a list. */
  readonly 'finding-value': { readonly finding: LineFinding; readonly value: string };
}
