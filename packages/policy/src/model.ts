import type { LineCareActivity, LineFinding, Scope, SubstanceCode } from '@dwellward/profiles';
import type { Condition } from './condition.js';

/** UCUM-like FHIR time units of a rule: minutes and hours are exact, the rest are calendar units in the unit's zone. */
export type TimeUnit = 'min' | 'h' | 'd' | 'wk' | 'mo';

/** A length of time as the policy states it. Days, weeks and months keep the wall-clock time. */
export interface Span {
  readonly value: number;
  readonly unit: TimeUnit;
}

/** What a rule's activity is done to. */
export type { Scope };

/** FHIR request-priority. `stat` marks emergencies: never held, never below anything else. */
export type Priority = 'routine' | 'urgent' | 'asap' | 'stat';

/** How sure a source is: its text was read, it is known from memory, or there is no published one. */
export type Certainty = 'seen' | 'from-memory' | 'common-practice';

/** One source of a rule, as its PlanDefinition's documentation gives it. */
export interface Citation {
  readonly text: string;
  readonly url?: string;
  readonly certainty: Certainty;
}

/** Where a rule was written. */
export interface RuleOrigin {
  /** Canonical URL of the PlanDefinition, without version. */
  readonly url: string;
  readonly version: string;
  readonly title: string;
  /** Place of the layer in the stack: 0 is the base, later layers are higher. */
  readonly layer: number;
  /** The ServiceRequest, where the rule is a patient's own order. */
  readonly order?: string;
  /** When the layer is in force; always where absent. */
  readonly effective?: EffectivePeriod;
  /** Not to be relied on in care: the plan’s status is another than active, or it is experimental. */
  readonly unapproved?: 'draft' | 'retired' | 'unknown' | 'experimental';
}

/** Whole days of the unit’s calendar, `YYYY-MM-DD`, the first and the last; an absent one is open to that side. */
export interface EffectivePeriod {
  readonly start?: string;
  readonly end?: string;
}

/** Whether a rule asks for its activity or forbids it: by its ActivityDefinition, `doNotPerform` forbids. */
export type Effect = 'ask' | 'forbid';

/** What sets a rule going once it is on record. */
export type Trigger =
  /** A finding with one of these values; any value that says that it is there, where empty. */
  | { readonly kind: 'finding'; readonly finding: LineFinding; readonly values: readonly string[] }
  /** The activity was done. */
  | { readonly kind: 'event'; readonly activity: LineCareActivity };

/** When a rule begins to ask for its activity, or to forbid it. */
export type Begins =
  /** Every `every` after the last time. From `untilAfterInsertion` on it asks for nothing; `atMost` is the number of times since insertion. */
  | {
      readonly kind: 'interval';
      readonly every: Span;
      readonly untilAfterInsertion?: Span;
      readonly atMost?: number;
    }
  /** The next of these wall-clock times after the last time; every day where `daysOfWeek` is empty. 1 is Monday. */
  | {
      readonly kind: 'fixed-times';
      readonly daysOfWeek: readonly number[];
      readonly timesOfDay: readonly string[];
    }
  /** With any of these; an ask is due `after` so long, at once where absent. At least one. */
  | { readonly kind: 'triggered'; readonly by: readonly Trigger[]; readonly after?: Span }
  /** Once, `offset` before the time for which `of` is planned; with `timesOfDay`, at the last of these wall-clock times that is so early. What was done before its window opened does not meet it. */
  | {
      readonly kind: 'before';
      readonly of: LineCareActivity;
      readonly offset: Span;
      readonly timesOfDay?: readonly string[];
    }
  /** As soon as, and for as long as, its applicability condition is true. */
  | { readonly kind: 'while' }
  /** Once, for a time that is given: a patient’s order. `from` and `by` are of FHIR’s type dateTime. */
  | { readonly kind: 'once'; readonly from?: string; readonly by: string }
  /** Asks for nothing: stands for the act that a request plans, from which others count back. */
  | { readonly kind: 'planned' };

/** A volume of the Task that a calculator works out for the lumen. */
export type ComputedInput = 'flush-volume' | 'lock-volume' | 'syringe-size' | 'thrombolytic-dose';

/** A value that is worked out and put into a step: `%calculated.NAME` of the policy. */
export type CalculatedName =
  | 'flushVolume'
  | 'lockVolume'
  | 'syringeSize'
  | 'thrombolyticDose'
  | 'thrombolyticWithdrawal'
  | 'discardVolume'
  | 'oldLockVolume'
  | 'lengthOnRecord'
  | 'tubes'
  | 'infusingLumens'
  | 'idleLumens'
  | 'whatRuns';

export type StepPart = string | { readonly calculated: CalculatedName };

/** One step of the work: text, with the values to be worked out in between. */
export type Step = readonly StepPart[];

