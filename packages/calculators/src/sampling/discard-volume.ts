import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { decimal, round, times, toText } from '../lib/decimal.js';
import { type InputOf, choice, quantity, readInput } from '../lib/input.js';

export const discardVolumeCard = () =>
  card({
    name: 'discard-volume',
    title: 'Volume to discard before a blood sample',
    formula: 'discard = 2 × dead space, 6 × for coagulation tests, rounded up to 0.1 mL',
    unit: 'mL',
    source:
      'RNAO best practice guideline, node 805 (seen; its stored page prints "non coagulation" on both lines, an evident slip); CLSI H21-A5: 6 dead-space volumes for coagulation (from memory)',
    cautions: [
      'Fixed volumes are published too and differ: 3 to 6 mL (RNAO), 5 to 10 mL (Royal Marsden Manual); local policy says which rule counts.',
      'What is discarded counts as blood loss; what is returned does not.',
      'Stop infusions in every lumen first.',
      deferToClinician,
    ],
    inputs: {
      deadSpaceMl: quantity(
        'mL',
        '0.01',
        '30',
        'internal volume of the lumen with everything between it and the syringe',
      ),
      sampleFor: choice(['general', 'coagulation'], 'what the sample is for'),
    },
  });

export type DiscardVolumeInput = InputOf<ReturnType<typeof discardVolumeCard>['inputs']>;

/**
 * The blood to discard before a sample. Rounded up to 0.1 mL, so that the dead space is surely cleared.
 *
 * @formula discard = 2 × dead space, 6 × for coagulation tests, rounded up to 0.1 mL
 * @units `deadSpaceMl` in mL; result in mL
 * @ranges
 * - `deadSpaceMl`: 0.01 to 30 mL; internal volume of the lumen with everything between it and the syringe
 * - `sampleFor`: one of general, coagulation; what the sample is for
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Fixed volumes are published too and differ: 3 to 6 mL (RNAO), 5 to 10 mL (Royal Marsden Manual); local
 *   policy says which rule counts.
 * - What is discarded counts as blood loss; what is returned does not.
 * - Stop infusions in every lumen first.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source RNAO best practice guideline, node 805 (seen; its stored page prints "non coagulation" on both
 *   lines, an evident slip); CLSI H21-A5: 6 dead-space volumes for coagulation (from memory)
 */
export function discardVolume(input: DiscardVolumeInput): Result {
  const own = discardVolumeCard();
  const { deadSpaceMl, sampleFor } = readInput(own.inputs, input);
  const multiple = sampleFor === 'coagulation' ? '6' : '2';
  const exact = times(deadSpaceMl, decimal(multiple));
  const discard = round(exact, 1, 'up');
  return answerAmount(
    own,
    discard,
    [
      `${multiple} × ${toText(deadSpaceMl)} mL = ${toText(exact)} mL`,
      `rounded up to 0.1 mL: ${toText(discard)} mL`,
    ],
    raisedWhere([
      sampleFor === 'coagulation',
      'Coagulation tests: avoid a catheter that holds heparin; a vein is better.',
    ]),
  );
}
