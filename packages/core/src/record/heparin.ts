import { CalculatorError, heparinPerLock } from '@dwellward/calculators';
import { plainHeparin, standard } from '@dwellward/profiles';
import { activityOf, codesOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { HeparinDose, Ref } from '../model/record.js';
import { decimalText } from './quantities.js';
import type { Codeable, Quantity, Shape } from './shapes.js';
import { meansOneOf } from './texts.js';
import { recordedTime } from './times.js';
import { addTo } from '../model/gather.js';

/**
 * The heparin that each patient was given: every MedicationAdministration of it, and every lock that says it was of
 * heparin and has none beside it. Heparin of low molecular weight is another drug. What has no amount that can be read
 * stands without one, so that it can be said to be missing from a sum; so does what runs, however long ago it began.
 */
export function readHeparin(index: ResourceIndex): ReadonlyMap<Ref, readonly HeparinDose[]> {
  const found = new Map<Ref, HeparinDose[]>();
  const add = (patient: Ref | undefined, dose: HeparinDose) => {
    if (patient !== undefined) addTo(found, patient, dose);
  };
  const ofLocks = new Set<Ref>();
  for (const { ref, value } of index.all('MedicationAdministration')) {
    if (value.status === 'not-done' || value.status === 'entered-in-error') continue;
    const medication = index.get('Medication', index.nameOf(value.medicationReference, ref));
    if (!conceptsOf(value, medication).some(isHeparin)) continue;
    for (const part of value.partOf ?? []) {
      const whole = index.nameOf(part, ref);
      if (whole !== undefined) ofLocks.add(whole);
    }
    const { effectivePeriod: period } = value;
    if (
      running.has(value.status ?? '') &&
      period?.end === undefined &&
      value.effectiveDateTime === undefined
    ) {
      const since = recordedTime(period?.start);
      add(index.nameOf(value.subject, ref), { ref, ...(since ? { runsSince: since } : {}) });
      continue;
    }
    const at = recordedTime(value.effectiveDateTime ?? period?.end ?? period?.start);
    const units = unitsOf(value.dosage?.dose, medication);
    add(index.nameOf(value.subject, ref), {
      ref,
      ...(at ? { at } : {}),
      ...(units === undefined ? {} : { units }),
    });
  }
  for (const { ref, value } of index.all('Procedure')) {
    if (value.status !== 'completed' || activityOf(value.code, true) !== 'lock' || ofLocks.has(ref)) continue;
    const used = (value.usedReference ?? []).flatMap((one) => {
      const medication = index.get('Medication', index.nameOf(one, ref))?.value;
      return [
        ...(medication?.code ? [medication.code] : []),
        ...(one.display === undefined ? [] : [{ text: one.display }]),
      ];
    });
    if (![...(value.usedCode ?? []), ...used].some(isHeparin)) continue;
    const at = recordedTime(value.performedDateTime ?? value.performedPeriod?.end);
    add(index.nameOf(value.subject, ref), { ref, ...(at ? { at } : {}) });
  }
  return found;
}

/** What was begun goes on, also while it is held for a while. */
const running: ReadonlySet<string> = new Set(['in-progress', 'on-hold']);

function conceptsOf(
  value: Shape<'MedicationAdministration'>,
  medication: Indexed<'Medication'> | undefined,
): readonly Codeable[] {
  const { code, ingredient = [] } = medication?.value ?? {};
  const display = value.medicationReference?.display;
  return [
    ...(value.medicationCodeableConcept ? [value.medicationCodeableConcept] : []),
    ...(display === undefined ? [] : [{ text: display }]),
    ...(code ? [code] : []),
    ...ingredient.flatMap(({ itemCodeableConcept }) => (itemCodeableConcept ? [itemCodeableConcept] : [])),
  ];
}

function isHeparin(concept: Codeable): boolean {
  const has = (system: string, codes: readonly string[]) =>
    codesOf(system, concept).some((code) => codes.includes(code));
  const { atc, rxnorm, snomed, words, otherWords } = plainHeparin;
  if (has(standard.atc, atc) || has(standard.rxnorm, rxnorm) || has(standard.snomed, snomed)) return true;
  // Another ATC code says that it is another drug, whatever its text names beside.
  if (codesOf(standard.atc, concept).length > 0) return false;
  const texts = [concept.text, ...(concept.coding ?? []).map(({ display }) => display)].filter(
    (text) => text !== undefined,
  );
  return meansOneOf(texts, words) && !meansOneOf(texts, otherWords);
}

/** How records spell the international unit, in lower case. */
const unitSpellings = new Set(
  ['[iu]', "[usp'u]", 'u', 'unit', 'units', 'iu', 'i.u.', 'ie', 'i.e.', 'usp units', 'einheiten'].concat(
    'international units',
  ),
);

const unitOf = ({ code, unit }: Quantity) => (code ?? unit)?.trim().toLowerCase();

/** Decimal text; of a volume by the strength of the Medication. */
function unitsOf(
  dose: Quantity | undefined,
  medication: Indexed<'Medication'> | undefined,
): string | undefined {
  if (dose?.value === undefined || dose.value < 0 || dose.comparator !== undefined) return undefined;
  const amount = decimalText(dose.value);
  if (unitSpellings.has(unitOf(dose) ?? '')) return amount;
  if (unitOf(dose) !== 'ml') return undefined;
  const { numerator, denominator } =
    (medication?.value.ingredient ?? []).find(({ strength }) => strength !== undefined)?.strength ?? {};
  if (numerator?.value === undefined || !unitSpellings.has(unitOf(numerator) ?? '')) return undefined;
  if (denominator?.value !== 1 || unitOf(denominator) !== 'ml') return undefined;
  try {
    // In a dialysis line any strength may be: only the product is wanted here.
    return heparinPerLock({
      concentrationUnitsPerMl: decimalText(numerator.value),
      volumeMl: amount,
      dialysisLine: true,
    }).value;
  } catch (error) {
    if (error instanceof CalculatorError) return undefined;
    throw error;
  }
}
