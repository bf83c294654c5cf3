import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { pi } from '../lib/circle.js';
import { type Decimal, compare, decimal, divide, times, toText } from '../lib/decimal.js';
import { type InputOf, choice, optional, quantity, readInput } from '../lib/input.js';
import { inKPa, pressureUnits } from '../lib/pressure.js';

export const poiseuilleFlowCard = () =>
  card({
    name: 'poiseuille-flow',
    title: 'Laminar flow through a lumen (Hagen-Poiseuille)',
    formula: 'Q = π · ΔP · r⁴ / (8 · µ · L), down to 0.1 mL/min; Re = 4 · ρ · Q / (π · µ · d)',
    unit: 'mL/min',
    source: 'Hagen-Poiseuille law; laminar only, Reynolds number below about 2000 (physics)',
    cautions: [
      'An upper bound: hubs, bends, connectors and the filling of the lumen slow the real flow.',
      'Never raise the pressure above the limit printed on the device to reach a flow.',
      deferToDevice,
    ],
    inputs: {
      innerDiameterMm: quantity('mm', '0.1', '10', 'inner diameter of the lumen'),
      lengthCm: quantity('cm', '0.1', '200', 'length of the lumen'),
      pressure: quantity('in pressureUnit', '0', '25000', 'pressure difference along the lumen'),
      pressureUnit: choice(pressureUnits(), 'unit of the pressure, in UCUM'),
      viscosityMPaS: quantity(
        'mPa.s',
        '0.2',
        '100',
        'dynamic viscosity; water at 20 °C 1.002, blood about 3 to 4',
      ),
      densityKgPerL: optional(
        quantity('kg/L', '0.7', '2', 'density, for the Reynolds number alone; 1 when left out'),
      ),
    },
  });

export type PoiseuilleFlowInput = InputOf<ReturnType<typeof poiseuilleFlowCard>['inputs']>;

/** Flow as `value`, the Reynolds number that says whether to believe it beside it. */
export interface PoiseuilleFlow extends Result {
  readonly reynoldsNumber: string;
  readonly laminar: boolean;
}

/**
 * The flow that a pressure difference drives through a lumen while it stays laminar.
 *
 * Rounded once, down to 0.1 mL/min, so that it never promises more than the formula; the Reynolds number is
 * rounded up, and above 2000 the result says that it is too high.
 *
 * @formula Q = π · ΔP · r⁴ / (8 · µ · L), down to 0.1 mL/min; Re = 4 · ρ · Q / (π · µ · d)
 * @units `innerDiameterMm` in mm; `lengthCm` in cm; `pressure` in pressureUnit; `viscosityMPaS` in mPa.s;
 *   `densityKgPerL` in kg/L; result in mL/min
 * @ranges
 * - `innerDiameterMm`: 0.1 to 10 mm; inner diameter of the lumen
 * - `lengthCm`: 0.1 to 200 cm; length of the lumen
 * - `pressure`: 0 to 25000 in pressureUnit; pressure difference along the lumen
 * - `pressureUnit`: one of kPa, bar, mm[Hg], cm[H2O], [psi]; unit of the pressure, in UCUM
 * - `viscosityMPaS`: 0.2 to 100 mPa.s; dynamic viscosity; water at 20 °C 1.002, blood about 3 to 4
 * - `densityKgPerL` (optional): 0.7 to 2 kg/L; density, for the Reynolds number alone; 1 when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - An upper bound: hubs, bends, connectors and the filling of the lumen slow the real flow.
 * - Never raise the pressure above the limit printed on the device to reach a flow.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Hagen-Poiseuille law; laminar only, Reynolds number below about 2000 (physics)
 * @example
 * ```ts
 * poiseuilleFlow({
 *   innerDiameterMm: 1,
 *   lengthCm: 20,
 *   pressureUnit: 'kPa',
 *   viscosityMPaS: 1,
 *   pressure: 0,
 * }).value; // '0'
 * ```
 */
export function poiseuilleFlow(input: PoiseuilleFlowInput): PoiseuilleFlow {
  const own = poiseuilleFlowCard();
  const read = readInput(own.inputs, input);
  const { innerDiameterMm: diameter, lengthCm, pressure, pressureUnit, viscosityMPaS: viscosity } = read;
  const kPa = inKPa(pressure, pressureUnit);
  const diameter4 = power4(diameter);
  // 6000 / 128: from kPa, mm, cm and mPa·s to mL/min, with r⁴ = d⁴ / 16.
  const driving = product(decimal('46.875'), pi(), kPa, diameter4);
  const resistance = times(viscosity, lengthCm);
  const flow = divide(driving, resistance, 1, 'down');
  const reynolds = divide(
    product(decimal('200'), read.densityKgPerL ?? decimal('1'), driving),
    product(decimal('3'), pi(), viscosity, diameter, resistance),
    0,
    'up',
  );
  const laminar = compare(reynolds, decimal('2000')) <= 0;
  return {
    ...answerAmount(
      own,
      flow,
      [
        `pressure ${toText(pressure)} ${pressureUnit} = ${toText(kPa)} kPa; diameter⁴ = ${toText(diameter4)} mm⁴`,
        `46.875 × π × ${toText(kPa)} × ${toText(diameter4)} ÷ (${toText(viscosity)} × ${toText(lengthCm)}) = ${toText(flow)} mL/min, rounded down to 0.1`,
        `Reynolds number ${toText(reynolds)}, laminar up to about 2000`,
      ],
      raisedWhere([
        !laminar,
        'The Reynolds number is above 2000: the flow is not laminar and the real one is lower.',
      ]),
    ),
    reynoldsNumber: toText(reynolds),
    laminar,
  };
}

function power4(value: Decimal): Decimal {
  const square = times(value, value);
  return times(square, square);
}

const product = (...factors: readonly Decimal[]): Decimal => factors.reduce(times);
