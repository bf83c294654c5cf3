import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { type Decimal, compare, decimal, minus, toText } from '../lib/decimal.js';
import { gauges } from '../lib/gauge.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';

export const mmToGaugeCard = () =>
  card({
    name: 'mm-to-gauge',
    title: 'Millimetres to needle gauge',
    formula: 'gauge whose outer diameter is nearest; the thinner of two equally near',
    unit: 'G',
    source:
      'Needle gauge comparison chart, regular wall (Wikipedia, seen); ISO 9626 fixes the ranges around it',
    cautions: ['Give the outer diameter.', deferToDevice],
    inputs: { outerDiameterMm: quantity('mm', '0.3', '2.2', 'outer diameter of the needle') },
  });

export type MmToGaugeInput = InputOf<ReturnType<typeof mmToGaugeCard>['inputs']>;

/**
 * The needle gauge nearest to an outer diameter; says so where it is not in the table to the digit.
 *
 * @formula gauge whose outer diameter is nearest; the thinner of two equally near
 * @units `outerDiameterMm` in mm; result in G
 * @ranges
 * - `outerDiameterMm`: 0.3 to 2.2 mm; outer diameter of the needle
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Give the outer diameter.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Needle gauge comparison chart, regular wall (Wikipedia, seen); ISO 9626 fixes the ranges around it
 * @example
 * ```ts
 * mmToGauge({ outerDiameterMm: '1.2' }).value; // 18
 * ```
 */
export function mmToGauge(input: MmToGaugeInput): Result<number> {
  const own = mmToGaugeCard();
  const { outerDiameterMm } = readInput(own.inputs, input);
  const distance = (outerMm: string): Decimal => {
    const difference = minus(decimal(outerMm), outerDiameterMm);
    return difference.digits < 0n ? { ...difference, digits: -difference.digits } : difference;
  };
  const nearest = gauges().reduce((best, row) =>
    compare(distance(row.outerMm), distance(best.outerMm)) <= 0 ? row : best,
  );
  const off = distance(nearest.outerMm);
  return answer(
    own,
    nearest.gauge,
    [`nearest outer diameter to ${toText(outerDiameterMm)} mm: ${nearest.outerMm} mm, ${nearest.gauge} G`],
    raisedWhere([off.digits !== 0n, `The table’s diameter differs by ${toText(off)} mm.`]),
  );
}
