import { codeSystem, drugCodes, drugRow, standard, type DrugCode, type Infusate } from '@dwellward/profiles';
import { codesOf } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import { meansOneOf } from './texts.js';
import type { Ref, RunningDrug } from '../model/record.js';
import type { Codeable, Shape } from './shapes.js';

/**
 * What a MedicationAdministration gives: by the codes of its medication, also where that is a Medication of its own or
 * contained, with its ingredients. Codes decide; a text, that of a code that is not known too, only gives a reason to
 * ask.
 */
export function drugOf(
  value: Shape<'MedicationAdministration'>,
  ref: Ref,
  index: ResourceIndex,
): RunningDrug | undefined {
  const concepts = conceptsOf(value, ref, index);
  if (concepts.length === 0) return undefined;
  const read = concepts.map(drugOfConcept);
  const codes = [...new Set(read.flatMap((one) => one.codes))];
  const text = concepts.flatMap((concept) => textsOf(concept))[0];
  const mayBe = drugCodes.filter((drug) => {
    const { words = [] } = drugRow(drug);
    return !codes.includes(drug) && concepts.some((concept) => meansOneOf(textsOf(concept), words));
  });
  // One ingredient that is not known leaves the whole unknown.
  const known = codes.length > 0 || read.every((one) => one.known);
  return { ...(text === undefined ? {} : { text }), codes, known, mayBe: known ? [] : mayBe };
}

/** What a drug is to the rules on administration sets; undefined where it can’t be known. */
export function infusateOfDrug(drug: RunningDrug | undefined): Infusate | undefined {
  if (!drug?.known) return undefined;
  return drug.codes.flatMap((code) => drugRow(code).infusate ?? [])[0] ?? 'other';
}

function conceptsOf(
  value: Shape<'MedicationAdministration'>,
  ref: Ref,
  index: ResourceIndex,
): readonly Codeable[] {
  const own = value.medicationCodeableConcept;
  const medication = index.get('Medication', index.nameOf(value.medicationReference, ref));
  if (!medication) {
    const display = value.medicationReference?.display;
    return [...(own ? [own] : []), ...(display === undefined ? [] : [{ text: display }])];
  }
  const { code, ingredient = [] } = medication.value;
  const ingredients = ingredient.flatMap(({ itemCodeableConcept, itemReference }) => {
    const item = index.get('Medication', index.nameOf(itemReference, medication.ref))?.value.code;
    const concept = itemCodeableConcept ?? item;
    return concept ? [concept] : [];
  });
  return [...(own ? [own] : []), ...(code ? [code] : []), ...ingredients];
}

/** Which drugs the codes of a concept name, and whether they say at all what it is. */
export function drugOfConcept(concept: Codeable): {
  readonly codes: readonly DrugCode[];
  readonly known: boolean;
} {
  const atc = codesOf(standard.atc, concept);
  const byAtc = atc.flatMap((code) => drugByAtc(code) ?? []);
  const rxnorm = codesOf(standard.rxnorm, concept);
  const snomed = codesOf(standard.snomed, concept);
  const ours = codesOf(codeSystem.infusate, concept);
  const others = drugCodes.filter((drug) => {
    const row = drugRow(drug);
    return (
      rxnorm.some((code) => row.rxnorm?.includes(code)) ||
      snomed.some((code) => row.snomed?.includes(code)) ||
      // Of our own codes only this one names a single drug.
      (row.infusate === 'propofol' && ours.includes(row.infusate))
    );
  });
  const codes = [...new Set([...byAtc, ...others])];
  // A whole ATC code says what it is; the first characters of one only which group it is of.
  return { codes, known: codes.length > 0 || atc.some((code) => code.length >= wholeAtcLength) };
}

/** Characters of an ATC code of the fifth level: a substance. */
const wholeAtcLength = 7;

/** The row whose ATC code is the longest that the code begins with. */
export function drugByAtc(code: string): DrugCode | undefined {
  const fitting = drugCodes.flatMap((drug) =>
    (drugRow(drug).atc ?? [])
      .filter((atc) => code.startsWith(atc))
      .map((atc) => ({ drug, length: atc.length })),
  );
  return fitting.sort((a, b) => b.length - a.length)[0]?.drug;
}

function textsOf(concept: Codeable): readonly string[] {
  return [concept.text, ...(concept.coding ?? []).map(({ display }) => display)].filter(
    (text) => text !== undefined && text.trim() !== '',
  ) as readonly string[];
}
