import type { LineCareActivity } from '@dwellward/profiles';
import type { Procedure } from 'fhir/r4.js';
import type { Ref } from '../model/record.js';

// What a card of a decision support client shows, in words already; the format of the client is made elsewhere.

/** How pressing a card is, as CDS Hooks has it. */
export type CardUrgency = 'info' | 'warning' | 'critical';

/** One thing that a card tells, and what there is to say of it. */
export interface CardPart {
  readonly text: string;
  readonly more: readonly string[];
}

/** What may be recorded with one click: an activity on one or several targets. */
export interface CardAct {
  readonly label: string;
  /** One a target. It has the identity of the item that it meets: the same item recorded twice is one act. */
  readonly procedures: readonly { readonly text: string; readonly resource: Procedure }[];
}

export interface CareCard {
  readonly kind:
    | 'not-read'
    | 'not-whole'
    | 'not-understood'
    | 'unanswered'
    | 'warning'
    | 'care'
    | 'hold'
    | 'issues'
    | 'order';
  readonly urgency: CardUrgency;
  /** Of fewer than 140 characters; cut short where it has to be, and then whole among the parts. */
  readonly summary: string;
  readonly parts: readonly CardPart[];
  /** Whose guidance it is: the first source that the rule cites. */
  readonly source: { readonly label: string; readonly url?: string };
  readonly line?: Ref;
  readonly acts: readonly CardAct[];
}

/** An order that is about to be given, as far as it concerns lines. */
export interface DraftOrder {
  readonly ref: Ref;
  readonly activity: LineCareActivity;
  /** The line or lumen that it names; any of the patient’s where it names none. */
  readonly target?: Ref;
  /** As whoever orders it words it. */
  readonly text?: string;
}
