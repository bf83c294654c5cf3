import type { LineCareActivity } from './activities.js';
import { codeSystem } from './base.js';
import { connectorConditions, dressingConditions, type Concept } from './codes.js';
import type { FindingRow } from './finding-row.js';

const presence = {
  present: { display: 'Present' },
  absent: { display: 'Absent', saysNo: true },
} as const;

/**
 * Everything that is seen on a line, or on the patient for the line’s sake: the one list of findings. What the engine or
 * a reader must know of one is a column here, and a property of its concept in the code system line-finding.
 */
export const findings = {
  'dressing-condition': {
    display: 'Dressing condition',
    definition: 'State of the dressing; value from dressing-condition.',
    scope: 'exit-site',
    kind: 'coded',
    valuesFrom: 'dressingCondition',
    well: ['intact'],
    toldAs: 'the dressing is',
  },
  'connector-condition': {
    display: 'Connector condition',
    definition: 'State of a connector; value from connector-condition.',
    scope: 'lumen',
    kind: 'coded',
    valuesFrom: 'connectorCondition',
    well: ['clear'],
    toldAs: 'the connector is found with:',
  },
  'exit-site': {
    display: 'Exit site',
    definition: 'Components redness, swelling, tenderness, drainage, pus.',
    scope: 'exit-site',
    kind: 'components',
    toldBy: 'site-assessment',
  },
  redness: {
    display: 'Redness',
    definition: 'Component of exit-site.',
    scope: 'exit-site',
    kind: 'presence',
    values: presence,
    component: 'exit-site',
  },
  swelling: {
    display: 'Swelling',
    definition: 'Component of exit-site.',
    scope: 'exit-site',
    kind: 'presence',
    values: presence,
    component: 'exit-site',
    whileNew: true,
  },
  tenderness: {
    display: 'Tenderness',
    definition: 'Component of exit-site.',
    scope: 'exit-site',
    kind: 'presence',
    values: presence,
    component: 'exit-site',
  },
  drainage: {
    display: 'Drainage',
    definition: 'Component of exit-site.',
    scope: 'exit-site',
    kind: 'presence',
    values: presence,
    component: 'exit-site',
    whileNew: true,
  },
  pus: {
    display: 'Pus',
    definition: 'Component of exit-site: purulent drainage.',
    scope: 'exit-site',
    kind: 'presence',
    values: presence,
    component: 'exit-site',
  },
  'incision-healed': {
    display: 'Incision healed',
    definition: 'Whether the vein incision has healed: boolean.',
    scope: 'incision',
    kind: 'boolean',
  },
  'aseptic-insertion': {
    display: 'Aseptic insertion',
    definition: 'Whether full asepsis was kept at the insertion: boolean.',
    scope: 'line',
    kind: 'boolean',
    wrongIf: 'no',
  },
  'blood-return': {
    display: 'Blood return',
    definition: 'brisk, sluggish or none.',
    scope: 'lumen',
    kind: 'coded',
    values: {
      brisk: { display: 'Brisk', grade: 0 },
      sluggish: { display: 'Sluggish', grade: 1 },
      none: { display: 'None', grade: 2 },
    },
    lackCounts: true,
    well: ['brisk'],
    toldBy: 'patency-assessment',
    tellsPatency: true,
  },
  'flush-resistance': {
    display: 'Flush resistance',
    definition: 'none, some or blocked.',
    scope: 'lumen',
    kind: 'coded',
    values: {
      none: { display: 'None', saysNo: true, grade: 0 },
      some: { display: 'Some', grade: 1 },
      blocked: { display: 'Blocked', grade: 2 },
    },
    tellsPatency: true,
  },
  'external-length': {
    display: 'External length',
    definition: 'Catheter outside the skin, UCUM cm.',
    scope: 'line',
    kind: 'quantity',
    unit: 'cm',
    judgedBy: 'line.externalLengthChange',
    toldBy: 'external-length-measurement',
  },
  damage: {
    display: 'Damage',
    definition: 'leak, cut or puncture, with the distance from the skin in cm.',
    scope: 'line',
    kind: 'coded',
    unit: 'cm',
    values: {
      leak: { display: 'Leak' },
      cut: { display: 'Cut' },
      puncture: { display: 'Puncture' },
    },
    answeredBy: 'repair',
    stopsWhatRuns: true,
  },
  'distance-from-skin': {
    display: 'Distance from the skin',
    definition: 'Component of damage: intact catheter between the skin and the damage, UCUM cm.',
    scope: 'line',
    kind: 'quantity',
    unit: 'cm',
    component: 'damage',
  },
  'air-entry': {
    display: 'Air entry',
    definition: 'Air has entered the line or the vein: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
    stopsWhatRuns: true,
  },
  bleeding: {
    display: 'Bleeding',
    definition: 'The exit site or the incision bleeds: present or absent.',
    scope: 'exit-site',
    kind: 'presence',
    values: presence,
  },
  extravasation: {
    display: 'Extravasation',
    definition: 'Fluid has left the vein for the tissue: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
    stopsWhatRuns: true,
  },
  fever: {
    display: 'Fever',
    definition: 'Fever, or shivers after a flush, with a line in place: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
  },
  'body-temperature': {
    display: 'Body temperature',
    definition: 'Temperature of the patient, UCUM Cel.',
    scope: 'line',
    kind: 'quantity',
    unit: 'Cel',
    ofPatient: true,
  },
  'tunnel-signs': {
    display: 'Tunnel signs',
    definition:
      'Redness, hardness or tenderness along the tunnel, more than 2 cm from the exit site: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
  },
  'arm-neck-swelling': {
    display: 'Arm or neck swelling',
    definition: 'The arm, the neck or the face on the line’s side is swollen: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
  },
  'chest-symptoms': {
    display: 'Chest symptoms',
    definition:
      'Pain in the chest, shortness of breath, or a heart that races or beats irregularly, with a line in place or just taken out: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
  },
  'sepsis-signs': {
    display: 'Signs of sepsis',
    definition:
      'Fast breathing, low blood pressure, confusion, cold or mottled skin, hardly any urine, with a line in place: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
  },
  migration: {
    display: 'Migration',
    definition: 'The line is longer or shorter outside the skin, or its cuff is seen: present or absent.',
    scope: 'line',
    kind: 'presence',
    values: presence,
  },
  'catheter-length': {
    display: 'Catheter length',
    definition:
      'Whole length of the catheter as it was trimmed or repaired, UCUM cm; as a component of removed-catheter what came out.',
    scope: 'line',
    kind: 'quantity',
    unit: 'cm',
    component: 'removed-catheter',
  },
  'removed-catheter': {
    display: 'Removed catheter',
    definition:
      'A line that was taken out: whole or incomplete, with its length in cm as a quantity or a component catheter-length.',
    scope: 'line',
    kind: 'coded',
    unit: 'cm',
    values: {
      whole: { display: 'Whole' },
      incomplete: { display: 'Incomplete' },
    },
    well: ['whole'],
  },
  'cleared-for-use': {
    display: 'Cleared for use',
    definition:
      'Whoever is responsible has looked at everything that kept the line from use, and lets it be used again: present or absent. It names the line, or every lumen at one time. After a repair: the waiting time of the kit is over.',
    scope: 'line',
    kind: 'presence',
    values: presence,
    well: ['present'],
    wholeLine: true,
  },
} as const satisfies Readonly<Record<string, FindingRow<string, LineCareActivity>>>;

