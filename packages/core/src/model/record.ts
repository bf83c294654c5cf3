import type {
  DressingType,
  Infusate,
  LineCareActivity,
  LineFinding,
  LineType,
  RecordIssueCode,
  SecurementType,
  SubstanceCode,
} from '@dwellward/profiles';
import type { CareSetting, QuantityRange, Begins } from '@dwellward/policy';
import type { AsSent, LineLength, RecordedTime, Ref, RunningDrug } from './basics.js';
import type { Name, Reading, Sentence } from './sentences.js';
import type { IssueSentences } from './sentences/issues.js';

export type { AsSent, LineLength, RecordedTime, Ref, RunningDrug, SentQuantity } from './basics.js';

/** A contradiction or something that can't be used. It is reported, never guessed away. */
export interface RecordIssue {
  readonly code: RecordIssueCode;
  readonly severity: 'high' | 'moderate' | 'low';
  /** The resource it is about and, in FHIRPath, where in it. */
  readonly resource: Ref;
  readonly path: string;
  /** What is wrong, and what was done with it. */
  readonly sentence: Sentence<keyof IssueSentences>;
  readonly patient?: Ref;
  readonly line?: Ref;
  /** Further resources that the issue is about. */
  readonly related: readonly Ref[];
}

/** One lumen of a line. A line that states no lumens has one, whose `ref` is the line's own. */
export interface Lumen {
  /** The lumen's Device, or the line's with a fragment (`Device/12#lumen-2`) where lumens are only counted. */
  readonly ref: Ref;
  /** The Device to point to in FHIR: the lumen's own, else the line's. */
  readonly device: Ref;
  readonly name: Name;
  readonly primingVolume?: QuantityRange;
  readonly innerDiameterMm?: string;
  readonly lengthCm?: string;
}

/** What was done. Only `completed` events count; the others are kept so that nothing is lost. */
export interface CareEvent {
  readonly ref: Ref;
  readonly activity: LineCareActivity;
  readonly status: string;
  /** In the words of the record: why it was not done; of a removal, why the line was taken out. */
  readonly reason?: string;
  /** When it was done; of a period, its end. */
  readonly at?: RecordedTime;
  /** Start of the period, where it has one. */
  readonly from?: RecordedTime;
  /** The lumen it was done to; absent where the line as a whole. */
  readonly lumen?: Ref;
  readonly site: 'exit-site' | 'incision';
  /** True where it was done on another line for the patient as a whole: it counts for a line that is in at that time. */
  readonly ofPatient?: true;
  readonly dressing?: DressingType;
  /** What was put on to hold the catheter; absent where nothing is said of it. */
  readonly securement?: readonly SecurementType[];
  /** Its business identifiers (`system|value`) and the Tasks it was done for: the same in two events says they are one. */
  readonly identities?: readonly string[];
}

/** What was seen. */
export interface Finding {
  readonly ref: Ref;
  readonly finding: LineFinding;
  readonly status: string;
  readonly at?: RecordedTime;
  readonly lumen?: Ref;
  readonly site: 'exit-site' | 'incision';
  /** Codes of the value, and of the components that are present. */
  readonly values: readonly string[];
  readonly flag?: boolean;
  readonly quantity?: QuantityRange;
  /** True where it was seen of the patient, not of the line: it counts for a line that is in place at that time. */
  readonly ofPatient?: true;
  /** What an item that follows from it has to say of it. */
  readonly reading?: Reading;
}

/** A laboratory value or a weight in the unit of its fact. */
export interface Measurement {
  /** Leucocytes as the most that the neutrophils among them can be: a low count often comes without a differential. */
  readonly kind: 'anc' | 'leucocytes' | 'platelets' | 'inr' | 'weight';
  /** The Observation, or the ones it was worked out from. */
  readonly refs: readonly Ref[];
  /** 3 corrected or amended, 2 final, 1 preliminary. */
  readonly trust: 3 | 2 | 1;
  readonly at: RecordedTime;
  readonly value: QuantityRange;
  /** The value and unit as they were sent, for people. */
  readonly asSent: AsSent;
  readonly derived: boolean;
}

