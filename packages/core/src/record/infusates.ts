import { infusates, type Infusate } from '@dwellward/profiles';
import { ownCodes } from './codes.js';
import { infusateOfDrug } from './drugs.js';
import type { ResourceIndex } from './index-resources.js';
import type { Ref, RunningDrug } from '../model/record.js';
import type { Shape } from './shapes.js';

/** What is infused, for the rules on sets: our own code, else what its drug is; undefined where it can’t be known. */
export function infusateOf(
  value: Shape<'MedicationAdministration'>,
  ref: Ref,
  index: ResourceIndex,
  drug: RunningDrug | undefined,
): Infusate | undefined {
  const concept =
    value.medicationCodeableConcept ??
    index.get('Medication', index.nameOf(value.medicationReference, ref))?.value.code;
  const own = ownCodes('infusate', infusates, concept)[0];
  return own ? (own as Infusate) : infusateOfDrug(drug);
}
