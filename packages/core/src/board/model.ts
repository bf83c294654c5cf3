import type { DueState, LineCareActivity, LineFinding, LineType, LumenStateCode } from '@dwellward/profiles';
import type { Priority, Scope } from '@dwellward/policy';
import type { InstantText } from '../model/care.js';
import type { Ref } from '../model/record.js';

// What a page shows, in words already: whoever draws it decides on nothing and words nothing.

/** Where in a record something is done. */
export interface BoardTarget {
  readonly scope: Scope;
  readonly ref: Ref;
  readonly device: Ref;
  readonly name: string;
  /** The id of its item; where there is none, one of its own. */
  readonly id: string;
}

/** A value that is chosen, and what it is called. */
export interface BoardChoice {
  readonly value: string;
  readonly name: string;
}

/** What may be said of a finding when it is recorded. */
export interface BoardAsk {
  readonly finding: LineFinding;
  readonly name: string;
  /** The id of the item with whose act it is recorded, and what it is seen on. */
  readonly of: string;
  readonly on: string;
  /** One of its choices, as many of them as are so, yes or no, or a number in its unit. */
  readonly kind: 'one' | 'several' | 'yes-or-no' | 'amount';
  readonly choices: readonly BoardChoice[];
  /** As people write it, of an amount: “cm”, “°C”. */
  readonly unitText?: string;
}

/** What may be recorded together: of a row, or of care that nobody asked for. */
export interface Recordable {
  /** “Urgent: Bag change: white”. */
  readonly text: string;
  readonly parts: readonly {
    readonly activity: LineCareActivity;
    readonly name: string;
    /** Whether it is asked what was put on. */
    readonly putsDressingOn: boolean;
    readonly targets: readonly BoardTarget[];
  }[];
  readonly asks: readonly BoardAsk[];
  /** Empty where none of its acts puts a dressing on. */
  readonly dressings: readonly BoardChoice[];
}

/** Everything that can be recorded of a line, whether it is asked for or not. */
export interface OtherCare {
  /** One an activity. */
  readonly care: readonly Recordable[];
  /** What was seen or measured without an act; `of` names what it was seen on. */
  readonly findings: readonly BoardAsk[];
}

/** Items that are one row: of one activity on several lumens, or of one visit. */
export interface BoardRow extends Recordable {
  /** The ids of its items, the first of them stands for the row. */
  readonly ids: readonly string[];
  readonly state: DueState;
  readonly stateText: string;
  readonly priority: Priority;
  readonly emergency: boolean;
  /** “Wed 25 Nov 08:00”, and “in 30 min”. */
  readonly dueText: string;
  readonly relativeText: string;
  readonly opens: InstantText;
  readonly dueBy: InstantText;
  /** When it would be due without the result, the finding or the hold that moved it. */
  readonly unmovedDueBy?: InstantText;
  readonly why: readonly string[];
  /** In an emergency, or where it is to be done as soon as possible: what is done first. */
  readonly firstSteps: readonly string[];
}

/** What one lumen is like. */
export interface BoardLumen {
  readonly ref: Ref;
  readonly device: Ref;
  readonly name: string;
  readonly state: LumenStateCode;
  /** “not to be used”. */
  readonly stateText: string;
  /** “Lumen red: blocked since …”. */
  readonly text: string;
  readonly reasons: readonly string[];
  readonly keptFromUse: boolean;
}

/** A hold, or several of one target and one end. */
export interface BoardHold {
  readonly text: string;
  /** True where it binds the whole line. */
  readonly ofLine: boolean;
  readonly from: InstantText;
  /** Absent where something has to be found or done for it to end. */
  readonly until?: InstantText;
}

/** One line: a lane of the board. */
export interface BoardLine {
  readonly line: Ref;
  readonly name: string;
  /** Name, type, lumens, repairs. */
  readonly text: string;
  readonly type?: LineType;
  /** Why it is not in place; absent while it is. */
  readonly closedText?: string;
  /** True where an error of ours kept its care from being computed. */
  readonly notComputed: boolean;
  /** What has to be known before anything is done to it. */
  readonly warnings: readonly string[];
  readonly unanswered: readonly string[];
  readonly notKnown: readonly string[];
  readonly lumens: readonly BoardLumen[];
  readonly holds: readonly BoardHold[];
  /** The most pressing first. */
  readonly rows: readonly BoardRow[];
}

