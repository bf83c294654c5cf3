import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { pi } from '../lib/circle.js';
import { compare, decimal, divide, times, toText } from '../lib/decimal.js';
import { type InputOf, optional, quantity, readInput } from '../lib/input.js';

export const syringePressureCard = () =>
  card({
    name: 'syringe-pressure',
    title: 'Pressure that a push on a plunger makes',
    formula: 'P = F / (π · d² / 4), up to 0.1 kPa',
    unit: 'kPa',
    source:
      'Pressure = force / area (physics); long-term limit 172 kPa (25 psi) from a dialysis catheter’s instruction leaflet',
    cautions: [
      'It holds where the line is blocked and nothing flows: the worst case.',
      'The limit printed on the device rules.',
      deferToDevice,
    ],
    inputs: {
      forceN: quantity('N', '0', '500', 'force on the plunger; a light push is about 13 N'),
      barrelDiameterMm: quantity('mm', '2', '60', 'inner diameter of the barrel'),
      limitKPa: optional(quantity('kPa', '10', '5000', 'highest pressure of the device; 172 when left out')),
    },
  });

export type SyringePressureInput = InputOf<ReturnType<typeof syringePressureCard>['inputs']>;

/** Pressure as `value`, with the comparison. */
export interface SyringePressure extends Result {
  readonly withinLimit: boolean;
}

/**
 * The pressure in a blocked line when a plunger is pushed. Rounded once, up to 0.1 kPa.
 *
 * @formula P = F / (π · d² / 4), up to 0.1 kPa
 * @units `forceN` in N; `barrelDiameterMm` in mm; `limitKPa` in kPa; result in kPa
 * @ranges
 * - `forceN`: 0 to 500 N; force on the plunger; a light push is about 13 N
 * - `barrelDiameterMm`: 2 to 60 mm; inner diameter of the barrel
 * - `limitKPa` (optional): 10 to 5000 kPa; highest pressure of the device; 172 when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - It holds where the line is blocked and nothing flows: the worst case.
 * - The limit printed on the device rules.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Pressure = force / area (physics); long-term limit 172 kPa (25 psi) from a dialysis catheter’s
 *   instruction leaflet
 * @example
 * ```ts
 * syringePressure({ forceN: 0, barrelDiameterMm: 10 }).value; // '0'
 * ```
 */
export function syringePressure(input: SyringePressureInput): SyringePressure {
  const own = syringePressureCard();
  const { forceN, barrelDiameterMm, limitKPa = decimal('172') } = readInput(own.inputs, input);
  // N/mm² = 1000 kPa; with the 4 of the circle's area 4000.
  const area = times(pi(), times(barrelDiameterMm, barrelDiameterMm));
  const pressure = divide(times(decimal('4000'), forceN), area, 1, 'up');
  const withinLimit = compare(pressure, limitKPa) <= 0;
  return {
    ...answerAmount(
      own,
      pressure,
      [
        `4000 × ${toText(forceN)} N ÷ (π × ${toText(barrelDiameterMm)} mm × ${toText(barrelDiameterMm)} mm) = ${toText(pressure)} kPa, rounded up to 0.1`,
        `limit ${toText(limitKPa)} kPa`,
      ],
      raisedWhere([!withinLimit, 'Above the limit: the line can burst. Use a wider barrel and do not push.']),
    ),
    withinLimit,
  };
}
