import { type Decimal, decimal, times } from './decimal.js';

/**
 * How laboratories write "cells per volume", and how many per microlitre one of each is. `G/l` is in use for
 * 10*9/L although `G` is gauss in UCUM, so these are never sent through a UCUM parser.
 */
export const perUlFactors = {
  '/uL': '1',
  '{cells}/uL': '1',
  'cells/uL': '1',
  '/mm3': '1',
  '/cmm': '1',
  '10*6/L': '1',
  '10^6/L': '1',
  'x10^6/L': '1',
  '10*3/uL': '1000',
  '10^3/uL': '1000',
  'x10*3/uL': '1000',
  'x10^3/uL': '1000',
  '10*9/L': '1000',
  '10^9/L': '1000',
  'x10^9/L': '1000',
  'K/uL': '1000',
  'k/mm3': '1000',
  'thou/mcL': '1000',
  'G/L': '1000',
  'G/l': '1000',
  'lakhs/cu.mm': '100000',
} as const;

export type CellCountUnit = keyof typeof perUlFactors;

export const cellCountUnits = (): readonly CellCountUnit[] => Object.keys(perUlFactors) as CellCountUnit[];

/** Exact: every factor is a power of ten. */
export const perUl = (value: Decimal, unit: CellCountUnit): Decimal =>
  times(value, decimal(perUlFactors[unit]));
