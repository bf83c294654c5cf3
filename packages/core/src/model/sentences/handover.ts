import type { LineCareActivity } from '@dwellward/profiles';
import type { Priority } from '@dwellward/policy';
import type { RecordedTime, Ref } from '../basics.js';
import type { IssueSentences } from './issues.js';
import type { ClosedBecause } from './common.js';
import type { Remark } from './outputs.js';
import type { DrugSentences } from './drugs.js';
import type { WorkSentences } from './work.js';
import type { Name, Of, Plain, Scheduled, When, WordSentences } from './common.js';

/** What a work input says. */
export type WorkText = Of<
  WorkSentences &
    Pick<WordSentences, 'policy-text' | 'calculator-text'> &
    Pick<DrugSentences, 'heparin-of-day'>
>;

/** The headings of a hand-over. */
export type HandoverSection =
  'emergencies' | 'lumens' | 'overdue' | 'due' | 'held' | 'early' | 'done' | 'mind' | 'take' | 'take-for-all';

/** Whether what was done was done in time. */
export type DoneInTime =
  | { readonly is: 'on-time' | 'not-asked-for' }
  | { readonly is: 'late'; readonly dueBy: When; readonly byMinutes: number }
  | {
      readonly is: 'not-known';
      readonly dueBy: When;
      readonly because: 'no-exact-time' | 'first-on-record';
    };

/** What is wrong in the record, or not known. */
export interface WarningSentences {
  readonly 'in-the-record': { readonly issue: Of<IssueSentences>; readonly resource: Ref };
  readonly 'read-protectively': {
    readonly activities: readonly LineCareActivity[];
    readonly remark: Remark;
  };
}

/** What is to be taken, and what could not be worked out of it. */
export interface SupplySentences {
  readonly 'count-of': { readonly count: number; readonly what: WorkText };
  readonly 'count-of-syringes': {
    readonly count: number;
    readonly sizeMl: string;
    readonly where: 'unit' | 'home';
  };
  readonly 'volumes-for-lumen': {
    readonly name: Name;
    readonly line: Ref;
    readonly flushMl: string;
    readonly flushes: number;
    readonly lockMl: string;
    readonly locks: number;
  };
  readonly 'volumes-in-all': { readonly flushMl: string; readonly lockMl: string };
  readonly 'missing-for': { readonly target: Name; readonly caution: WorkText };
  readonly 'nothing-to-take': Plain;
  readonly 'together-fewer': Plain;
}

export interface HandoverSentences extends WarningSentences, SupplySentences {
  readonly 'handover-head': { readonly from: When; readonly to: When; readonly zone: string };
  readonly 'shift-before-began': { readonly at: When };
  readonly 'handover-counts': {
    readonly patients: number;
    readonly lines: number;
    readonly overdue: number;
    readonly missed: number;
    readonly due: number;
    readonly held: number;
  };
  readonly 'handover-section': { readonly section: HandoverSection };
  readonly 'emergency-of': {
    readonly bed?: string;
    readonly patient: string;
    readonly line: Name;
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly title: string;
  };
  readonly 'unit-not-on-record': { readonly patients: readonly Ref[] };
  readonly 'mind-that': { readonly warning: Of<WarningSentences> };
  readonly 'open-and-expected': Plain;
  readonly 'nothing-due-in-shift': Plain;
  readonly 'not-in-place': { readonly because: ClosedBecause };
  readonly 'not-in-yet': { readonly plannedFor: When };
  readonly 'shift-item': {
    readonly priority: Priority;
    readonly activity: LineCareActivity;
    readonly targets: readonly Name[];
    readonly expected: boolean;
    readonly missed: boolean;
  };
  readonly 'can-be-early': {
    readonly items: readonly {
      readonly activity: LineCareActivity;
      readonly target: Name;
      readonly dueBy: When;
    }[];
  };
  readonly 'was-done': {
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly at: When;
    /** As recorded, where the record gives no exact time. */
    readonly imprecise?: RecordedTime;
    readonly timing: DoneInTime;
  };
}

/** What a calendar of due care says. */
export interface FeedSentences {
  readonly 'feed-summary': {
    readonly urgency?: 'emergency' | 'overdue';
    readonly held: boolean;
    readonly patient?: string;
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly line?: Name;
  };
  readonly 'feed-description': {
    readonly title: string;
    readonly schedule: Scheduled;
    readonly dueBy: When;
    readonly zone: string;
    /** The hold that it waits for. */
    readonly held?: string;
  };
  readonly 'may-be-done-from-now': { readonly summary: string };
  /** At which hours of the day the calendar rings. */
  readonly 'alarms-at': { readonly from: string; readonly to: string };
  readonly 'due-soon': { readonly summary: string };
  readonly 'no-longer-open': Plain;
}