/** Blood that was drawn for samples, by its Specimen; the discard is not in it. */
export interface DrawnBlood {
  readonly ref: Ref;
  /** Absent where no time is on record that can be read. */
  readonly at?: RecordedTime;
  /** Decimal text; absent where no volume is on record that can be read. */
  readonly volumeMl?: string;
  /** False where the Specimen does not say that it is blood. */
  readonly sure: boolean;
}

/** Heparin that a patient was given, through a line or in any other way. */
export interface HeparinDose {
  readonly ref: Ref;
  /** Absent where no time is on record that can be read, and while it runs. */
  readonly at?: RecordedTime;
  /** Of one that runs: since when. Nobody has charted yet how much it is. */
  readonly runsSince?: RecordedTime;
  /** Decimal text; absent where no amount is on record that can be read. */
  readonly units?: string;
}

/** Something running through a lumen. */
export interface Infusion {
  readonly ref: Ref;
  readonly lumen?: Ref;
  readonly from?: RecordedTime;
  /** Absent while it runs. */
  readonly until?: RecordedTime;
  readonly running: boolean;
  readonly infusate?: Infusate;
  /** Absent where nothing is said of it. */
  readonly drug?: RunningDrug;
}

/** An entry of the record that speaks against a drug, an antiseptic or a material of a line’s care. */
export interface PatientAlert {
  readonly ref: Ref;
  readonly kind: 'allergy' | 'problem' | 'flag';
  readonly substance: SubstanceCode;
  /** False where only a text may mean it. */
  readonly sure: boolean;
  /** As the record words it. */
  readonly text?: string;
  /** When it was noted, or began. */
  readonly at?: RecordedTime;
  /** True where the record says that a problem is over: it is asked about all the same. */
  readonly over?: true;
}

/** A patient's own order of a line-care activity: the top layer of the policy. */
export interface Order {
  readonly ref: Ref;
  readonly activity: LineCareActivity;
  /** The line or lumen it names; every line of the patient where it names none. */
  readonly target?: Ref;
  readonly begins: Begins;
  /** When it begins to count: the start of its bounds, else when it was written. */
  readonly from?: RecordedTime;
  /** The end of its bounds; of a date, the whole day counts. */
  readonly until?: RecordedTime;
}

/**
 * An insertion that is planned: one that is still to come, or was: a ServiceRequest with its Appointments, or a Procedure in
 * preparation. The times are settled, what they mean at a moment is not.
 */
export interface PlannedInsertion {
  /** The resource that stands for it: the request where there is one. */
  readonly ref: Ref;
  /** Everything that it was read from. */
  readonly refs: readonly Ref[];
  /** Absent where no time can be read. */
  readonly at?: RecordedTime;
  /** When it was written; before that it is not known. */
  readonly since?: RecordedTime;
  readonly withdrawn: boolean;
  /** True where the request says that it is completed. */
  readonly completed: boolean;
  /** The completed insertions of the patient that may be the planned one; `named` where one says that it is based on it. */
  readonly insertions: readonly { readonly ref: Ref; readonly at: RecordedTime; readonly named: boolean }[];
}

/** Where a patient was looked after for a time: all of an Encounter, or the part of it in one place. */
export interface Stay {
  readonly value: CareSetting;
  readonly ref: Ref;
  /** True where the place says it, which is nearer than the class of the Encounter. */
  readonly byPlace: boolean;
  readonly from?: RecordedTime;
  /** Absent while it lasts. */
  readonly until?: RecordedTime;
}