export type LineFinding = keyof typeof findings;

// The parts of a finding name a finding, which only this type can check.
const rows: Readonly<Record<LineFinding, FindingRow<LineFinding, LineCareActivity>>> = findings;

/** Every finding, in the order of the table. */
export const findingCodes = Object.keys(findings) as readonly LineFinding[];

/** The findings as concepts of their code system. */
export const lineFindings: readonly Concept<LineFinding>[] = findingCodes.map((code) => [
  code,
  rows[code].display,
  rows[code].definition,
]);

/**
 * What the table says of a finding.
 * @example
 * ```ts
 * findingRow('dressing-condition').display; // 'Dressing condition'
 * ```
 */
export function findingRow(finding: LineFinding): FindingRow<LineFinding, LineCareActivity> {
  return rows[finding];
}

/**
 * The findings of which the table says so, in its order.
 * @example
 * ```ts
 * findingsWhere(({ tellsPatency }) => tellsPatency).includes('blood-return'); // true
 * ```
 */
export function findingsWhere(
  says: (row: FindingRow<LineFinding, LineCareActivity>) => unknown,
): readonly LineFinding[] {
  return findingCodes.filter((code) => Boolean(says(rows[code])));
}

const conditions = {
  dressingCondition: dressingConditions,
  connectorCondition: connectorConditions,
} as const;

/**
 * The values that a finding may have: those of a code system of their own, its parts, or those in the table. Undefined
 * where a hospital may grade it in words of its own, and where its value is no code.
 * @example
 * ```ts
 * valuesOf('blood-return'); // ['brisk', 'sluggish', 'none']
 * ```
 */
export function valuesOf(finding: LineFinding): readonly string[] | undefined {
  const { kind, values, valuesFrom } = rows[finding];
  if (valuesFrom !== undefined) return conditions[valuesFrom].map(([code]) => code);
  if (kind === 'components') return findingsWhere(({ component }) => component === finding);
  return kind === 'coded' ? Object.keys(values ?? {}) : undefined;
}

/**
 * The code system that the values of a finding are of: one of their own, that of the findings for its parts, else that of
 * all other values.
 * @example
 * ```ts
 * valueSystemOf('blood-return') === codeSystem.findingValue; // true
 * ```
 */
export function valueSystemOf(finding: LineFinding): string {
  const { kind, valuesFrom } = rows[finding];
  if (valuesFrom !== undefined) return codeSystem[valuesFrom];
  return kind === 'components' ? codeSystem.lineFinding : codeSystem.findingValue;
}

/** Words by which a value says no where the table does not know it: records say it in more ways than ours. */
export const wordsForNo: ReadonlySet<string> = new Set(['absent', 'none', 'no', 'negative']);

/**
 * Whether a value says that nothing was found; one that the table does not know goes by `wordsForNo`.
 * @example
 * ```ts
 * saysNo('flush-resistance', 'none'); // true
 * ```
 */
export function saysNo(finding: LineFinding, value: string): boolean {
  const { values, lackCounts } = rows[finding];
  if (lackCounts) return false;
  const known = values?.[value];
  return known === undefined ? wordsForNo.has(value) : known.saysNo === true;
}

/**
 * Whether a value says that all is well: that nothing was found, or that what was found is as it should be.
 * @example
 * ```ts
 * saysWell('blood-return', 'brisk'); // true
 * saysWell('blood-return', 'none'); // false
 * ```
 */
export function saysWell(finding: LineFinding, value: string): boolean {
  return saysNo(finding, value) || rows[finding].well?.includes(value) === true;
}

/**
 * How far from open a lumen is by a value: 0 open, 1 sluggish, 2 blocked; undefined where it does not tell.
 * @example
 * ```ts
 * gradeOf('flush-resistance', 'blocked'); // 2
 * ```
 */
export function gradeOf(finding: LineFinding, value: string): 0 | 1 | 2 | undefined {
  return rows[finding].values?.[value]?.grade;
}
