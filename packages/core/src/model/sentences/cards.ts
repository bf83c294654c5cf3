import type { LineCareActivity } from '@dwellward/profiles';
import type { Ref } from '../basics.js';
import type { Name, Of, Plain } from './common.js';
import type { TableSentences } from './outputs.js';

/** When in a clinician’s work cards are asked for: the hooks of CDS Hooks that are answered. */
export type CardHook = 'patient-view' | 'order-select' | 'order-sign';

/** Why the record of a patient could not be read. */
export type NotReadBecause =
  /** The FHIR server gives no answer now. */
  | 'no-answer'
  /** It refuses to give the record. */
  | 'refused'
  /** It knows of no such patient. */
  | 'no-such-patient'
  /** Whoever asks means another FHIR server than the one that is read here. */
  | 'other-server'
  /** What came is about more than one patient. */
  | 'several-patients'
  /** An error of ours. */
  | 'error';

/** What stands on cards, and on what is asked for with them, beside what every output says. */
export interface CardSentences {
  readonly 'card-of-line': {
    readonly name: Name;
    readonly emergencies: number;
    readonly overdue: number;
    readonly due: number;
    /** What is the most pressing of it. */
    readonly first: { readonly activity: LineCareActivity; readonly targets: readonly Name[] };
  };
  readonly 'card-not-understood': { readonly resources: number; readonly kinds: number };
  readonly 'record-not-read': { readonly because: NotReadBecause };
  readonly 'record-not-whole': Plain;
  /** Lumens whose Devices name no patient are looked for on the whole server, which was not done yet. */
  readonly 'lumens-not-looked-for': Plain;
  readonly 'record-as-done': { readonly activity: LineCareActivity; readonly targets: readonly Name[] };
  /** `named`: whether the order names the line or a lumen of it. */
  readonly 'order-meets-hold': {
    readonly line: Name;
    readonly named: boolean;
    readonly hold: Of<Pick<TableSentences, 'holds-together'>>;
  };
  readonly 'order-not-understood': Plain;
  readonly 'order-is': { readonly ref: Ref; readonly activity: LineCareActivity; readonly text?: string };
  readonly 'cards-title': { readonly hook: CardHook };
  readonly 'cards-description': { readonly hook: CardHook };
}