/** A substance that the work uses or may use, and what of the work is withheld where a patient may not stand it. */
export interface WorkSubstance {
  readonly substance: SubstanceCode;
  readonly computed: readonly ComputedInput[];
  /** Supplies in the words in which the work names them. */
  readonly supplies: readonly string[];
}

/** What the Task carries, from the rule's ActivityDefinition. */
export interface Work {
  readonly computed: readonly ComputedInput[];
  /** In the order in which they are done. */
  readonly steps?: readonly Step[];
  readonly supplies: readonly string[];
  readonly cautions: readonly string[];
  /** Each substance once, in the order of their codes. */
  readonly substances?: readonly WorkSubstance[];
}

/** Who may do it, as PlanDefinition.action.participant says. */
export interface Participant {
  readonly type: 'patient' | 'practitioner' | 'related-person' | 'device';
  readonly role?: string;
}

/** One compiled rule: one action of a PlanDefinition, or a sub-action of a group. */
export interface Rule {
  readonly id: string;
  /** Id of the group action that it stands in. */
  readonly group?: string;
  readonly title: string;
  readonly effect: Effect;
  readonly activity: LineCareActivity;
  /** At least one. A rule of both line and lumen concerns the part that its trigger names. */
  readonly scopes: readonly Scope[];
  readonly begins: Begins;
  /** Judged when a trigger occurs: a later value does not undo it. Always true where absent. */
  readonly start?: Condition;
  /** While it is true the rule applies. Always true where the action states none. */
  readonly applicability: Condition;
  /** Ends it, judged from the trigger’s occurrence on. Where it is not known it does not end. */
  readonly stop?: Condition;
  /** How long a ban lasts; until `stop`, or for as long as it applies, where absent. */
  readonly lasts?: Span;
  /** Whether a condition on an unknown fact counts as true (`protective`) or false (`default`). */
  readonly whenUnknown: 'protective' | 'default';
  /** How long before `dueBy` the item opens; a quarter of the interval where absent. */
  readonly lead?: Span;
  readonly minimumSpacing?: Span;
  readonly priority: Priority;
  readonly participants?: readonly Participant[];
  readonly citations: readonly Citation[];
  /** Why a published maximum is loosened, or which other values sources give. */
  readonly notes: readonly string[];
  readonly work: Work;
  readonly origin: RuleOrigin;
}

/** What a layer did to a rule of a layer below it. */
export interface ReplacedRule {
  readonly id: string;
  readonly how: 'replaced' | 'switched-off';
  /** The rule as it stood below; its origin is the layer that it came from. */
  readonly before: Rule;
  /** The layer that replaced it or switched it off. */
  readonly by: RuleOrigin;
  /** The reasons that the layer gives. */
  readonly notes: readonly string[];
}

/** When, and on what, a rule asks or forbids. */
export type AskedWhen = Pick<
  Rule,
  'activity' | 'effect' | 'scopes' | 'begins' | 'stop' | 'lasts' | 'applicability' | 'start' | 'whenUnknown'
>;

/** A rule of a published source that a layer loosened or switched off, with its reason. */
export interface LoosenedRule {
  readonly id: string;
  readonly how: 'loosened' | 'switched-off';
  readonly title: string;
  readonly activity: LineCareActivity;
  /** The published rule and what is asked for now, in words. */
  readonly from: string;
  readonly to: string;
  /** The same as data, to be said in other words or another language; `now` is absent where it is switched off. */
  readonly published: AskedWhen;
  readonly now?: AskedWhen;
  /** The published sources. */
  readonly sources: readonly string[];
  /** The layer’s own words. */
  readonly reasons: readonly string[];
  readonly by: RuleOrigin;
}

/**
 * A policy ready to be applied: the merged rules of its layers, in the order of their ids.
 *
 * Where layers come in versions that follow one another, `versions` has the policy of every stretch of time, in their
 * order and without a gap, and the other members are those of the stretch that the newest version opens.
 */
export interface Policy {
  readonly layers: readonly RuleOrigin[];
  readonly rules: readonly Rule[];
  /** After this long a laboratory result is stale. The shortest that any layer states; 7 d where none does. */
  readonly labStaleAfter: Span;
  /** What the layers replaced or switched off, by id, then from the lowest layer up. */
  readonly replaced?: readonly ReplacedRule[];
  /** What asks for less than its published source, by id: said on top of every output. */
  readonly loosened?: readonly LoosenedRule[];
  readonly versions?: readonly PolicyVersion[];
}

/** The policy of a stretch of time in which the same layers are in force. */
export interface PolicyVersion {
  /** The first day, `YYYY-MM-DD`, from its start in the unit’s zone; absent for the first stretch. */
  readonly from?: string;
  readonly policy: Policy;
}
