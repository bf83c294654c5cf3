import type { LineCareActivity, LineType, RecordIssueCode } from '@dwellward/profiles';
import type { Priority, Rule } from '@dwellward/policy';
import type { DueItem, Hold, InstantText, LineCare, LumenState, Target } from '../model/care.js';
import type { NotUnderstood, RecordedTime, RecordIssue, Ref } from '../model/record.js';
import type { Name, Remark, Sentence } from '../model/sentences.js';

/** A shift: from its first moment on, up to but without its last. */
export interface Shift {
  /** Instant with offset, ISO 8601. Due care must have been worked out for this moment. */
  readonly from: string;
  /** Instant with offset, ISO 8601, later than `from`. */
  readonly to: string;
  /** IANA zone of the unit. */
  readonly zone: string;
  /** Start of the shift before; a shift of the same length where absent. */
  readonly previousFrom?: string;
}

/** Whose hand-over it is; everybody's where neither is given. */
export interface HandoverOf {
  /** The unit's name as the record has it; capitals do not matter. */
  readonly unit?: string;
  readonly patient?: Ref;
}

/** Care of the shift. */
export interface ShiftItem {
  /**
   * `open`: the item is open when the shift begins.
   * `expected`: it is not open yet. It follows if the open one is done on time, or if nothing new is charted.
   */
  readonly kind: 'open' | 'expected';
  /** The open item; of an expected one that follows another, the item that it follows. */
  readonly id: string;
  /** 0 for the item itself; 1 for the next time after it, and so on. */
  readonly nth: number;
  readonly activity: LineCareActivity;
  readonly line: Ref;
  readonly patient: Ref;
  readonly target: Target;
  readonly rule: Rule;
  readonly priority: Priority;
  readonly opens: InstantText;
  readonly dueBy: InstantText;
  readonly heldBy?: Hold;
  /** The visit that an open item is done in. */
  readonly visit?: string;
  readonly work: DueItem['work'];
  readonly questions: DueItem['questions'];
  readonly remarks: DueItem['remarks'];
}

/** Whether what was done was done in time. */
export type Timing =
  | { readonly is: 'on-time'; readonly dueBy: InstantText }
  /** Late by so many minutes, rounded down; of an event with no exact time, at least so many. */
  | { readonly is: 'late'; readonly dueBy: InstantText; readonly byMinutes: number }
  /**
   * `no-exact-time`: the item fell due within what the recorded time may mean. `first-on-record`: it is the first time
   * on record, after `dueBy` as counted from the insertion; earlier ones may have been charted elsewhere.
   */
  | {
      readonly is: 'not-known';
      readonly dueBy: InstantText;
      readonly because: 'no-exact-time' | 'first-on-record';
    }
  /** No rule asked for it at that time. */
  | { readonly is: 'not-asked-for' };

/** What was done in the shift before. */
export interface DoneItem {
  readonly activity: LineCareActivity;
  readonly target: Target;
  readonly by: Ref;
  readonly at: InstantText;
  /** As recorded, where the record gives no exact time: it may have been done outside of the shift. */
  readonly imprecise?: RecordedTime;
  readonly timing: Timing;
}

/** A contradiction in the record, or a protective reading that was taken because something is not known. */
export type HandoverWarning =
  | {
      readonly kind: 'record';
      readonly code: RecordIssueCode;
      readonly severity: 'high' | 'moderate' | 'low';
      readonly resource: Ref;
      readonly text: RecordIssue['sentence'];
    }
  | {
      readonly kind: 'reading';
      readonly text: Remark;
      readonly activities: readonly LineCareActivity[];
    };

/** How many of one supply, worded as the policy words it. */
export interface SupplyCount {
  readonly text: DueItem['work'][number]['text'];
  readonly count: number;
}

/** Volumes for one lumen over the shift, in decimal text, mL. */
export interface LumenVolumes {
  readonly line: Ref;
  readonly lumen: Ref;
  readonly name: Name;
  readonly flushMl: string;
  readonly flushes: number;
  readonly lockMl: string;
  readonly locks: number;
}

/**
 * What to take. It is the sum over every item that is overdue, due or expected in the shift, each counted for itself:
 * what is done together needs fewer. A hold that ends with an event is counted too.
 */
export interface Supplies {
  readonly counts: readonly SupplyCount[];
  /** Syringes by their least nominal size, mL. */
  readonly syringes: readonly { readonly sizeMl: string; readonly count: number }[];
  readonly lumens: readonly LumenVolumes[];
  readonly flushMl: string;
  readonly lockMl: string;
  /** Volumes that could not be worked out, and why; they are missing from the sums. */
  readonly notWorkedOut: readonly Sentence<'missing-for'>[];
}

/** One line over the shift. Lists are in the order of time, emergencies first. */
export interface LineHandover {
  readonly line: Ref;
  readonly name: Name;
  readonly type?: LineType;
  readonly lumens: number;
  /** Why it is not in place any more; absent where it is. */
  readonly closed?: NonNullable<LineCare['closed']>;
  readonly plannedFor?: InstantText;
  /** Open, and its latest time had passed when the shift began. */
  readonly overdue: readonly ShiftItem[];
  /** Due in the shift: open items, and the ones that are expected to follow. */
  readonly due: readonly ShiftItem[];
  /** Held until something is done: no time can be given. */
  readonly held: readonly ShiftItem[];
  /** May be done in the shift, but is due only after it. */
  readonly early: readonly ShiftItem[];
  readonly done: readonly DoneItem[];
  /** Fell due in the shift before and is still open: a part of `overdue`. */
  readonly missed: readonly ShiftItem[];
  readonly holds: readonly Hold[];
  /** What each lumen is like when the shift begins. */
  readonly lumenStates: readonly LumenState[];
  /** What has to be known before anything is done to the line. */
  readonly onTop: LineCare['warnings'];
  /** What was found wrong and no rule of the policy answers. */
  readonly unanswered: readonly Sentence<'finding-unanswered'>[];
  readonly warnings: readonly HandoverWarning[];
  readonly supplies: Supplies;
}

/** One patient over the shift. */
export interface PatientHandover {
  readonly patient: Ref;
  readonly name?: string;
  readonly unit?: string;
  readonly bed?: string;
  /** True where any line has an emergency. */
  readonly emergency: boolean;
  readonly lines: readonly LineHandover[];
  readonly warnings: readonly HandoverWarning[];
  readonly supplies: Supplies;
}

/** The hand-over of a unit or a patient: plain data. */
export interface Handover {
  readonly previousFrom: InstantText;
  readonly from: InstantText;
  readonly to: InstantText;
  readonly zone: string;
  /** Patients with an emergency first, then by unit, bed and reference. */
  readonly patients: readonly PatientHandover[];
  /** What is wrong in the record and names neither a patient nor a line. */
  readonly warnings: readonly HandoverWarning[];
  /** What the policy asks less for than its published source. */
  readonly loosened: readonly Sentence<'asks-for-less'>[];
  /** Of a unit: patients with a line whose unit is not on record. They are not on the list, and may belong to it. */
  readonly withoutUnit: readonly Ref[];
  /** What was given of these patients’ lines and not understood: care that was charted in it counts as not done. */
  readonly notUnderstood: readonly NotUnderstood[];
  readonly supplies: Supplies;
}
