import type { DrugCode } from '@dwellward/profiles';

/** A relative reference (`Device/12`), or the full URL of an entry that has no id. It names one resource of the input. */
export type Ref = string;

/** A time of the answer: the unit's wall-clock time with its offset, ISO 8601, for example `2026-11-27T07:30:00+01:00`. */
export type InstantText = string;

/** A point in time as it was recorded: `2026-03-29T07:30:00+02:00`, or a date, a month, a year. */
export interface RecordedTime {
  readonly text: string;
  readonly precision: 'instant' | 'day' | 'month' | 'year';
}

/** How long a line is, as its Device says, or as it was measured or changed since. */
export interface LineLength {
  /** The whole catheter, cm. */
  readonly wholeCm?: string;
  /** What the whole length was read from. */
  readonly ref: Ref;
  /** When it was measured; absent where the Device says it. */
  readonly at?: string;
  /** Outside the skin when inserted, cm. */
  readonly externalCm?: string;
  /** A later repair, which may have changed it. */
  readonly repairedAt?: string;
}

/** A quantity as it was sent, each part where it was given. */
export interface SentQuantity {
  readonly comparator?: string;
  readonly value?: number;
  readonly unit?: string;
}

/** What was sent of a result; of one that is worked out, everything that it was worked out from. */
export type AsSent = readonly SentQuantity[];

/** What is read of the laboratory’s results, and the weight. */
export type Analyte =
  | 'neutrophils'
  | 'leucocytes'
  | 'neutrophilsPercent'
  | 'segmentedPercent'
  | 'bandsPercent'
  | 'segmented'
  | 'bands'
  | 'platelets'
  | 'weight'
  | 'inr';

/** What the interval counts from. */
export interface CountedFrom {
  readonly basis:
    'event' | 'insertion' | 'earliest-event' | 'finding' | 'chain-event' | 'condition' | 'plan' | 'nothing';
  readonly ref?: Ref;
  readonly at?: InstantText;
  /** As recorded, where it was imprecise. */
  readonly imprecise?: RecordedTime;
}

/** What runs, as far as the record tells. */
export interface RunningDrug {
  /** As the record names it, for people. */
  readonly text?: string;
  /** What its codes name of the table of drugs; empty where they name none of it. */
  readonly codes: readonly DrugCode[];
  /** Whether its codes say what it is: one of `codes`, or none of the table. */
  readonly known: boolean;
  /** What its text alone may mean: a reason to ask, never to decide. */
  readonly mayBe: readonly DrugCode[];
}
