import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { compare, decimal, toText } from '../lib/decimal.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';
import { capNeedleLongest, practiceSource } from '../lib/practice.js';

export const capNeedleLengthCard = () =>
  card({
    name: 'cap-needle-length',
    title: 'Needle through an injection cap: short enough?',
    formula: 'length ≤ 25.4 mm (1 inch)',
    unit: '',
    source: practiceSource,
    cautions: [capNeedleLongest().guidance, deferToDevice],
    inputs: { needleLengthMm: quantity('mm', '1', '200', 'length of the needle') },
  });

export type CapNeedleLengthInput = InputOf<ReturnType<typeof capNeedleLengthCard>['inputs']>;

/**
 * Whether a needle is short enough not to pierce the catheter behind the cap. Exactly 1 inch is.
 *
 * @formula length ≤ 25.4 mm (1 inch)
 * @units `needleLengthMm` in mm; result a word
 * @ranges
 * - `needleLengthMm`: 1 to 200 mm; length of the needle
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Older practice: needle-free connectors are accessed without a needle.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source common practice, no source
 */
export function capNeedleLength(input: CapNeedleLengthInput): Result<'short-enough' | 'too-long'> {
  const own = capNeedleLengthCard();
  const { needleLengthMm } = readInput(own.inputs, input);
  const longest = decimal(capNeedleLongest().value);
  const verdict = compare(needleLengthMm, longest) <= 0 ? 'short-enough' : 'too-long';
  return answer(
    own,
    verdict,
    [`${toText(needleLengthMm)} mm against ${toText(longest)} mm: ${verdict}`],
    raisedWhere([verdict === 'too-long', 'A longer needle can pierce the catheter behind the cap.']),
  );
}