/** One patient with the lines that have care. */
export interface BoardPatient {
  readonly patient: Ref;
  readonly name: string;
  readonly unit?: string;
  readonly bed?: string;
  readonly lines: readonly BoardLine[];
}

/** What stands on top of everything, the gravest first. */
export interface BoardNotice {
  readonly kind: 'emergency' | 'not-computed' | 'unanswered' | 'not-understood';
  readonly text: string;
  readonly more: readonly string[];
  readonly line?: Ref;
}

/** What falls due in one hour. */
export interface LoadHour {
  readonly from: InstantText;
  /** Hour on the clock of the unit, `07`. */
  readonly clock: string;
  /** Rows that are due by then and no sooner; of the first hour those that are late, too. */
  readonly items: number;
  readonly emergencies: number;
  /** Of the items whose activity was given minutes. */
  readonly minutes: number;
  /** Items whose activity was given none. */
  readonly withoutMinutes: number;
}

/** A shift, and what falls due in it. */
export interface BoardShift {
  readonly from: InstantText;
  readonly until: InstantText;
  /** True of the one that runs: what is late stands in it. */
  readonly runs: boolean;
  /** Rows; none of a shift that is over. */
  readonly items: number;
  readonly emergencies: number;
  /** “This shift, until 19:00: 12 due”. */
  readonly text: string;
}

/** The unit at a moment. */
export interface UnitView {
  readonly at: InstantText;
  readonly zone: string;
  readonly language: string;
  readonly headText: string;
  readonly countsText: string;
  readonly counts: Readonly<Record<DueState | 'emergencies' | 'lines' | 'patients', number>>;
  readonly notices: readonly BoardNotice[];
  readonly load: readonly LoadHour[];
  /** In the order of time, from eight hours ago to a day ahead. */
  readonly shifts: readonly BoardShift[];
  /** A patient stands where the most urgent of their lines stands. */
  readonly patients: readonly BoardPatient[];
  readonly notInPlace: readonly string[];
  /** What is to be put right in the record. */
  readonly issues: readonly string[];
  readonly issuesText: string;
  readonly loosened: readonly string[];
  /** What is not read, and that all of it is advice. */
  readonly cautions: readonly string[];
}

/** What happened to a line, on its timeline. */
export interface BoardEvent {
  readonly at: InstantText;
  readonly text: string;
  readonly on?: string;
  readonly kind: 'care' | 'finding' | 'infusion';
  readonly activity?: LineCareActivity;
  readonly finding?: LineFinding;
  readonly ref: Ref;
  readonly until?: InstantText;
}

/** A laboratory result as a point of a curve. */
export interface BoardResult {
  readonly at: InstantText;
  /** In 10*9/L; where only a limit is known, that: `text` says so. */
  readonly value: number;
  readonly text: string;
}

/** Why a row is due, under headings. */
export interface BoardWhy {
  readonly id: string;
  readonly head: readonly string[];
  readonly sections: readonly { readonly heading: string; readonly lines: readonly string[] }[];
}

/** One line, whole. */
export interface LineView {
  readonly at: InstantText;
  readonly zone: string;
  readonly patient: {
    readonly ref: Ref;
    readonly name: string;
    readonly unit?: string;
    readonly bed?: string;
  };
  readonly inPlace: boolean;
  readonly line: BoardLine;
  readonly insertedAt?: InstantText;
  readonly removedAt?: InstantText;
  readonly site?: string;
  readonly lengthText?: string;
  readonly lengths: readonly { readonly lumen: Ref; readonly text: string }[];
  readonly dressing?: string;
  readonly externalLength?: string;
  readonly events: readonly BoardEvent[];
  readonly neutrophils: readonly BoardResult[];
  /** The counts by which the policy decides, in 10*9/L. */
  readonly neutrophilLimits: readonly number[];
  readonly whys: readonly BoardWhy[];
  readonly issues: readonly string[];
}
