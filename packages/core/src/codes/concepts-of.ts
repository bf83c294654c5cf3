import { bloodTypes, standard } from '@dwellward/profiles';
import {
  chartedItems,
  codeSystem,
  connectorConditions,
  dressingConditions,
  dressingTypes,
  findingRow,
  infusates,
  lineProperties,
  securementTypes,
  substanceCodes,
  valuesOf,
  type ChartedItem,
} from '@dwellward/profiles';
import { isCodeOf } from '../record/alerts.js';
import {
  activityOf,
  codesOf,
  findingOf,
  isOtherBusiness,
  isOtherDevice,
  lineTypeOf,
  ownCodes,
} from '../record/codes.js';
import { drugOfConcept } from '../record/drugs.js';
import { analyteOf } from '../record/results.js';
import type { Codeable, Quantity, Shape } from '../record/shapes.js';
import { isTemperatureCode } from '../record/temperatures.js';
import type { Concern, ReadAs } from '../model/codes.js';

/** A concept at its place in a resource, and what it is read as there. */
export interface PlacedConcept {
  readonly path: string;
  readonly concern: Concern;
  readonly concept: Codeable;
  readonly readAs?: ReadAs;
  readonly value?: string;
}

/** The types of resource whose codes can tell of a line. */
export type CodedType =
  | 'Device'
  | 'Procedure'
  | 'ServiceRequest'
  | 'Observation'
  | 'MedicationAdministration'
  | 'Medication'
  | 'Specimen'
  | 'AllergyIntolerance';

/** `mapped` is the same resource with our codes beside the hospital’s: by it a value is known as that of a finding. */
type Reader<Type extends CodedType> = (
  value: Shape<Type>,
  onLine: boolean,
  mapped: Shape<Type>,
) => readonly PlacedConcept[];

/** Every concept of a resource, in the order of its elements: the same for a resource whose codes were mapped. */
export const conceptsOf: { readonly [Type in CodedType]: Reader<Type> } = {
  Device: ({ type, property = [] }) => [
    ...at('Device.type', 'line', type, deviceAs),
    ...property.flatMap((one) =>
      at('Device.property.type', 'line-property', one.type, (concept) =>
        named('line-property', ownCodes('lineProperty', lineProperties, concept)[0]),
      ),
    ),
  ],
  Procedure: ({ code, usedCode = [] }, onLine) => [
    ...at('Procedure.code', 'act', code, (concept) => actAs(concept, onLine)),
    ...usedCode.flatMap((one) => at('Procedure.usedCode', 'dressing', one, usedAs)),
  ],
  ServiceRequest: ({ code }, onLine) =>
    at('ServiceRequest.code', 'act', code, (concept) => actAs(concept, onLine)),
  Observation: (value, _, mapped) => [
    ...rowsOf(value, 'Observation', mapped),
    ...(value.component ?? []).flatMap((one, at) =>
      rowsOf(one, 'Observation.component', mapped.component?.[at] ?? one),
    ),
  ],
  MedicationAdministration: ({ medicationCodeableConcept }) =>
    at('MedicationAdministration.medication', 'drug', medicationCodeableConcept, drugAs),
  Medication: ({ code, ingredient = [] }) => [
    ...at('Medication.code', 'drug', code, drugAs),
    ...ingredient.flatMap((one) => at('Medication.ingredient.item', 'drug', one.itemCodeableConcept, drugAs)),
  ],
  Specimen: ({ type }) => at('Specimen.type', 'blood', type, specimenAs),
  AllergyIntolerance: ({ code, reaction = [] }) => [
    ...at('AllergyIntolerance.code', 'alert', code, substanceAs),
    ...reaction.flatMap((one) =>
      at('AllergyIntolerance.reaction.substance', 'alert', one.substance, substanceAs),
    ),
  ],
};

function at(
  path: string,
  concern: Concern,
  concept: Codeable | undefined,
  as: (concept: Codeable) => ReadAs | undefined,
  value?: string,
): readonly PlacedConcept[] {
  if (concept === undefined) return [];
  const readAs = as(concept);
  return [
    {
      path,
      concern,
      concept,
      ...(readAs === undefined ? {} : { readAs }),
      ...(value === undefined ? {} : { value }),
    },
  ];
}

const named = (kind: ReadAs['kind'], code: string | undefined): ReadAs | undefined =>
  code === undefined ? undefined : { kind, code };

function deviceAs(concept: Codeable): ReadAs | undefined {
  if (isOtherDevice(concept) || isOtherBusiness(concept)) return { kind: 'other-business', code: 'device' };
  return named('line-type', lineTypeOf(concept));
}

function actAs(concept: Codeable, onLine: boolean): ReadAs | undefined {
  if (isOtherBusiness(concept)) return { kind: 'other-business', code: 'act' };
  return named('activity', activityOf(concept, onLine)) ?? chartedAs(concept);
}

