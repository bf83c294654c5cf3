import { inconsistent } from './calculator.js';
import { type Decimal, compare, decimal, divide, times, toText } from './decimal.js';
import { flag, optional } from './input.js';
import { weightCautions } from './weight.js';

export const heparinAmountsSource =
  'questions and refusals by amount: common practice, no source, drawn from therapeutic loading doses of 25 to 100 units/kg (Blood/ASH table, seen), 50 units/kg (US label, seen) and reported mix-ups of strengths (FDA notices, seen)';

export const heparinAmountRefusals = [
  'more than 25,000 units in one lock',
  '50 units/kg or more in one lock, 25 in a child born before 37 weeks, but for a dialysis line',
  'a weight that nobody of that age has',
];

export const lockedLineInputs = () => ({
  premature: optional(flag('born before 37 weeks; no when left out')),
  dialysisLine: optional(
    flag('the line is a dialysis catheter, whose lock is drawn off before use; no when left out'),
  ),
});

interface LockedLine {
  readonly weightKg: Decimal | undefined;
  readonly ageDays: number | undefined;
  readonly premature: boolean | undefined;
  readonly dialysisLine: boolean | undefined;
}

/**
 * What to say about the units of one lock. In a dialysis catheter the lock is strong by design, and is drawn off: there
 * only the amount as a whole counts.
 *
 * @throws CalculatorError for an amount that is a treatment dose, or ten times a lock: it is never given as a number
 */
export function lockAmountCautions(
  units: Decimal,
  concentrationUnitsPerMl: Decimal,
  { weightKg, ageDays, premature = false, dialysisLine = false }: LockedLine,
): readonly string[] {
  const asked = [...weightCautions(weightKg, ageDays)];
  if (compare(units, decimal('25000')) > 0)
    throw inconsistent('volumeMl', `${toText(units)} units`, 'at most 25000 units in one lock');
  if (dialysisLine) return asked;
  if (weightKg !== undefined) {
    const refusedFrom = premature ? '25' : '50';
    const perKg = toText(divide(units, weightKg, 2, 'up'));
    if (compare(units, times(weightKg, decimal(refusedFrom))) >= 0)
      throw inconsistent(
        'concentrationUnitsPerMl',
        `${perKg} units/kg`,
        `less than ${refusedFrom} units/kg in one lock: this is a treatment dose`,
      );
    if (compare(units, times(weightKg, decimal('10'))) > 0)
      asked.push(
        `MORE THAN 10 UNITS/KG IN ONE LOCK (${perKg}): ask before it goes in; is the strength right?`,
      );
  }
  if (compare(concentrationUnitsPerMl, decimal('100')) > 0)
    asked.push(
      'MORE THAN 100 UNITS/ML OUTSIDE A DIALYSIS LINE: ask before it goes in; is the strength right?',
    );
  return asked;
}

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

/** In units/kg in 24 h (caregiver sheet of a US children’s hospital, seen). */
export const infantLimit = (): Decimal => decimal('40');

/** Whether that limit applies: up to an age of 60 days, or below 3 kg, as far as either is known. */
export function isSmallInfant(weightKg: Decimal | undefined, ageDays: number | undefined): boolean {
  const young = ageDays !== undefined && ageDays <= 60;
  return young || (weightKg !== undefined && compare(weightKg, decimal('3')) < 0);
}
