import { CalculatorError } from './error.js';

/**
 * Regular-wall needle tube: outer and inner diameter in mm by gauge. Source: needle gauge comparison chart,
 * Wikipedia (seen). The standards fix ranges around these; a catheter's gauge fixes only its outer diameter.
 */
const needleTube = (): Readonly<Record<number, readonly [outerMm: string, innerMm: string]>> => ({
  14: ['2.108', '1.6'],
  15: ['1.829', '1.372'],
  16: ['1.651', '1.194'],
  17: ['1.473', '1.067'],
  18: ['1.27', '0.838'],
  19: ['1.067', '0.686'],
  20: ['0.9081', '0.603'],
  21: ['0.8192', '0.514'],
  22: ['0.7176', '0.413'],
  23: ['0.6414', '0.337'],
  24: ['0.5652', '0.311'],
  25: ['0.5144', '0.26'],
  26: ['0.4636', '0.26'],
  27: ['0.4128', '0.21'],
  28: ['0.362', '0.184'],
  30: ['0.3112', '0.159'],
});

export interface Gauge {
  readonly gauge: number;
  readonly outerMm: string;
  readonly innerMm: string;
}

/** Thickest first. */
export const gauges = (): readonly Gauge[] =>
  Object.entries(needleTube()).map(([gauge, [outerMm, innerMm]]) => ({
    gauge: Number(gauge),
    outerMm,
    innerMm,
  }));

export function findGauge(gauge: number): Gauge {
  const found = gauges().find((row) => row.gauge === gauge);
  if (found === undefined) throw notInTable(gauge, Object.keys(needleTube()));
  return found;
}

export const notInTable = (gauge: number, known: readonly string[]): CalculatorError =>
  new CalculatorError('not-a-choice', 'gauge', gauge, `one of ${known.join(', ')}`);
