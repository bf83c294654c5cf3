import type { DueState, LineCareActivity, LineFinding, LumenStateCode } from '@dwellward/profiles';
import type { FactName, QuantityRange, scheduleText } from '@dwellward/policy';
import type { InstantText, RecordedTime } from '../basics.js';

/** A point in time as data: milliseconds since 1970 UTC, or the text of an instant with its offset. */
export type When = number | InstantText;

/** The sentences of a catalogue: each its code with its parameters. */
export type Of<Catalogue> = {
  [Code in keyof Catalogue]: { readonly code: Code } & Catalogue[Code];
}[keyof Catalogue];

/** What says how often, or when, care is asked for. */
export type Scheduled = Parameters<typeof scheduleText>[0];

/** A sentence, or a part of one, that says nothing beyond its code. */
export type Plain = Readonly<Record<never, never>>;

/** What a target or a lumen is called. */
export interface NameSentences {
  readonly 'the-line': Plain;
  readonly 'the-exit-site': Plain;
  readonly 'the-vein-incision': Plain;
  /** The only lumen of a line that names none. */
  readonly 'the-lumen': Plain;
  /** A lumen that is only counted, from 1 on. */
  readonly 'lumen-number': { readonly number: number };
  /** A line that has no Device yet. */
  readonly 'planned-line': Plain;
  /** As the record names it. */
  readonly named: { readonly name: string };
}

/** Single words and amounts, which stand by themselves or in a sentence. */
export interface WordSentences {
  /** A name without its article, as it stands in a list: “exit site”. */
  readonly 'short-name': { readonly of: Name };
  /** What the owner of a policy has written: a title, a step, a supply, a caution. */
  readonly 'policy-text': { readonly text: string };
  /** What another program says: a library that refused a unit, whoever read the input. */
  readonly 'outside-text': { readonly text: string };
  /** What a calculator says of its own. */
  readonly 'calculator-text': { readonly text: string };
  /** A fact in words that complete “not known: …”. */
  readonly fact: { readonly fact: FactName };
  /** A fact in a word that a value can follow: “neutrophil count”. */
  readonly 'fact-noun': { readonly fact: FactName };
  readonly 'line-as-a-whole': Plain;
  readonly activity: { readonly activity: LineCareActivity };
  readonly finding: { readonly finding: LineFinding };
  readonly 'lumen-state': { readonly state: LumenStateCode };
  readonly 'due-state': { readonly state: DueState };
  /** How often, or when: “every 7 days”. */
  readonly schedule: { readonly schedule: Scheduled };
  /** A day of the week and the time on the clock of the unit. */
  readonly clock: { readonly at: When };
  /** The same with the year, where it may be far from now. */
  readonly moment: { readonly at: When };
  /** A time as exact as the record has it. */
  readonly 'recorded-time': { readonly time: RecordedTime };
  /** The value of a fact, which was read from the record. */
  readonly 'fact-value': { readonly fact: FactName; readonly value: string };
  /** A day with its year. */
  readonly day: { readonly at: When };
  /** How far from now, negative where it is past. */
  readonly relative: { readonly ms: number };
  /** Decimal text with a UCUM unit. */
  readonly amount: { readonly value: string; readonly unit: string };
  /** What is known of an amount: a value, or a limit on one side or both. */
  readonly range: { readonly value: QuantityRange };
}

/** What something is called, as data. */
export type Name = Of<NameSentences>;

/** Why a line is not in place. */
export type ClosedBecause =
  | 'line-removed'
  | 'not-inserted-yet'
  | 'inserted'
  | 'plan-withdrawn'
  | 'entered-in-error'
  | 'patient-deceased';
