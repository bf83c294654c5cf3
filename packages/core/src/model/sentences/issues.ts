import type { LineCareActivity, LineFinding, LineType } from '@dwellward/profiles';
import type { Analyte, AsSent, RecordedTime, Ref, SentQuantity } from '../basics.js';
import type { WarningSentences, WhatRunsSentences } from './drugs.js';
import type { ForbiddenBy } from './work.js';
import type { QuantityRange } from '@dwellward/policy';
import type { Name, Of, Plain, When, WordSentences } from './common.js';

/** Why a quantity, or a whole resource, could not be used: parts of a sentence. */
export interface UnusableSentences {
  readonly 'no-value': Plain;
  readonly 'below-zero': { readonly value: number };
  readonly 'no-unit': Plain;
  readonly 'comparator-not-known': { readonly comparator: string };
  readonly 'not-exact': Plain;
  /** No FHIR date, dateTime or instant. */
  readonly 'no-time': Plain;
  readonly 'no-such-offset': { readonly offset: string };
  readonly 'year-not-plausible': { readonly year: number };
  readonly 'no-resource-here': Plain;
  readonly 'no-resource-type': Plain;
  readonly 'nested-too-deep': Plain;
  readonly 'no-such-resource-type': { readonly type: string };
}

/** Why something can’t be used: in our words, or in those of the library or the program that refused it. */
export type Unusable = Of<UnusableSentences & Pick<WordSentences, 'outside-text'>>;

/** Devices: lines and their lumens. */
export interface DeviceIssueSentences {
  readonly 'line-type-not-known': { readonly given?: string };
  /** Read from the code of the insertion; `own` is what the Device says by itself. */
  readonly 'type-by-insertion': { readonly type: LineType; readonly own?: LineType };
  readonly 'insertion-says-another-type': { readonly type: LineType; readonly said: LineType };
  readonly 'lumen-counts-differ': { readonly counted: number; readonly onRecord: number };
  readonly 'property-not-used': { readonly property: string; readonly reason: Unusable };
  /** Its status says that it is no longer used, or that it is not known; `reason` in the words of the record. */
  readonly 'device-not-active': { readonly status: string; readonly reason?: string };
  readonly 'use-ended-not-completed': { readonly status: string };
  readonly 'use-completed-without-end': Plain;
  readonly 'use-time-is-no-start': Plain;
  readonly 'body-sites-differ': { readonly sites: readonly string[] };
  readonly 'patient-by-extension': { readonly url: string; readonly patient: Ref };
  readonly 'line-of-several-patients': { readonly patients: readonly Ref[]; readonly used: Ref };
  readonly 'lumen-of-lumen': { readonly parent: Ref };
  readonly 'lumen-of-no-line': { readonly line?: Ref };
  readonly 'line-without-patient': Plain;
  readonly 'patient-not-in-record': { readonly patient: Ref };
  readonly 'merged-into': { readonly into: Ref };
  readonly 'merged-not-followed': { readonly into: readonly Ref[] };
}

/** What was done, seen and given. */
export interface EventIssueSentences {
  /** Something ran through a device of which there is no reference, at most a name. */
  readonly 'infusion-through-no-line': { readonly device?: string };
  readonly 'activity-on-no-line': { readonly activity: LineCareActivity };
  readonly 'tip-outcome-not-readable': Plain;
  readonly 'period-without-end': Plain;
  readonly 'event-without-time': Plain;
  readonly 'insertion-without-time': Plain;
  readonly 'insertion-still-to-come': { readonly at: When };
  /** `more`: how many others there are. */
  readonly 'done-still-to-come': { readonly what: DoneOrSeen; readonly at: When; readonly more: number };
  readonly 'finding-without-time': { readonly finding: LineFinding };
  readonly 'finding-on-no-line': { readonly finding: LineFinding };
  readonly 'finding-without-value': { readonly finding: LineFinding };
  readonly 'not-a-value-of-finding': { readonly given: string; readonly finding: LineFinding };
  readonly 'not-a-dressing': { readonly given: string; readonly another: boolean };
  readonly 'length-not-used': { readonly reason: Unusable };
  readonly 'infusion-end-not-given': Plain;
  /** It was done to a Device that is neither line nor lumen here. */
  readonly 'on-no-line-of-record': { readonly what: Placed; readonly device: Ref };
  readonly 'on-line-of-another-patient': {
    readonly what: Placed;
    readonly subject: Ref;
    readonly owner: Ref;
  };
  readonly 'lumen-not-said': { readonly activity: LineCareActivity; readonly lumens: number };
}

