import { type Decimal, compare, decimal } from './decimal.js';

export type Laboratory = 'neutrophils' | 'platelets' | 'inr';

interface Limits {
  readonly lowest: Decimal;
  readonly usualLow: Decimal;
  readonly usualHigh: Decimal;
  readonly highest: Decimal;
}

export const laboratorySource =
  'Neutrophils: leukaemoid reaction above 50, hyperleukocytosis above 100 · 10⁹/L (a haematology site, seen); platelets: extreme thrombocytosis above 1000 · 10⁹/L (from memory); INR: point-of-care range 0.6 to 8.0 (Thromb Res 2012, seen); the cuts made of them: common practice, no source';

const between = (lowest: string, usualLow: string, usualHigh: string, highest: string): Limits => ({
  lowest: decimal(lowest),
  usualLow: decimal(usualLow),
  usualHigh: decimal(usualHigh),
  highest: decimal(highest),
});

/** Counts in 10*9/L. Inside `usual` silent, between the two with a question, outside `lowest` and `highest` no value. */
export const laboratoryLimits = (): Readonly<Record<Laboratory, Limits>> => ({
  neutrophils: between('0', '0', '50', '100'),
  platelets: between('0', '0', '1000', '3000'),
  inr: between('0.5', '0.6', '10', '20'),
});

/** The caution of a neutrophil count that is hardly one. */
export const neutrophilCautions = (countPerUl: Decimal): readonly string[] =>
  compare(countPerUl, decimal('50000')) > 0
    ? ['Above 50,000 /uL: ask the laboratory whether value and unit are right.']
    : [];
