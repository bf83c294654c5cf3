import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { round, toText } from '../lib/decimal.js';
import { type InputOf, choice, quantity, readInput } from '../lib/input.js';
import { inKPa, pressureUnits } from '../lib/pressure.js';

export const pressureInKpaCard = () =>
  card({
    name: 'pressure-in-kpa',
    title: 'Pressure in kilopascal',
    formula: 'kPa = pressure × factor of its unit, to 0.001 kPa',
    unit: 'kPa',
    source: 'UCUM unit definitions (m[Hg], m[H2O], [psi], bar)',
    cautions: ['A pressure above the limit printed on the device can burst the line.', deferToDevice],
    inputs: {
      pressure: quantity('in pressureUnit', '0', '100000', 'pressure'),
      pressureUnit: choice(pressureUnits(), 'unit of the pressure, in UCUM'),
    },
  });

export type PressureInKpaInput = InputOf<ReturnType<typeof pressureInKpaCard>['inputs']>;

/**
 * A pressure in kPa. Rounded once, up to 0.001 kPa, so that a limit is never missed by rounding.
 *
 * @formula kPa = pressure × factor of its unit, to 0.001 kPa
 * @units `pressure` in pressureUnit; result in kPa
 * @ranges
 * - `pressure`: 0 to 100000 in pressureUnit; pressure
 * - `pressureUnit`: one of kPa, bar, mm[Hg], cm[H2O], [psi]; unit of the pressure, in UCUM
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - A pressure above the limit printed on the device can burst the line.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source UCUM unit definitions (m[Hg], m[H2O], [psi], bar)
 * @example
 * ```ts
 * pressureInKpa({ pressure: 1, pressureUnit: 'mm[Hg]' }).value; // '0.134'
 * ```
 */
export function pressureInKpa(input: PressureInKpaInput): Result {
  const own = pressureInKpaCard();
  const { pressure, pressureUnit } = readInput(own.inputs, input);
  const converted = round(inKPa(pressure, pressureUnit), 3, 'up');
  return answerAmount(own, converted, [
    `${toText(pressure)} ${pressureUnit} = ${toText(converted)} kPa, rounded up to 0.001`,
  ]);
}
