import {
  activityCodes,
  dressingTypes,
  findingCodes,
  findingRow,
  infusates,
  lineTypes,
  securementTypes,
  valuesOf,
  type DressingType,
  type Infusate,
  type LineCareActivity,
  type LineFinding,
  type LineType,
  type SecurementType,
} from '@dwellward/profiles';

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
  /** Something runs through any lumen; false where every lumen is known not to be infusing. */
  readonly 'line.infusing'?: boolean;
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
  /** What runs is a drug that keeps up the circulation, or that harms when it stops suddenly; false where nothing runs. */
  readonly 'lumen.keepsCirculation'?: boolean;
  /** What runs is a drug that harms the tissue that it leaks into; false where nothing runs. */
  readonly 'lumen.vesicantRuns'?: boolean;
  readonly 'lumen.primingVolume'?: QuantityRange;
  /**
   * When the lumen was last found open, nothing being wrong with its patency then: by brisk blood return, or by a flush
   * without resistance where blood return was not found missing or sluggish.
   */
  readonly 'lumen.foundOpen'?: TimeRange;
  /** Doses for a blocked lumen since it was last found open; 0 where none is on record. */
  readonly 'lumen.dosesGiven'?: number;
  readonly 'patient.ageDays'?: number;
  readonly 'patient.deceased'?: boolean;
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

/** What kind of value a fact has; a quantity has the UCUM unit in which facts are held and limits compared. */
export type Kind =
  | { readonly kind: 'code'; readonly codes: readonly string[] }
  | { readonly kind: 'boolean' }
  | { readonly kind: 'integer' }
  | { readonly kind: 'quantity'; readonly unit: string }
  | { readonly kind: 'time' };

const code = (...codes: string[]): Kind => ({ kind: 'code', codes });
const codesOf = (concepts: readonly (readonly [string, ...unknown[]])[], without?: string): Kind =>
  code(...concepts.map(([one]) => one).filter((one) => one !== without));
const time: Kind = { kind: 'time' };

/** Every fact whose name stands fixed, with the kind of its value; `factKind` knows the others too. */
export const factKinds: Readonly<Record<StaticFactName, Kind>> = {
  'line.type': codesOf(lineTypes, 'lumen'),
  'line.cuffed': { kind: 'boolean' },
  'line.lumenCount': { kind: 'integer' },
  'line.dwellDays': { kind: 'integer' },
  'line.dressing': codesOf(dressingTypes),
  'line.accessed': { kind: 'boolean' },
  'line.used': { kind: 'boolean' },
  'line.infusing': { kind: 'boolean' },
  'line.securement': codesOf(securementTypes, 'sutures'),
  'line.sutured': { kind: 'boolean' },
  'line.clamp': code('integral', 'none'),
  'line.removedDays': { kind: 'integer' },
  'line.externalLengthChange': { kind: 'quantity', unit: 'cm' },
  'lumen.use': code('infusing', 'locked', 'open'),
  'lumen.infusate': codesOf(infusates),
  'lumen.infusionPattern': code('continuous', 'intermittent'),
  'lumen.keepsCirculation': { kind: 'boolean' },
  'lumen.vesicantRuns': { kind: 'boolean' },
  'lumen.primingVolume': { kind: 'quantity', unit: 'mL' },
  'lumen.foundOpen': { kind: 'time' },
  'lumen.dosesGiven': { kind: 'integer' },
  'patient.ageDays': { kind: 'integer' },
  'patient.deceased': { kind: 'boolean' },
  'patient.setting': code('inpatient', 'intensive-care', 'ambulatory', 'home'),
  'patient.weight': { kind: 'quantity', unit: 'kg' },
  'labs.anc': { kind: 'quantity', unit: '10*9/L' },
  'labs.platelets': { kind: 'quantity', unit: '10*9/L' },
  'labs.inr': { kind: 'quantity', unit: '1' },
};

