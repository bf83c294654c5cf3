import type { LineCareActivity, LineFinding, LineType, LumenStateCode } from '@dwellward/profiles';
import type { FactName, LoosenedRule } from '@dwellward/policy';
import type { CountedFrom, RecordedTime, Ref } from '../basics.js';
import type { IssueSentences } from './issues.js';
import type { LumenWhySentences } from './lumens.js';
import type { ConditionSentences } from './pages.js';
import type { ReadingSentences, RemarkSentences } from './remarks.js';
import type { ClosedBecause, Name, Of, Plain, Scheduled, When } from './common.js';

/** Everything that an item says beyond its window. */
export type Remark = Of<RemarkSentences & ReadingSentences>;

/** What every output of several lines says. */
export interface OutputSentences {
  readonly 'advice-not-order': Plain;
  /** A rule of a published source that the policy loosened or switched off. */
  readonly 'asks-for-less': { readonly rule: LoosenedRule };
  /** How it does, a part of a sentence: only what differs. */
  readonly 'how-much-less': Pick<LoosenedRule, 'published' | 'now'>;
  readonly 'line-with': {
    readonly name: Name;
    readonly line: Ref;
    readonly type?: LineType;
    /** Said where there are several. */
    readonly lumens: number;
    readonly plannedFor?: When;
    readonly repairs?: readonly { readonly at: When; readonly lumen?: Name }[];
  };
  readonly 'name-not-known': Plain;
  /** An activity with what it is done to. */
  readonly 'activity-on': { readonly activity: LineCareActivity; readonly targets: readonly Name[] };
  readonly 'rule-and-schedule': { readonly title: string; readonly schedule: Scheduled };
  readonly 'closed-because': { readonly because: ClosedBecause };
}

/** The table of due care. */
export interface TableSentences {
  readonly 'table-head': { readonly at: When; readonly zone: string };
  readonly 'table-counts': {
    readonly lines: number;
    readonly planned: number;
    readonly patients: number;
    readonly emergencies: number;
    readonly overdue: number;
    readonly due: number;
    readonly held: number;
    readonly upcoming: number;
  };
  readonly 'line-not-in-place': { readonly name: Name; readonly line: Ref; readonly because: ClosedBecause };
  readonly 'things-to-put-right': { readonly count: number };
  readonly 'patient-not-given': Plain;
  /** The latest time of something in a row that has an earlier one. */
  readonly 'by-time': { readonly at: When };
  /** `how`: the option that shows them, where there is one. */
  readonly 'open-later': { readonly count: number; readonly how?: string };
  /** Holds of one target and one end; where many rules say one thing, what they all follow instead of their titles. */
  readonly 'holds-together': {
    readonly activities: readonly LineCareActivity[];
    readonly on?: Name;
    readonly until?: When;
    readonly after?: LineCareActivity;
    /** What is to be found for it to end. */
    readonly findings: readonly LineFinding[];
    readonly titles: readonly string[];
  };
  readonly 'result-is': { readonly fact: FactName; readonly value: string };
}

/** What an interval counts from. */
export interface CountedFromText {
  readonly basis: CountedFrom['basis'];
  readonly ref?: Ref;
  readonly at?: When;
  readonly imprecise?: RecordedTime;
}

/** Why an item is due, and what would change it. */
export interface ExplainSentences {
  readonly 'item-is-due': {
    readonly title: string;
    readonly schedule: Scheduled;
    readonly countedFrom: CountedFromText;
    readonly movedBy: readonly Ref[];
    readonly dueBy: When;
    readonly remarks: readonly Remark[];
    readonly source?: string;
  };
  readonly 'counted-from': CountedFromText;
  readonly 'done-it-is-met': { readonly activity: LineCareActivity; readonly target: Name };
  /** What would be asked without a rule: by the next one, or nothing. */
  readonly 'without-the-rule': {
    readonly title: string;
    /** Absent of a rule that always applies. */
    readonly condition?: Of<ConditionSentences>;
    readonly next?: { readonly title: string; readonly dueBy: When };
  };
  readonly 'would-come-in': {
    readonly title: string;
    readonly condition?: Of<ConditionSentences>;
    readonly schedule: Scheduled;
  };
  readonly 'when-the-hold-ends': { readonly title: string };
}

/** What resources of FHIR say to people. */
export interface FhirSentences {
  readonly 'held-by': { readonly title: string };
  readonly 'activity-at': { readonly activity: LineCareActivity; readonly target: Name };
  readonly 'flag-of-hold': {
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly title: string;
  };
  readonly 'flag-of-lumen': {
    readonly state: LumenStateCode;
    readonly name: Name;
    readonly why: Of<LumenWhySentences>;
  };
  readonly 'issue-at': { readonly resource: Ref; readonly path: string; readonly issue: Of<IssueSentences> };
  readonly 'worked-out': Plain;
  /** Of a Task that a person has taken and that nothing asks for any more. */
  readonly 'nobody-asks': Plain;
}

/** What the answer to `$apply` says. */
export interface ApplySentences {
  readonly 'line-care': Plain;
  readonly 'proposals-not-orders': Plain;
  readonly proposed: {
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly others: readonly { readonly title: string; readonly dueBy: When }[];
  };
  readonly 'no-line-of-subject': Plain;
  readonly 'held-back': {
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly until?: When;
    readonly title: string;
  };
  readonly 'line-is-not-in-place': { readonly line: Ref; readonly because: ClosedBecause };
  readonly 'lines-to-put-right': { readonly count: number };
}
