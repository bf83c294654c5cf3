import type { DueState, LineCareActivity, LineFinding, LumenStateCode } from '@dwellward/profiles';
import type { FactName, QuantityRange, Rule, Scope } from '@dwellward/policy';
import type { CountedFrom, InstantText } from './basics.js';
import type { FactRemark, Name, Remark, Sentence, WorkText } from './sentences.js';
import type { QuestionSentences, WarningSentences } from './sentences/drugs.js';
import type { LumenWhySentences } from './sentences/lumens.js';
import type { ClosedBecause } from './sentences/common.js';
import type { RecordIssue, Ref } from './record.js';

export type { CountedFrom, InstantText } from './basics.js';

/** What an item is done to. */
export interface Target {
  readonly scope: Scope;
  /** Lumen for lumen rules, else the line. */
  readonly ref: Ref;
  /** The Device to point to in FHIR. */
  readonly device: Ref;
  readonly name: Name;
}

/** A fact that an item's rules looked at, as it was known. */
export interface FactUse {
  readonly fact: FactName;
  readonly value: string;
  /** Since when it has had this value; absent where it is not known or always had. */
  readonly since?: InstantText;
  readonly refs: readonly Ref[];
  /** Unknown, stale, or between limits: what reading was taken. */
  readonly remark?: FactRemark;
}

/** A hold in force, or that ended after the item's window began. */
export interface Hold {
  readonly id: string;
  readonly rule: Rule;
  readonly activity: LineCareActivity;
  readonly target: Target;
  readonly from: InstantText;
  /** Absent where it ends with an event. */
  readonly until?: InstantText;
  /** The event that began it. */
  readonly because?: Ref;
}

/** A rule that applied to an item's activity and target, with the time it alone would give. */
export interface Candidate {
  readonly rule: Rule;
  readonly dueBy: InstantText;
  readonly countedFrom: CountedFrom;
  /** Since when the rule has applied, where that moved `dueBy`. */
  readonly appliesSince?: InstantText;
  /** True where it applied only by its reading of an unknown fact. */
  readonly byUnknown: boolean;
}

/** One volume, size, dose, step, supply or caution of the work; steps stand in the order in which they are done. */
export interface WorkInput {
  readonly kind:
    'flush-volume' | 'lock-volume' | 'syringe-size' | 'thrombolytic-dose' | 'step' | 'supply' | 'caution';
  readonly text: WorkText;
  /** Decimal text, with its UCUM unit. */
  readonly value?: string;
  readonly unit?: string;
  /** The other rule that it comes from, where it is not the item’s own. */
  readonly of?: { readonly id: string; readonly title: string };
}

/** Care that is due, will be, or was to have been. */
export interface DueItem {
  /** The same for the same activity, line, target and last time it was done. */
  readonly id: string;
  /** The ids it would have if another record of the last time, which was charted twice, were the only one. */
  readonly otherIds?: readonly string[];
  readonly activity: LineCareActivity;
  readonly line: Ref;
  readonly patient: Ref;
  readonly target: Target;
  readonly rule: Rule;
  readonly countedFrom: CountedFrom;
  readonly opens: InstantText;
  readonly dueBy: InstantText;
  readonly state: DueState;
  /** The visit that it is done in, where others are done with it: people read, and are called to, the visit. */
  readonly visit?: string;
  /** Of a look in a series: when the next one takes its place. */
  readonly lapses?: InstantText;
  readonly heldBy?: Hold;
  /** `dueBy` before a hold moved it. */
  readonly dueByUnheld?: InstantText;
  /** The lab results or findings that moved it. */
  readonly movedBy: readonly Ref[];
  /** The patient's order it comes from. */
  readonly basedOn?: Ref;
  /** The others that applied, most protective first. */
  readonly others: readonly Candidate[];
  readonly facts: readonly FactUse[];
  readonly work: readonly WorkInput[];
  /**
   * What to ask the responsible clinician before it is done: an allergy or a problem of the patient that speaks against
   * something that it uses. The values and supplies of that are not in `work`.
   */
  readonly questions: readonly Sentence<keyof QuestionSentences>[];
  /** The facts by whose protective reading the rule applies, where it does so only by them. */
  readonly byUnknown?: readonly FactName[];
  /** Imprecise, stale, unknown, held: what a reader has to know, in sentences. */
  readonly remarks: readonly Remark[];
}

/** An item that an event has met: the same id as the open item had. */
export interface MetItem {
  readonly id: string;
  readonly otherIds?: readonly string[];
  readonly activity: LineCareActivity;
  readonly line: Ref;
  readonly target: Target;
  readonly by: Ref;
  /** The same event under other references. */
  readonly twins?: readonly Ref[];
  readonly at: InstantText;
}

/** One thing that is so of a lumen. */
export interface LumenFact {
  readonly state: LumenStateCode;
  /** Absent where the record does not tell since when. */
  readonly since?: InstantText;
  /** What tells of it, the earliest first; empty where nothing is on record. */
  readonly because: readonly Ref[];
  /** `line` where it is on record of the line as a whole and so counts for every lumen. */
  readonly of: 'lumen' | 'line';
  readonly why: Sentence<keyof LumenWhySentences>;
}

/** What a lumen is like at a moment: the most serious state, and what else it is at once. */
export interface LumenState extends LumenFact {
  readonly lumen: Ref;
  /** The Device to point to in FHIR. */
  readonly device: Ref;
  readonly name: Name;
  /** The most serious first. */
  readonly also: readonly LumenFact[];
}

/** Something wrong that was found, stands, and is answered by no rule of the policy in force. */
export interface UnansweredFinding {
  readonly finding: LineFinding;
  /** Of its values the ones that no rule reads; none of a quantity or a yes or no. */
  readonly values: readonly string[];
  readonly quantity?: QuantityRange;
  readonly ref: Ref;
  readonly at: InstantText;
  /** The lumen, of a line with several. */
  readonly on?: Name;
}

/** The answer for one line. */
export interface LineCare {
  readonly line: Ref;
  readonly patient: Ref;
  /** False where the line is not in place at the time asked for, with the reason. */
  readonly inPlace: boolean;
  /**
   * A removed line has items still: those of the rules that count from its removal. One that is not in yet has those
   * that prepare its insertion. One whose plan was carried out (`inserted`) or withdrawn has none.
   */
  readonly closed?: ClosedBecause;
  /** True where an error of ours kept its care from being computed: that nothing is listed then says nothing. */
  readonly notComputed?: true;
  /** When the insertion is planned for, of a line that is not in yet; absent where no time is given. */
  readonly plannedFor?: InstantText;
  readonly items: readonly DueItem[];
  readonly met: readonly MetItem[];
  readonly holds: readonly Hold[];
  /** What each lumen is like, in the order of the line’s lumens; none of a line that is not in place. */
  readonly lumens: readonly LumenState[];
  /** What has to be known before anything is done to the line: said on top of it, the most pressing first. */
  readonly warnings: readonly Sentence<keyof WarningSentences>[];
  /**
   * What was found wrong and no rule of the policy in force answers, in the order of time: every output says it first.
   * The same stand among the issues, as `unanswered-finding`.
   */
  readonly unanswered: readonly UnansweredFinding[];
  readonly issues: readonly RecordIssue[];
}

/** When and where: both are always given, never read from the machine. */
export interface AsOf {
  /** Instant with offset, ISO 8601. */
  readonly asOf: string;
  /** IANA zone of the unit. */
  readonly zone: string;
}
