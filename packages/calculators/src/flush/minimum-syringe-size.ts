import { type Result, answerAmount, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { decimal } from '../lib/decimal.js';
import { type InputOf, readInput } from '../lib/input.js';

export const minimumSyringeSizeCard = () =>
  card({
    name: 'minimum-syringe-size',
    title: 'Smallest syringe barrel for testing and flushing',
    formula: 'barrel no narrower than that of a 10 mL syringe',
    unit: 'mL',
    source:
      'A dialysis catheter’s instruction leaflet: 13.3 N on a 3 mL plunger gives more than 206 kPa, on a 10 mL plunger less than 103 kPa; long-term limit 172 kPa. INS: 10 mL barrel to test patency (from memory)',
    cautions: [
      'It is the diameter of the barrel that counts: a smaller filling in a barrel as wide as a 10 mL syringe is fine.',
      'A 10 mL barrel protects only while nobody pushes against resistance.',
      'Once the line is proven open, a smaller syringe may be needed for an exact dose; local policy says when.',
      deferToDevice,
    ],
    inputs: {},
  });

export type MinimumSyringeSizeInput = InputOf<ReturnType<typeof minimumSyringeSizeCard>['inputs']>;

/**
 * The smallest syringe, by the width of its barrel, with which patency is tested and a line is flushed.
 *
 * @formula barrel no narrower than that of a 10 mL syringe
 * @units result in mL
 * @ranges
 * - no input
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - It is the diameter of the barrel that counts: a smaller filling in a barrel as wide as a 10 mL syringe
 *   is fine.
 * - A 10 mL barrel protects only while nobody pushes against resistance.
 * - Once the line is proven open, a smaller syringe may be needed for an exact dose; local policy says when.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source A dialysis catheter’s instruction leaflet: 13.3 N on a 3 mL plunger gives more than 206 kPa, on a
 *   10 mL plunger less than 103 kPa; long-term limit 172 kPa. INS: 10 mL barrel to test patency (from
 *   memory)
 * @example
 * ```ts
 * minimumSyringeSize({}).value; // '10'
 * ```
 */
export function minimumSyringeSize(input: MinimumSyringeSizeInput = {}): Result {
  const own = minimumSyringeSizeCard();
  readInput(own.inputs, input);
  return answerAmount(own, decimal('10'), [
    'pressure = force on the plunger ÷ cross-section of the barrel: the narrower the barrel, the higher the pressure',
    '13.3 N on a 3 mL plunger: more than 206 kPa, above the long-term limit of 172 kPa',
    '13.3 N on a 10 mL plunger: less than 103 kPa, below the limit',
  ]);
}
