import {
  activityCodes,
  activityRow,
  bloodTypes,
  chartedItemConcepts,
  codeSystem,
  connectorConditions,
  deviceCodes,
  dressingConditions,
  dressingTypes,
  drugCodes,
  drugRow,
  findingValueConcepts,
  infusates,
  lineCareActivities,
  lineFindings,
  lineProperties,
  lineSites,
  lineTypes,
  otherDeviceCodes,
  resultCodes,
  securementTypes,
  standard,
  substanceCodes,
  substanceRow,
  temperatureCodes,
  type Concept,
} from '@dwellward/profiles';

/** Where a code stands in a resource: what may be put beside it depends on it. */
export type Place =
  'device' | 'property' | 'act' | 'used' | 'site' | 'charted' | 'value' | 'drug' | 'specimen' | 'alert';

interface System {
  readonly places: readonly Place[];
  readonly has: (code: string) => boolean;
}

const ours = (concepts: readonly Concept[], ...places: Place[]): System => ({
  places,
  has: (code) => concepts.some(([known]) => known === code),
});

// All that the reading of a record knows of the systems of others.
const drugs = (column: 'snomed' | 'rxnorm') => [
  ...drugCodes.flatMap((code) => drugRow(code)[column] ?? []),
  ...substanceCodes.flatMap((code) => substanceRow(code)[column] ?? []),
];
const snomed: ReadonlySet<string> = new Set([
  ...deviceCodes.keys(),
  ...otherDeviceCodes,
  ...activityCodes.flatMap((one) => [
    ...(activityRow(one).snomed ?? []),
    ...(activityRow(one).snomedOnLine ?? []),
  ]),
  ...drugs('snomed'),
  ...substanceCodes.flatMap((code) => substanceRow(code).problems?.snomed ?? []),
  ...(bloodTypes[standard.snomed] ?? []),
]);
const loinc: ReadonlySet<string> = new Set([...Object.values(resultCodes).flat(), ...temperatureCodes]);
const rxnorm: ReadonlySet<string> = new Set(drugs('rxnorm'));

// A code of the fifth level names a substance, also one that no table has.
const substanceOfAtc = /^[A-Z]\d{2}[A-Z]{2}\d{2}$/;

const systems: ReadonlyMap<string, System> = new Map<string, System>([
  [codeSystem.lineType, ours(lineTypes, 'device', 'charted')],
  [codeSystem.lineProperty, ours(lineProperties, 'property')],
  [codeSystem.lineCareActivity, ours(lineCareActivities, 'act', 'charted')],
  [codeSystem.lineFinding, ours(lineFindings, 'charted', 'value')],
  [codeSystem.findingValue, ours(findingValueConcepts, 'value')],
  [codeSystem.chartedItem, ours(chartedItemConcepts, 'charted', 'act', 'device')],
  [codeSystem.dressingType, ours(dressingTypes, 'used', 'value')],
  [codeSystem.securementType, ours(securementTypes, 'used', 'value')],
  [codeSystem.dressingCondition, ours(dressingConditions, 'value')],
  [codeSystem.connectorCondition, ours(connectorConditions, 'value')],
  [codeSystem.lineSite, ours(lineSites, 'site')],
  [codeSystem.infusate, ours(infusates, 'drug')],
  [
    standard.snomed,
    { places: ['device', 'act', 'drug', 'specimen', 'alert'], has: (code) => snomed.has(code) },
  ],
  [standard.loinc, { places: ['charted'], has: (code) => loinc.has(code) }],
  [standard.atc, { places: ['drug', 'alert'], has: (code) => substanceOfAtc.test(code) }],
  [standard.rxnorm, { places: ['drug', 'alert'], has: (code) => rxnorm.has(code) }],
  ...Object.entries(bloodTypes)
    .filter(([system]) => system !== standard.snomed)
    .map(([system, codes]): [string, System] => [
      system,
      { places: ['specimen'], has: (code) => codes.includes(code) },
    ]),
]);

/** The code systems that a map may lead to. */
export const targetSystems: readonly string[] = [...systems.keys()];

/** Whether a code is one that the reading of a record knows. */
export function isTarget(system: string, code: string): boolean {
  return systems.get(system)?.has(code) ?? false;
}

/** Whether a code of this system may stand at this place. */
export function fits(system: string, place: Place): boolean {
  return systems.get(system)?.places.includes(place) ?? false;
}

/** Whether a map may lead to a system. */
export function isTargetSystem(system: string): boolean {
  return systems.has(system);
}