/** An activity or a finding. */
export type DoneOrSeen = { readonly activity: LineCareActivity } | { readonly finding: LineFinding };

/** What has a place on a line. */
export type Placed = 'event' | 'finding' | 'infusion';

/** An element with the code or the text that it has. */
export interface CodedElement {
  /** In FHIRPath: `Procedure.code`. */
  readonly path: string;
  readonly system?: string;
  readonly coded?: string;
  readonly text?: string;
}

/** The input itself. */
export interface InputIssueSentences {
  readonly 'one-of-several-elements': { readonly elements: readonly string[] };
  readonly 'element-left-out': { readonly reason: Unusable };
  readonly 'time-not-used': { readonly given: string; readonly reason: Unusable };
  readonly 'input-not-whole': { readonly reason: Unusable };
  /** Of one patient, however often. */
  readonly 'not-understood': CodedElement;
  /** It has no code: its text decided, as a map of codes says. */
  readonly 'read-by-text': { readonly text: string; readonly as: string; readonly resources: number };
  /** They name no line; it was the only one that could be meant. */
  readonly 'on-only-line': { readonly resources: number };
  /** A line that has no Device: rows of a chart tell of it. */
  readonly 'line-by-chart': {
    readonly type: LineType;
    readonly resources: number;
    readonly untold: readonly ('lumens' | 'dressing-type' | 'what-runs')[];
  };
  /** Elements of another version of FHIR than the one that is said. */
  readonly 'another-version': {
    readonly said: string;
    readonly found: string;
    readonly elements: readonly string[];
    readonly resources: number;
  };
  /** Resources of one type and id that differ, none of them known to be the newer. */
  readonly 'several-of-one-id': { readonly resources: number; readonly elements: readonly string[] };
  readonly 'nothing-of-it-used': { readonly reason: Unusable };
}

/** Results of the laboratory, weights, temperatures, and the blood that was taken. */
export interface ResultIssueSentences {
  /** A quantity as it was sent. */
  readonly 'as-sent': { readonly sent: SentQuantity };
  readonly 'result-without-patient': Plain;
  readonly 'result-without-time': Plain;
  /** A share or bands, with nothing of the same collection to make a neutrophil count of. */
  readonly 'part-of-no-count': { readonly sent: AsSent };
  readonly 'result-without-quantity': { readonly analyte: Analyte };
  readonly 'result-charted-as-text': { readonly analyte: Analyte; readonly text: string };
  readonly 'result-not-used': { readonly sent: SentQuantity; readonly reason: Unusable };
  readonly 'result-too-high': { readonly sent: SentQuantity };
  /** Outside what can be: read as not known. */
  readonly 'value-not-believed': BelievedWithin;
  /** Unusual: used, with a question. */
  readonly 'value-to-be-asked-about': BelievedWithin;
  /** Less than half, or more than twice the weight before it: read as anything between the two. */
  readonly 'weight-jumped': {
    readonly sent: AsSent;
    readonly before: AsSent;
    readonly beforeAt: RecordedTime;
  };
  readonly 'results-disagree': { readonly sent: readonly AsSent[]; readonly used: 'highest' | 'lowest' };
  readonly 'shares-above-hundred': Plain;
  readonly 'volume-not-used': { readonly sent: SentQuantity; readonly reason?: Unusable };
  readonly 'temperature-without-patient': Plain;
  readonly 'temperature-without-quantity': Plain;
  readonly 'temperature-without-time': Plain;
  readonly 'temperature-in-unknown-unit': { readonly sent: SentQuantity };
  readonly 'temperature-impossible': { readonly sent: SentQuantity };
}

