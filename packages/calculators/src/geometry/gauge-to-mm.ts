import { type Result, answer, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { findGauge } from '../lib/gauge.js';
import { type InputOf, readInput, whole } from '../lib/input.js';

export const gaugeToMmCard = () =>
  card({
    name: 'gauge-to-mm',
    title: 'Needle gauge to millimetres',
    formula: 'table of regular-wall needle tube',
    unit: 'mm',
    source:
      'Needle gauge comparison chart, regular wall (Wikipedia, seen); ISO 9626 fixes the ranges around it',
    cautions: [
      'The inner diameter is that of a regular-wall steel needle; a catheter’s gauge fixes only its outer diameter.',
      deferToDevice,
    ],
    refuses: ['a gauge that is not in the table (29)'],
    inputs: { gauge: whole('G', '14', '30', 'needle gauge') },
  });

export type GaugeToMmInput = InputOf<ReturnType<typeof gaugeToMmCard>['inputs']>;

/** Outer diameter as `value`, inner diameter beside it. */
export interface GaugeDiameters extends Result {
  readonly innerDiameterMm: string;
}

/**
 * Outer and inner diameter of a regular-wall needle. As the table has them, nothing is rounded.
 *
 * @formula table of regular-wall needle tube
 * @units `gauge` in G; result in mm
 * @ranges
 * - `gauge`: a whole number from 14 to 30 G; needle gauge
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: a gauge that is not in the table (29)
 * @cautions
 * - The inner diameter is that of a regular-wall steel needle; a catheter’s gauge fixes only its outer
 *   diameter.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Needle gauge comparison chart, regular wall (Wikipedia, seen); ISO 9626 fixes the ranges around it
 * @example
 * ```ts
 * gaugeToMm({ gauge: 20 }).value; // '0.9081'
 * ```
 */
export function gaugeToMm(input: GaugeToMmInput): GaugeDiameters {
  const own = gaugeToMmCard();
  const { gauge } = readInput(own.inputs, input);
  const { outerMm, innerMm } = findGauge(gauge);
  return {
    ...answer(own, outerMm, [`${gauge} G in the table: outer ${outerMm} mm, inner ${innerMm} mm`]),
    innerDiameterMm: innerMm,
  };
}
