import { type Decimal, decimal, times } from './decimal.js';

/**
 * kPa in one of each UCUM unit. Source: the unit definitions of UCUM (m[Hg] = 133.3220 kPa, m[H2O] = 9.80665 kPa,
 * [psi] = [lbf_av]/[sin_i]); the last is no finite decimal and stands here to 13 digits.
 */
const kPaFactors = {
  kPa: '1',
  bar: '100',
  'mm[Hg]': '0.133322',
  'cm[H2O]': '0.0980665',
  '[psi]': '6.894757293168',
} as const;

export type PressureUnit = keyof typeof kPaFactors;

export const pressureUnits = (): readonly PressureUnit[] => Object.keys(kPaFactors) as PressureUnit[];

export const inKPa = (value: Decimal, unit: PressureUnit): Decimal => times(value, decimal(kPaFactors[unit]));
