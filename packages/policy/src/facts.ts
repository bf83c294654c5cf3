import type { DressingType, Infusate, LineType, SecurementType } from '@dwellward/profiles';

/**
 * A quantity that may be known exactly or only between two limits (a laboratory's `<0.1`).
 * `low` and `high` are decimal numbers as text in `unit`; an absent limit is open to that side.
 * An exact value has `low === high` and both ends included.
 */
export interface QuantityRange {
  readonly low?: string;
  readonly lowIncluded: boolean;
  readonly high?: string;
  readonly highIncluded: boolean;
  readonly unit: string;
}

/** Where a patient is looked after: from the open Encounter and the Location of the stay. */
export type CareSetting = 'inpatient' | 'intensive-care' | 'ambulatory' | 'home';

/**
 * When something happened, in milliseconds since 1970 UTC, both ends included: what is known by its day alone may have
 * been at any time of it. One that is known exactly has `lowMs === highMs`.
 */
export interface TimeRange {
  readonly lowMs: number;
  readonly highMs: number;
}

type Camel<Text extends string> = Text extends `${infer Head}-${infer Tail}`
  ? `${Head}${Capitalize<Camel<Tail>>}`
  : Text;

/** What a rule's conditions can ask about, by full name. A fact that is absent is unknown, never false. */
export interface StaticFacts {
  readonly 'line.type'?: LineType;
  readonly 'line.cuffed'?: boolean;
  readonly 'line.lumenCount'?: number;
  /** Whole calendar days since the insertion in the unit's zone: 0 on the day itself. */
  readonly 'line.dwellDays'?: number;
  readonly 'line.dressing'?: DressingType;
  /** Ports: a needle is in. Every other line is always accessed. */
  readonly 'line.accessed'?: boolean;
  /** False where an insertion is on record and neither an infusion nor a blood draw through the line. */
  readonly 'line.used'?: boolean;
  /** What holds the catheter besides sutures and the dressing. */
  readonly 'line.securement'?: Exclude<SecurementType, 'sutures'>;
  readonly 'line.sutured'?: boolean;
  /** Whether the line has clamps of its own. */
  readonly 'line.clamp'?: 'integral' | 'none';
  /** Whole calendar days since the removal: 0 on the day itself; unknown while the line is in place. */
  readonly 'line.removedDays'?: number;
  /** How far the length outside the skin has changed since the tip was confirmed last, or since the insertion. */
  readonly 'line.externalLengthChange'?: QuantityRange;
  /** Open: neither infusing nor locked, since what ran ended or since a locked lumen was used. */
  readonly 'lumen.use'?: 'infusing' | 'locked' | 'open';
  readonly 'lumen.infusate'?: Infusate;
  /** Intermittent: within 24 h an infusion ended, the lumen was locked or disconnected, and another began. */
  readonly 'lumen.infusionPattern'?: 'continuous' | 'intermittent';
  readonly 'lumen.primingVolume'?: QuantityRange;
  /** Doses for a blocked lumen since it was last found open; 0 where none is on record. */
  readonly 'lumen.dosesGiven'?: number;
  readonly 'patient.ageDays'?: number;
  readonly 'patient.weight'?: QuantityRange;
  readonly 'patient.setting'?: CareSetting;
  readonly 'labs.anc'?: QuantityRange;
  readonly 'labs.platelets'?: QuantityRange;
  readonly 'labs.inr'?: QuantityRange;
}

/** When an activity was last done on the target: `last.tipConfirmation`; absent where never, as far as is on record. */
export type LastName = `last.${Camel<LineCareActivity>}`;
/** When a finding was last found on the target, with any value or with one: `found.damage`, `found.bloodReturn.brisk`. */
export type FoundName = `found.${Camel<LineFinding>}` | `found.${Camel<LineFinding>}.${string}`;
/** The latest charted value of a finding that is a quantity or a yes or no: `latest.bodyTemperature`. */
export type LatestName = `latest.${Camel<LineFinding>}`;
/** Of the trigger: when it occurred, and when what was found was answered by the act that puts it right. */
export type TriggerFactName = 'began' | 'answered';

export type StaticFactName = keyof StaticFacts;
export type TimeFactName = LastName | FoundName | TriggerFactName;
/** The full name of a fact, for example `labs.anc`. */
export type FactName = StaticFactName | TimeFactName | LatestName;

export type Facts = StaticFacts & { readonly [Name in TimeFactName]?: TimeRange } & {
  readonly [Name in LatestName]?: boolean | QuantityRange;
};

