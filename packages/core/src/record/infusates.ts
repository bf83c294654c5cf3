import { infusates, standard, type Infusate } from '@dwellward/profiles';
import { codesOf, ownCodes } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import type { Ref } from '../model/record.js';
import type { Shape } from './shapes.js';

// ATC groups, from memory: B05A blood and related products, B05BA01 amino acids, B05BA02 fat emulsions, B05BA04 protein
// hydrolysates, B05BA10 combinations (which may hold fat: the protective reading), N01AX10 propofol.
const atcInfusates: readonly (readonly [string, Infusate])[] = [
  ['B05A', 'blood'],
  ['B05BA01', 'parenteral-nutrition'],
  ['B05BA02', 'fat-emulsion'],
  ['B05BA04', 'parenteral-nutrition'],
  ['B05BA10', 'fat-emulsion'],
  ['N01AX10', 'propofol'],
];

/** What is infused: our own code, else its ATC group; undefined where it can’t be known. */
export function infusateOf(
  value: Shape<'MedicationAdministration'>,
  ref: Ref,
  index: ResourceIndex,
): Infusate | undefined {
  const concept =
    value.medicationCodeableConcept ??
    index.get('Medication', index.nameOf(value.medicationReference, ref))?.value.code;
  const own = ownCodes('infusate', infusates, concept)[0];
  if (own) return own as Infusate;
  const [atc] = codesOf(standard.atc, concept);
  if (!atc) return undefined;
  return atcInfusates.find(([group]) => atc.startsWith(group))?.[1] ?? 'other';
}