/** One patient on one unit for a time, with a line or without: what patient days are counted from. */
export interface UnitStay {
  readonly patient: Ref;
  readonly encounter: Ref;
  /** The name of the ward; absent where the record names none. */
  readonly unit?: string;
  readonly from?: RecordedTime;
  /** Absent while it lasts. */
  readonly until?: RecordedTime;
  /** True where it is over, and nothing says since when. */
  readonly endUnknown?: true;
}

/** Whose line it is and where they are. */
export interface PatientRecord {
  readonly ref: Ref;
  readonly name?: string;
  readonly birthDate?: RecordedTime;
  readonly unit?: string;
  readonly bed?: string;
  /** The Location nearest to the patient now, the bed where the record names one. */
  readonly at?: Ref;
  /** Where the patient was looked after, and when. */
  readonly stays: readonly Stay[];
  readonly measurements: readonly Measurement[];
  readonly drawn: readonly DrawnBlood[];
  readonly heparin: readonly HeparinDose[];
  /** What speaks against something that care uses, by its reference. */
  readonly alerts: readonly PatientAlert[];
  /** Where the patient has died: when, as far as it is known. */
  readonly deceased?: { readonly ref: Ref; readonly at?: RecordedTime };
}

/** Where a line enters the body. */
export interface BodySite {
  readonly ref: Ref;
  /** As the record words it; of a code alone, what that is called. */
  readonly text: string;
  readonly side?: 'left' | 'right';
}

/** Everything known of one line. Facts keep the reference of the resource they came from. */
export interface LineRecord {
  readonly ref: Ref;
  readonly name: Name;
  readonly type?: LineType;
  readonly cuffed?: boolean;
  /** Whether it has clamps of its own. */
  readonly clamp?: 'integral' | 'none';
  readonly length?: LineLength;
  readonly bodySite?: BodySite;
  readonly patient: PatientRecord;
  /** At least one. */
  readonly lumens: readonly Lumen[];
  /** False where the Device is entered-in-error or inactive. */
  readonly valid: boolean;
  /** As they were read, in no order of time; insertion and removal are among them. `timelineOf` places them in time. */
  readonly events: readonly CareEvent[];
  readonly findings: readonly Finding[];
  readonly infusions: readonly Infusion[];
  readonly orders: readonly Order[];
  /** Of a line that is planned. One that has no Device yet goes by the reference of that plan’s resource. */
  readonly planned?: PlannedInsertion;
}

/**
 * Something that was given of a line, or of a patient who has one, and was not understood: one code, value or status, with
 * how many resources have it. What counts as such is said at `understood` (`record/understanding.ts`).
 */
export interface NotUnderstood {
  readonly resourceType:
    'Device' | 'Procedure' | 'Observation' | 'MedicationAdministration' | 'ServiceRequest';
  /** The element, in FHIRPath: `Procedure.code`. */
  readonly path: string;
  readonly system?: string;
  /** The code or the status; absent where there is none, or a text alone. */
  readonly code?: string;
  readonly text?: string;
  /** Whether one of them points to a line or a lumen by itself. */
  readonly onLine: boolean;
  /** Resources. */
  readonly count: number;
  /** A few of them. */
  readonly examples: readonly Ref[];
  /** All of them, by patient; one without a patient where the record names none. */
  readonly patients: readonly { readonly patient?: Ref; readonly resources: readonly Ref[] }[];
}

/** How many resources of a type concern no line, and were not looked at any further. */
export interface OtherBusiness {
  readonly resourceType: string;
  readonly count: number;
}

/** What was read: every line, and every issue with any of the resources. */
export interface Records {
  /** What was given of lines and not understood, what points to a line first: every output says it on top. */
  readonly notUnderstood: readonly NotUnderstood[];
  /** Counted, so that nothing is passed over in silence. */
  readonly otherBusiness: readonly OtherBusiness[];
  readonly lines: readonly LineRecord[];
  readonly issues: readonly RecordIssue[];
  /** Of everybody in the record, in the order of the Encounters. */
  readonly unitStays: readonly UnitStay[];
}
