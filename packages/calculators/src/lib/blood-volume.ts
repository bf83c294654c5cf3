import { raisedWhere } from './calculator.js';
import { type Decimal, compare, decimal, times, toText } from './decimal.js';
import { inconsistent } from './calculator.js';
import { flag, optional, quantity, whole } from './input.js';
import { weightCautions } from './weight.js';

export const bloodVolumeSource =
  'The lowest of two published sets: a US children’s hospital’s laboratory table (premature 90 to 105, term newborn 78 to 86 mL/kg; seen), a paediatric guidance page (1 to 12 months 75, to 3 years 70, older 65 mL/kg; seen); adult 65 to 70 mL/kg (from memory); correction for anaemia: PMC4890332 (seen)';

export const bloodVolumeRefusals = [
  'one haemoglobin value without the other',
  'a weight that nobody of that age has',
];

export const bloodVolumeInputs = () => ({
  weightKg: quantity('kg', '0.2', '300', 'weight of the patient'),
  ageDays: whole('d', '0', '45000', 'age of the patient'),
  premature: optional(flag('born before term; counts up to 30 days of age; no when left out')),
  mlPerKg: optional(quantity('mL/kg', '50', '110', 'blood volume of local policy, instead of the table')),
  haemoglobinGPerL: optional(quantity('g/L', '20', '300', 'haemoglobin, to correct for anaemia')),
  referenceHaemoglobinGPerL: optional(quantity('g/L', '80', '250', 'normal haemoglobin at this age')),
});

export interface BloodVolumeInput {
  readonly weightKg: Decimal;
  readonly ageDays: number;
  readonly premature: boolean | undefined;
  readonly mlPerKg: Decimal | undefined;
  readonly haemoglobinGPerL: Decimal | undefined;
  readonly referenceHaemoglobinGPerL: Decimal | undefined;
}

/** Total blood volume as an exact fraction `numerator / divisor` in mL, so that nobody rounds before the end. */
export interface BloodVolume {
  readonly numerator: Decimal;
  readonly divisor: Decimal;
  readonly steps: readonly string[];
  readonly raised: readonly string[];
}

export function bloodVolume(read: BloodVolumeInput): BloodVolume {
  const { weightKg, haemoglobinGPerL: measured, referenceHaemoglobinGPerL: reference } = read;
  const weighed = weightCautions(weightKg, read.ageDays);
  const perKg = read.mlPerKg ?? decimal(tableMlPerKg(read.ageDays, read.premature === true));
  const normal = times(weightKg, perKg);
  const working = `${toText(weightKg)} kg × ${toText(perKg)} mL/kg = ${toText(normal)} mL`;
  if (measured === undefined && reference === undefined) {
    return { numerator: normal, divisor: decimal('1'), steps: [working], raised: weighed };
  }
  if (measured === undefined || reference === undefined) {
    throw inconsistent(
      'haemoglobinGPerL',
      undefined,
      'haemoglobinGPerL and referenceHaemoglobinGPerL together',
    );
  }
  // More haemoglobin than normal is no licence to draw more.
  const anaemic = compare(measured, reference) < 0;
  const correction = `anaemia: × ${toText(measured)} ÷ ${toText(reference)} g/L`;
  return {
    numerator: anaemic ? times(normal, measured) : normal,
    divisor: anaemic ? reference : decimal('1'),
    steps: [working, anaemic ? correction : 'haemoglobin not below normal: no correction'],
    raised: [
      ...weighed,
      ...raisedWhere([anaemic, 'Anaemia: the volume is corrected; be more careful still.']),
    ],
  };
}

function tableMlPerKg(ageDays: number, premature: boolean): string {
  if (ageDays <= 30) return premature ? '90' : '78';
  // 365 days still belong to the first year, 1096 to the third.
  if (ageDays <= 365) return '75';
  return ageDays <= 1096 ? '70' : '65';
}
