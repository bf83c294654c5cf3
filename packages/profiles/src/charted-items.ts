import type { Concept } from './codes.js';
import { findingCodes, findingRow } from './findings.js';

/** What a row of a nursing chart is where it is neither an act nor a finding. */
export interface ChartedItemRow {
  readonly display: string;
  readonly definition: string;
  /** What it does to the line that the row is of. */
  readonly tells: 'line' | 'dressing' | 'exchange' | 'nothing';
}

/** Rows of a nursing chart that a map of codes can name beside the activities and the findings. */
export const chartedItems = {
  'line-in-place': {
    display: 'Line in place',
    definition: 'A row that is charted only while a line of this type is in: its site, its number, its look.',
    tells: 'line',
  },
  'dressing-in-place': {
    display: 'Dressing in place',
    definition: 'The value says which dressing was put on at the last change.',
    tells: 'dressing',
  },
  'exchange-over-wire': {
    display: 'Exchange over a wire',
    definition: 'The line was taken out and a new one put in through its site.',
    tells: 'exchange',
  },
  'other-business': {
    display: 'Other business',
    definition: 'Somebody has looked at it: it concerns no line, and is not to be listed again.',
    tells: 'nothing',
  },
} as const satisfies Readonly<Record<string, ChartedItemRow>>;

export type ChartedItem = keyof typeof chartedItems;

/** The rows as concepts of their code system. */
export const chartedItemConcepts: readonly Concept<ChartedItem>[] = (
  Object.keys(chartedItems) as ChartedItem[]
).map((code) => [code, chartedItems[code].display, chartedItems[code].definition]);

/** The values that findings have in the one table of them, as concepts: a value that several share stands once. */
export const findingValueConcepts: readonly Concept[] = [
  ...new Map(
    findingCodes.flatMap((finding) =>
      Object.entries(findingRow(finding).values ?? {}).map(
        ([code, { display }]) =>
          [code, [code, display, `A value of a finding: ${display.toLowerCase()}.`]] as const,
      ),
    ),
  ).values(),
] as readonly (readonly [string, string, string])[];

/** Elements that a map of codes may name in `dependsOn`: what must hold in the resource for the target to apply. */
export const mapConditions = [
  'Observation.value',
  'Observation.valueQuantity.unit',
  'Observation.code',
] as const;
export type MapCondition = (typeof mapConditions)[number];

/** Elements that a map of codes may name in `product`: what the source code says beside its target. */
export const mapProducts = [
  'Device.type',
  'Device.identifier',
  'Device.deviceName',
  'Device.property',
  'Procedure.performed',
  'Procedure.usedCode',
  'Procedure.bodySite',
  'Observation.value',
] as const;
export type MapProduct = (typeof mapProducts)[number];