/** Orders and planned insertions. */
export interface PlannedIssueSentences {
  readonly 'order-without-patient': Plain;
  /** No line of the patient is on record. */
  readonly 'order-without-line': { readonly activity: LineCareActivity };
  /** The Device that it names is no line of the patient as far as is known. */
  readonly 'order-of-no-line': { readonly activity: LineCareActivity; readonly device: Ref };
  readonly 'order-without-time': Plain;
  readonly 'order-timing-not-kept': { readonly reason: Unusable };
  readonly 'another-insertion-planned': { readonly others: readonly Ref[] };
  readonly 'planned-with-anothers-device': {
    readonly patient: Ref;
    readonly device: Ref;
    readonly owner: Ref;
  };
  readonly 'planned-without-patient': Plain;
  readonly 'planned-without-time': Plain;
  /** The time of the order counts, where it has one. */
  readonly 'booking-cancelled': { readonly orderedFor?: RecordedTime };
}

/** Contradictions in time. */
export interface TimeIssueSentences {
  readonly 'planned-insertion-passed': { readonly plannedFor: When };
  readonly 'insertion-not-on-record': { readonly countsFrom: 'earliest-event' | 'nothing' };
  /** An insertion is completed, and when can't be read. */
  readonly 'time-of-insertion-not-known': { readonly countsFrom: 'earliest-event' | 'nothing' };
  readonly 'more-than-one-insertion': Plain;
  readonly 'more-than-one-removal': Plain;
  /** What must name the line was charted on one of its lumens. */
  readonly 'finding-must-name-line': { readonly finding: LineFinding };
  readonly 'two-count-as-one': { readonly activity: LineCareActivity; readonly minutesApart: number };
  readonly 'dated-before-insertion': { readonly activity: LineCareActivity };
  readonly 'dated-after-removal': { readonly activity: LineCareActivity };
  /** A repair of which it is not clear which damage it was of. */
  readonly 'repair-of-unsaid-lumen': { readonly damaged: readonly Part[] };
  readonly 'repair-of-another-lumen': { readonly repaired: Part; readonly damaged: readonly Part[] };
}

/** A lumen, or the line as a whole. */
export type Part = Name | { readonly code: 'line-as-a-whole' };

/** What a hold forbade and was done all the same. */
export interface AgainstHoldSentences {
  readonly 'started-against-hold': {
    readonly lumen?: Name;
    readonly at?: When;
    readonly by: readonly ForbiddenBy[];
    readonly since: When;
    /** What to do about it, where it still runs. */
    readonly rest?: Of<WhatRunsSentences>;
  };
  readonly 'runs-against-hold': {
    readonly lumen?: Name;
    readonly by: readonly ForbiddenBy[];
    readonly since: When;
    readonly rest: Of<WhatRunsSentences>;
  };
  /** Anything else that was done while a hold that is still in force forbade it. */
  readonly 'done-against-hold': {
    readonly activity: LineCareActivity;
    readonly on: Name;
    readonly at: When;
    readonly by: readonly ForbiddenBy[];
    readonly since: When;
  };
}

/** What Tasks say that the record does not. */
export interface TaskIssueSentences {
  /** The last of so many Tasks of one care that were marked as done, with nothing charted since. */
  readonly 'done-by-task-alone': {
    readonly activity: LineCareActivity;
    readonly at: When;
    readonly times: number;
  };
  /** Several policies keep the same Tasks; each by its plans with their versions. */
  readonly 'kept-by-two-policies': { readonly policies: readonly string[] };
}

/** What the policy in force has no answer to. */
export interface UnansweredSentences {
  readonly 'finding-unanswered': {
    readonly finding: LineFinding;
    readonly values: readonly string[];
    readonly quantity?: QuantityRange;
    readonly at: When;
    readonly on?: Name;
  };
}

/** The limits that a value is held against, in its unit; of a weight those of the age. */
interface BelievedWithin {
  readonly sent: readonly SentQuantity[];
  readonly lowest: string;
  readonly highest: string;
  readonly unit: string;
  readonly ageDays?: number;
}

/** What can be wrong in a record: what it is, and what was done with it. */
export interface IssueSentences
  extends
    DeviceIssueSentences,
    EventIssueSentences,
    InputIssueSentences,
    ResultIssueSentences,
    PlannedIssueSentences,
    TimeIssueSentences,
    TaskIssueSentences,
    AgainstHoldSentences,
    Pick<WarningSentences, 'care-not-computed' | 'vesicant-in-small-vein' | 'runs-before-tip-is-confirmed'>,
    UnansweredSentences {}