function usedAs(concept: Codeable): ReadAs | undefined {
  return (
    named('dressing', ownCodes('dressingType', dressingTypes, concept)[0]) ??
    named('securement', ownCodes('securementType', securementTypes, concept)[0])
  );
}

type Row = Pick<
  Shape<'Observation'>,
  'code' | 'valueCodeableConcept' | 'valueString' | 'valueQuantity' | 'valueBoolean' | 'valueInteger'
>;

/** The code of an Observation or of a component, and its coded value where the code is a finding. */
function rowsOf(row: Row, path: string, mapped: Row): readonly PlacedConcept[] {
  const finding = findingOf(mapped.code);
  const coded = row.valueCodeableConcept ?? (row.valueString ? { text: row.valueString } : undefined);
  const values = finding === undefined ? undefined : valuesOf(finding);
  const isValue =
    finding !== undefined &&
    findingRow(finding).kind === 'coded' &&
    coded !== undefined &&
    values !== undefined;
  return [
    ...at(`${path}.code`, 'finding', row.code, rowAs, valueText(row)),
    ...(isValue ? at(`${path}.value`, 'finding-value', coded, (concept) => valueAs(concept, values)) : []),
  ];
}

function rowAs(concept: Codeable): ReadAs | undefined {
  if (isOtherBusiness(concept)) return { kind: 'other-business', code: 'observation' };
  return (
    named('finding', findingOf(concept)) ??
    named('activity', activityOf(concept, true)) ??
    chartedAs(concept) ??
    named('result', analyteOf(concept)) ??
    (isTemperatureCode(concept) ? { kind: 'temperature', code: 'body-temperature' } : undefined)
  );
}

function chartedAs(concept: Codeable): ReadAs | undefined {
  const item = codesOf(codeSystem.chartedItem, concept).find((code) => chartedItems[code as ChartedItem]);
  return named('charted-item', item) ?? named('line-type', codesOf(codeSystem.lineType, concept)[0]);
}

function valueAs(concept: Codeable, allowed: readonly string[]): ReadAs | undefined {
  const own = [
    ...ownCodes('dressingCondition', dressingConditions, concept),
    ...ownCodes('connectorCondition', connectorConditions, concept),
    ...codesOf(codeSystem.findingValue, concept),
    ...(concept.coding ?? []).flatMap(({ code }) => code ?? []),
    ...(concept.coding === undefined && concept.text !== undefined ? [concept.text.trim()] : []),
  ];
  return named(
    'finding-value',
    own.find((code) => allowed.includes(code)),
  );
}

function drugAs(concept: Codeable): ReadAs | undefined {
  const { codes, known } = drugOfConcept(concept);
  return (
    named('drug', codes[0]) ??
    named('infusate', ownCodes('infusate', infusates, concept)[0]) ??
    (known ? { kind: 'infusate', code: 'other' } : undefined)
  );
}

function specimenAs(concept: Codeable): ReadAs | undefined {
  const known = Object.entries(bloodTypes).flatMap(([system, codes]) =>
    codesOf(system, concept).map((code) => codes.includes(code)),
  );
  if (known.includes(true)) return { kind: 'blood', code: 'blood' };
  return known.length > 0 ? { kind: 'other-business', code: 'specimen' } : undefined;
}

function substanceAs(concept: Codeable): ReadAs | undefined {
  return named(
    'substance',
    substanceCodes.find((code) => isCodeOf(code, concept)),
  );
}

function valueText(row: Row): string | undefined {
  const { valueCodeableConcept, valueString, valueQuantity, valueBoolean, valueInteger } = row;
  const coding = valueCodeableConcept?.coding?.[0];
  const dateTime = (row as { readonly valueDateTime?: unknown }).valueDateTime;
  return (
    valueCodeableConcept?.text ??
    coding?.display ??
    coding?.code ??
    valueString ??
    (valueQuantity === undefined ? undefined : quantityText(valueQuantity)) ??
    valueBoolean?.toString() ??
    valueInteger?.toString() ??
    (typeof dateTime === 'string' ? dateTime : undefined)
  );
}

function quantityText({ comparator = '', value, unit, code }: Quantity): string | undefined {
  return value === undefined ? undefined : `${comparator}${value} ${unit ?? code ?? ''}`.trim();
}

/** Codes of systems that are published for more than lines: one that is not read is of another business. */
export const isPublished = (concept: Codeable): boolean =>
  (concept.coding ?? []).some(({ system }) => isPublishedSystem(system));

/** Whether a system is published for more than one hospital. */
export const isPublishedSystem = (system: string | undefined): boolean => published.has(system ?? '');

const published: ReadonlySet<string> = new Set([
  standard.loinc,
  standard.snomed,
  standard.atc,
  standard.rxnorm,
  standard.icd10cm,
]);
