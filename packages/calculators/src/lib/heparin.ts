import { type Decimal, compare, decimal } from './decimal.js';

/** US heparin lock labels (seen): what to say about a concentration at an age, or at an age that is not known. */
export function heparinCautions(
  concentrationUnitsPerMl: Decimal,
  ageDays: number | undefined,
): readonly string[] {
  const above = (limit: string): boolean => compare(concentrationUnitsPerMl, decimal(limit)) > 0;
  const cautions: string[] = [];
  if (compare(concentrationUnitsPerMl, decimal('100')) >= 0) {
    if (ageDays === undefined) {
      cautions.push('Age not given: 100 units/mL is not for neonates and infants (US label).');
    } else if (ageDays < 365) {
      cautions.push('NOT FOR THIS AGE: 100 units/mL is not for neonates and infants (US label).');
    }
  }
  if (ageDays !== undefined && ageDays <= 28) {
    cautions.push('Neonate: no product with a preservative (US label of the preserved 10 units/mL product).');
  }
  if (above('100')) {
    cautions.push(
      'A dialysis strength: aspirate the lock before use, or the whole dose reaches the circulation.',
    );
  }
  return cautions;
}

export const heparinStanding = {
  clear:
    'Clear and discard heparin before a sample that heparin would affect; flush with saline before and after an incompatible drug.',
  hit: 'Heparin-induced thrombocytopenia, now or before: no heparin at all, locks included (US labels, from memory).',
} as const;
