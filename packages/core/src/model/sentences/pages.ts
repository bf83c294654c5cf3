import type { DueState, LineCareActivity, LumenStateCode } from '@dwellward/profiles';
import type { FactName } from '@dwellward/policy';
import type { Ref } from '../basics.js';
import type { IssueSentences } from './issues.js';
import type { LumenWhySentences } from './lumens.js';
import type { ClosedBecause } from './common.js';
import type { FactSentences } from './remarks.js';
import type { Name, Of, When, WordSentences } from './common.js';

/** Headings of the pages on one line: its draw, its repair, why its care is due. */
export type Heading =
  | 'before-first-step'
  | 'ask-first'
  | 'not-now'
  | 'steps'
  | 'take'
  | 'mind'
  | 'blood-loss'
  | 'source'
  | 'damage'
  | 'preconditions'
  | 'measures'
  | 'now'
  | 'checklist'
  | 'repaired-before'
  | 'why-source'
  | 'why-notes'
  | 'why-facts'
  | 'why-lumen'
  | 'why-others'
  | 'why-switched-off'
  | 'why-mind'
  | 'why-steps'
  | 'why-take'
  | 'why-changes';

type ScheduleText = Of<Pick<WordSentences, 'schedule'>>;

/** A condition: what it means as its policy writes it, and the policy's own words for it where it has some. */
export interface ConditionSentences {
  readonly condition: { readonly meaning: string; readonly description?: string };
}

type Asked = Of<ConditionSentences>;

/** What the page says that tells why care of a line is due. */
export interface ExplainPageSentences {
  readonly heading: { readonly heading: Heading };
  readonly 'line-at': { readonly name: Name; readonly line: Ref; readonly patient: Ref; readonly at: When };
  readonly 'repaired-at': { readonly at: When; readonly lumen?: Name; readonly ref: Ref };
  readonly 'why-not-in-place': {
    readonly because: ClosedBecause;
    readonly plannedFor?: When;
    /** Whether anything is due all the same. */
    readonly stillDue: boolean;
  };
  readonly 'nothing-asked-for': { readonly activity?: LineCareActivity };
  readonly 'wrong-in-record': {
    readonly resource: Ref;
    readonly path: string;
    readonly issue: Of<IssueSentences>;
  };
  readonly 'item-is': {
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly state: DueState;
  };
  readonly 'may-be-done-from': { readonly opens: When; readonly dueBy: When };
  readonly 'by-rule': { readonly id: string; readonly title: string; readonly schedule: ScheduleText };
  readonly 'in-place-of': { readonly schedule: ScheduleText; readonly layer: string; readonly plan: string };
  readonly 'applies-while': { readonly condition: Asked };
  readonly 'fact-was': {
    readonly fact: FactName;
    readonly value: string;
    readonly since?: When;
    readonly refs: readonly Ref[];
    readonly remark?: Of<FactSentences>;
  };
  readonly 'lumen-was': {
    readonly state: LumenStateCode;
    readonly since?: When;
    readonly because: readonly Ref[];
    readonly why: Of<LumenWhySentences>;
  };
  readonly 'other-rule': { readonly id: string; readonly title: string; readonly dueBy: When };
  readonly 'rule-switched-off': {
    readonly id: string;
    readonly title: string;
    readonly schedule: ScheduleText;
    readonly by: string;
    readonly notes: readonly string[];
  };
}
