import { type Decimal, decimal, times } from './decimal.js';

/** To 30 places: far beyond any measurement, so that the only rounding is the one at the end. */
export const pi = (): Decimal => decimal('3.141592653589793238462643383279');

/** Volume of a cylinder in mL, unrounded: `π d² / 4 · L`, with the diameter in mm and the length in cm. */
export function cylinderMl(diameterMm: Decimal, lengthCm: Decimal): Decimal {
  // mm² · cm = 0.01 mL; with the quarter of the formula 0.0025.
  return times(times(times(pi(), decimal('0.0025')), times(diameterMm, diameterMm)), lengthCm);
}