type Kind =
  | { readonly kind: 'code'; readonly codes: readonly string[] }
  | { readonly kind: 'boolean' }
  | { readonly kind: 'integer' }
  | { readonly kind: 'quantity'; readonly unit: string };

const code = (...codes: string[]): Kind => ({ kind: 'code', codes });

/**
 * Every fact by its full name: what kind of value it has and, for quantities, the UCUM unit in which facts are
 * held and thresholds compared. The lint refuses names, values and units that do not stand here.
 */
export const factKinds = {
  'line.type': code(
    'tunneled-cvc',
    'nontunneled-cvc',
    'picc',
    'implanted-port',
    'tunneled-dialysis-catheter',
    'nontunneled-dialysis-catheter',
    'midline',
  ),
  'line.cuffed': { kind: 'boolean' },
  'line.lumenCount': { kind: 'integer' },
  'line.dwellDays': { kind: 'integer' },
  'line.dressing': code('gauze-dressing', 'transparent-dressing', 'chlorhexidine-dressing', 'no-dressing'),
  'line.incisionHealed': { kind: 'boolean' },
  'line.tipConfirmed': { kind: 'boolean' },
  'line.accessed': { kind: 'boolean' },
  'line.used': { kind: 'boolean' },
  'line.asepticInsertion': { kind: 'boolean' },
  'line.securement': code('adhesive-device', 'subcutaneous-anchor', 'tissue-adhesive', 'no-securement'),
  'line.sutured': { kind: 'boolean' },
  'line.clamp': code('integral', 'none'),
  'line.removedDays': { kind: 'integer' },
  'line.externalLengthChange': { kind: 'quantity', unit: 'cm' },
  'line.signDwellDays': { kind: 'integer' },
  'lumen.use': code('infusing', 'locked', 'open'),
  'lumen.infusate': code(
    'blood',
    'fat-emulsion',
    'propofol',
    'parenteral-nutrition',
    'pressure-monitoring',
    'other',
  ),
  'lumen.infusionPattern': code('continuous', 'intermittent'),
  'lumen.primingVolume': { kind: 'quantity', unit: 'mL' },
  'lumen.dosesGiven': { kind: 'integer' },
  'lumen.lookMinutesAfterDose': { kind: 'integer' },
  'patient.ageDays': { kind: 'integer' },
  'patient.setting': code('inpatient', 'intensive-care', 'ambulatory', 'home'),
  'patient.weight': { kind: 'quantity', unit: 'kg' },
  'labs.anc': { kind: 'quantity', unit: '10*9/L' },
  'labs.platelets': { kind: 'quantity', unit: '10*9/L' },
  'labs.inr': { kind: 'quantity', unit: '1' },
} as const satisfies Record<string, Kind>;

/** The full name of a fact, for example `labs.anc`. */
export type FactName = keyof typeof factKinds;

/** Every fact in words for people: it completes “not known: …”. */
export const factWords: Readonly<Record<FactName, string>> = {
  'line.type': 'the type of the line',
  'line.cuffed': 'whether the line has a cuff',
  'line.lumenCount': 'how many lumens the line has',
  'line.dwellDays': 'how long the line has been in',
  'line.dressing': 'which dressing is on',
  'line.incisionHealed': 'whether the incision has healed',
  'line.tipConfirmed': 'whether the tip was confirmed',
  'line.accessed': 'whether a needle is in the port',
  'line.used': 'whether the line was ever used',
  'line.asepticInsertion': 'whether full asepsis was kept at the insertion',
  'line.securement': 'what holds the line',
  'line.sutured': 'whether there are stitches',
  'line.clamp': 'whether the line has clamps of its own',
  'line.removedDays': 'how long the line has been out',
  'line.externalLengthChange': 'how much the length outside has changed',
  'line.signDwellDays': 'how long the line had been in when this was found',
  'lumen.use': 'whether anything runs through the lumen',
  'lumen.infusate': 'what runs through the lumen',
  'lumen.infusionPattern': 'whether it runs without a break',
  'lumen.dosesGiven': 'how many doses the lumen was given',
  'lumen.lookMinutesAfterDose': 'how long after the dose the lumen was looked at',
  'lumen.primingVolume': 'the volume of the lumen',
  'patient.ageDays': 'the age',
  'patient.setting': 'where the patient is looked after',
  'patient.weight': 'the weight',
  'labs.anc': 'the neutrophil count',
  'labs.platelets': 'the platelet count',
  'labs.inr': 'the INR',
};
