import type { LineCareActivity, LineFinding } from '@dwellward/profiles';
import type { FactName } from '@dwellward/policy';
import type { AsSent, LineLength, RecordedTime, SentQuantity } from '../basics.js';
import type { Of, Plain, When } from './common.js';

/** When what is forbidden may be done again: at a time, or once one of these was done or seen. */
export interface EndOfHold {
  readonly at?: When;
  readonly activity?: LineCareActivity;
  readonly findings?: readonly LineFinding[];
}

/** A layer of a policy; the version is empty where it has none. */
export interface LayerName {
  readonly title: string;
  readonly version: string;
}

/** What is other between two versions of a policy: the layers that came into force, and those that no longer are. */
export interface PolicyChange {
  readonly came: readonly LayerName[];
  readonly ended: readonly LayerName[];
}

/** What a reader has to know of an item beyond its window. */
export interface RemarkSentences {
  readonly 'counted-from-start-of': { readonly time: RecordedTime };
  readonly 'counted-from-earliest-event': Plain;
  readonly 'nothing-to-count-from': Plain;
  /** The facts that are not known, and whose protective reading is taken. */
  readonly 'protective-reading': { readonly facts: readonly FactName[] };
  /** What is to be known of one fact. */
  readonly 'of-fact': { readonly fact: FactName; readonly remark: Of<FactSentences> };
  readonly 'applies-since': { readonly since: When };
  /** An item that a hold moved. */
  readonly held: { readonly end: EndOfHold; readonly title: string; readonly wasDueBy?: When };
  readonly 'opens-after-spacing': Plain;
  /** The rule that makes it one, where another has it due, and the results that do. */
  readonly emergency: {
    readonly title?: string;
    readonly results: readonly { readonly fact: FactName; readonly value: string }[];
  };
  /** A person closed the Task before it, done or turned down, and nothing was charted since. */
  readonly 'asked-again': { readonly done: boolean; readonly at: When };
  /** Other rules that ask for it at once, by their titles. */
  readonly 'also-asked': { readonly titles: readonly string[] };
  readonly 'asked-for-since': { readonly change: PolicyChange; readonly since: When };
  readonly 'moved-by-version': {
    readonly change: PolicyChange;
    readonly since: When;
    readonly wasDueBy: When;
  };
  readonly 'judged-by-version': {
    readonly layer: LayerName;
    readonly change: PolicyChange;
    readonly since: When;
  };
}

/** How a fact was read, where it is not plainly on record: parts of a sentence. */
export interface FactSentences {
  readonly 'dressing-not-said': Plain;
  readonly 'birth-date-in-future': Plain;
  readonly 'result-is-stale': { readonly sent: AsSent };
  /** Leucocytes were counted without a differential, or fewer than the neutrophils before. */
  readonly 'neutrophils-at-most': { readonly sent: AsSent };
  readonly 'external-length-impossible': { readonly mostCm: number };
  readonly 'first-length-since-stands-for-it': Plain;
  readonly 'infusion-without-end': Plain;
  readonly 'no-lock-since': { readonly activity: LineCareActivity };
}

/** What was read out of a finding beyond what it says. */
export interface ReadingSentences {
  readonly 'body-temperature': { readonly sent: SentQuantity };
  readonly 'removed-catheter-read-as': {
    readonly cm: string;
    readonly length: LineLength;
    readonly read: 'whole' | 'incomplete';
  };
  /** The length of the line; never a gap. */
  readonly 'length-on-record': { readonly length?: LineLength };
}
