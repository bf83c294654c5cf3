import { type Result, answer, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { type InputOf, choice, readInput } from '../lib/input.js';
import { type PracticeValueName, practiceSource, practiceValues } from '../lib/practice.js';

export const practiceValueCard = () =>
  card({
    name: 'practice-value',
    title: 'A value of common practice, with the current guidance beside it',
    formula: 'table',
    unit: 'by value',
    source: practiceSource,
    cautions: [
      'No published source is known for this value; do not use it against local policy.',
      deferToDevice,
    ],
    inputs: { of: choice(Object.keys(practiceValues()) as readonly PracticeValueName[], 'which value') },
  });

export type PracticeValueInput = InputOf<ReturnType<typeof practiceValueCard>['inputs']>;

/** The value, and what published guidance says on the same point. */
export interface PracticeValueResult extends Result {
  readonly guidance: string;
}

/**
 * A value in use without a published source, kept apart so that nobody takes it for a guideline.
 *
 * @formula table
 * @units result in by value
 * @ranges
 * - `of`: one of adult-tunneled-lock-volume, clamp-during-last, discard-before-sample, saline-after-sample,
 *   cap-needle-longest, granulocytes-for-daily-dressing, skin-scrub-before-insertion,
 *   repair-least-intact-length, repair-cleansing, repair-adhesive, repair-external-length-wanted,
 *   repair-external-length-most, repair-no-infusion, repair-splint; which value
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - No published source is known for this value; do not use it against local policy.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source common practice, no source
 * @example
 * ```ts
 * practiceValue({ of: 'adult-tunneled-lock-volume' }).value; // '3'
 * ```
 */
export function practiceValue(input: PracticeValueInput): PracticeValueResult {
  const own = practiceValueCard();
  const { value, unit, about, guidance } = practiceValues()[readInput(own.inputs, input).of];
  return { ...answer(own, value, [`${about}: ${value} ${unit}`], [guidance]), unit, guidance };
}
