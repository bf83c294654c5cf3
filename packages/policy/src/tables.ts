import {
  connectorConditions,
  dressingConditions,
  lineCareActivities,
  lineFindings,
  type LineCareActivity,
  type LineFinding,
} from '@dwellward/profiles';

/** What the reader of policies must know of a finding. */
export interface FindingRow {
  readonly kind: 'coded' | 'components' | 'presence' | 'boolean' | 'quantity';
  readonly unit?: string;
  readonly answeredBy?: LineCareActivity;
  readonly toldAs?: string;
  readonly valuesFrom?: 'dressingCondition' | 'connectorCondition';
}

const codes = (concepts: readonly (readonly [string, ...unknown[]])[]): readonly string[] =>
  concepts.map(([code]) => code);

export const activityCodes = codes(lineCareActivities) as readonly LineCareActivity[];
export const findingCodes = codes(lineFindings) as readonly LineFinding[];

const rows: Readonly<Partial<Record<LineFinding, FindingRow>>> = {
  'dressing-condition': { kind: 'coded', toldAs: 'the dressing is', valuesFrom: 'dressingCondition' },
  'connector-condition': {
    kind: 'coded',
    toldAs: 'the connector is found with:',
    valuesFrom: 'connectorCondition',
  },
  'exit-site': { kind: 'components' },
  'incision-healed': { kind: 'boolean' },
  'aseptic-insertion': { kind: 'boolean' },
  'blood-return': { kind: 'coded' },
  'flush-resistance': { kind: 'coded' },
  'external-length': { kind: 'quantity', unit: 'cm' },
  damage: { kind: 'coded', answeredBy: 'repair' },
  'distance-from-skin': { kind: 'quantity', unit: 'cm' },
  'catheter-length': { kind: 'quantity', unit: 'cm' },
  'removed-catheter': { kind: 'coded' },
};

export function findingRow(finding: LineFinding): FindingRow {
  return rows[finding] ?? { kind: 'presence' };
}

const values: Readonly<Partial<Record<LineFinding, readonly string[]>>> = {
  'dressing-condition': codes(dressingConditions),
  'connector-condition': codes(connectorConditions),
  'exit-site': ['redness', 'swelling', 'tenderness', 'drainage', 'pus'],
  'blood-return': ['brisk', 'sluggish', 'none'],
  'flush-resistance': ['none', 'some', 'blocked'],
  damage: ['leak', 'cut', 'puncture'],
  'removed-catheter': ['whole', 'incomplete'],
};

export function valuesOf(finding: LineFinding): readonly string[] | undefined {
  return values[finding];
}