/**
 * A code in the words of a fact’s name: `tip-confirmation` is `tipConfirmation`.
 * @example
 * ```ts
 * camelCase('dressing-change'); // 'dressingChange'
 * ```
 */
export function camelCase(kebab: string): string {
  return kebab.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());
}

/** What a fact whose name is made from the tables of activities and findings is about. */
export type FactSubject =
  | { readonly group: 'last'; readonly activity: LineCareActivity }
  /** `value` is the code where the table knows the finding’s values, else the name as it is written. */
  | { readonly group: 'found'; readonly finding: LineFinding; readonly value?: string }
  | { readonly group: 'latest'; readonly finding: LineFinding };

interface Made {
  readonly kind: Kind;
  readonly subject?: FactSubject;
}

function madeFacts(): ReadonlyMap<string, Made> {
  const made = new Map<string, Made>();
  for (const activity of activityCodes)
    made.set(`last.${camelCase(activity)}`, { kind: time, subject: { group: 'last', activity } });
  for (const finding of findingCodes) {
    const name = camelCase(finding);
    const { kind, unit, values = {} } = findingRow(finding);
    made.set(`found.${name}`, { kind: time, subject: { group: 'found', finding } });
    for (const value of valuesOf(finding) ?? Object.keys(values)) {
      const subject = { group: 'found', finding, value } as const;
      made.set(`found.${name}.${camelCase(value)}`, { kind: time, subject });
    }
    const latest = { group: 'latest', finding } as const;
    if (kind === 'boolean') made.set(`latest.${name}`, { kind: { kind: 'boolean' }, subject: latest });
    // A coded finding may come with a length: of damage the distance from the skin.
    if (unit !== undefined) made.set(`latest.${name}`, { kind: { kind: 'quantity', unit }, subject: latest });
  }
  made.set('began', { kind: time });
  made.set('answered', { kind: time });
  return made;
}

const made = madeFacts();

// Of these a hospital may chart a grade in words of its own.
const graded: ReadonlyMap<string, LineFinding> = new Map(
  findingCodes
    .filter((finding) => findingRow(finding).kind === 'presence')
    .map((finding) => [camelCase(finding), finding]),
);

function gradeOf(name: string): FactSubject | undefined {
  const match = /^found\.(\w+)\.([A-Za-z]\w*)$/.exec(name);
  const finding = graded.get(match?.[1] ?? '');
  const value = match?.[2];
  return finding === undefined || value === undefined ? undefined : { group: 'found', finding, value };
}

/** Every fact by its full name, those of the tables among them: what a mistyped name is compared with. */
export const factNames: readonly FactName[] = [...Object.keys(factKinds), ...made.keys()] as FactName[];

/** The words before the first dot of the facts’ names, and the facts that have none. */
export const factGroups: readonly string[] = [...new Set(factNames.map((name) => name.split('.')[0] ?? ''))];

/**
 * The kind of value of a fact; undefined where there is no fact of that name.
 * @example
 * ```ts
 * factKind('patient.ageDays'); // { kind: 'integer' }
 * ```
 */
export function factKind(name: string): Kind | undefined {
  if (Object.hasOwn(factKinds, name)) return factKinds[name as StaticFactName];
  return made.get(name)?.kind ?? (gradeOf(name) === undefined ? undefined : time);
}

/**
 * Whether a full name is that of a fact.
 * @example
 * ```ts
 * isFactName('patient.ageDays'); // true
 * isFactName('patient.shoeSize'); // false
 * ```
 */
export function isFactName(name: string): name is FactName {
  return factKind(name) !== undefined;
}

/**
 * What a fact of `last`, `found` or `latest` is about; undefined of all others.
 * @example
 * ```ts
 * factSubject('last.repair'); // { group: 'last', activity: 'repair' }
 * ```
 */
export function factSubject(name: string): FactSubject | undefined {
  return made.get(name)?.subject ?? gradeOf(name);
}
