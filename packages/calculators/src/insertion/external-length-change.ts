import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, minus, toText } from '../lib/decimal.js';
import { type InputOf, quantity, readInput } from '../lib/input.js';

export const externalLengthChangeCard = () =>
  card({
    name: 'external-length-change',
    title: 'External length against the length at insertion (migration)',
    formula: 'change = |length now − length at insertion|; moved where it reaches the policy’s limit',
    unit: 'cm',
    source:
      'INS 2016, 2021: measure at insertion, at every dressing change and when dislodgement is suspected; image the tip before use if changed (from memory). No national text gives a limit in cm',
    cautions: ['Never push a catheter back in.', deferToClinician],
    inputs: {
      atInsertionCm: quantity('cm', '0', '100', 'external length at insertion'),
      nowCm: quantity('cm', '0', '100', 'external length now'),
      limitCm: quantity(
        'cm',
        '0.1',
        '10',
        'change from which local policy calls it migration; 1 to 3 are in use',
      ),
    },
  });

export type ExternalLengthChangeInput = InputOf<ReturnType<typeof externalLengthChangeCard>['inputs']>;

/** Size of the change as `value`, its direction and the verdict beside it. */
export interface ExternalLengthChange extends Result {
  readonly direction: 'outwards' | 'inwards' | 'none';
  readonly moved: boolean;
}

/**
 * How far a line has moved since insertion. Exact; a change that just reaches the limit counts as moved.
 *
 * @formula change = |length now − length at insertion|; moved where it reaches the policy’s limit
 * @units `atInsertionCm` in cm; `nowCm` in cm; `limitCm` in cm; result in cm
 * @ranges
 * - `atInsertionCm`: 0 to 100 cm; external length at insertion
 * - `nowCm`: 0 to 100 cm; external length now
 * - `limitCm`: 0.1 to 10 cm; change from which local policy calls it migration; 1 to 3 are in use
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Never push a catheter back in.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source INS 2016, 2021: measure at insertion, at every dressing change and when dislodgement is suspected;
 *   image the tip before use if changed (from memory). No national text gives a limit in cm
 * @example
 * ```ts
 * externalLengthChange({ atInsertionCm: 5, nowCm: 6, limitCm: 1 }).value; // '1'
 * ```
 */
export function externalLengthChange(input: ExternalLengthChangeInput): ExternalLengthChange {
  const own = externalLengthChangeCard();
  const { atInsertionCm, nowCm, limitCm } = readInput(own.inputs, input);
  const sign = compare(nowCm, atInsertionCm);
  const change = sign < 0 ? minus(atInsertionCm, nowCm) : minus(nowCm, atInsertionCm);
  const direction = sign > 0 ? 'outwards' : sign < 0 ? 'inwards' : 'none';
  const moved = compare(change, limitCm) >= 0;
  return {
    ...answerAmount(
      own,
      change,
      [
        `now ${toText(nowCm)} cm, at insertion ${toText(atInsertionCm)} cm: ${toText(change)} cm, direction ${direction}`,
        `limit ${toText(limitCm)} cm: ${moved ? 'reached' : 'not reached'}`,
      ],
      raisedWhere(
        [moved, 'Do not use the line until the position of the tip is confirmed again.'],
        [
          direction === 'inwards',
          'Shorter outside than at insertion: check the measurement and the securement.',
        ],
      ),
    ),
    direction,
    moved,
  };
}
