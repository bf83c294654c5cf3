import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, round, times, toText } from '../lib/decimal.js';
import { adultFromDays } from '../lib/age.js';
import { type InputOf, choice, optional, quantity, readInput, whole } from '../lib/input.js';
import { measured, sizeText } from '../lib/syringe.js';

export const discardVolumeCard = () =>
  card({
    name: 'discard-volume',
    title: 'Volume to discard before a blood sample',
    formula: 'discard = 2 × dead space, 6 × for coagulation tests, rounded up to 0.1 mL',
    unit: 'mL',
    source:
      'RNAO best practice guideline, node 805 (seen; its stored page prints "non coagulation" on both lines, an evident slip); CLSI H21-A5: 6 dead-space volumes for coagulation (from memory)',
    cautions: [
      'What is discarded counts as blood loss; what is returned does not.',
      'Stop infusions in every lumen first.',
      deferToClinician,
    ],
    inputs: {
      deadSpaceMl: quantity(
        'mL',
        '0.01',
        '10',
        'internal volume of the lumen with everything between it and the syringe',
      ),
      sampleFor: choice(['general', 'coagulation'], 'what the sample is for'),
      ageDays: optional(whole('d', '0', '45000', 'age of the patient')),
    },
  });

export type DiscardVolumeInput = InputOf<ReturnType<typeof discardVolumeCard>['inputs']>;

/** Volume as `value`; the next mark of the syringe beside it. */
export interface DiscardVolume extends Result {
  /** Of a 10 mL syringe in adults, in a child of the smallest that holds it. */
  readonly onSyringeMl: string;
}

/**
 * The blood to discard before a sample. Rounded up to 0.1 mL, so that the dead space is surely cleared.
 *
 * It follows the dead space at any age: the fixed volumes of adults are said of nobody else.
 *
 * @formula discard = 2 × dead space, 6 × for coagulation tests, rounded up to 0.1 mL
 * @units `deadSpaceMl` in mL; `ageDays` in d; result in mL
 * @ranges
 * - `deadSpaceMl`: 0.01 to 10 mL; internal volume of the lumen with everything between it and the syringe
 * - `sampleFor`: one of general, coagulation; what the sample is for
 * - `ageDays` (optional): a whole number from 0 to 45000 d; age of the patient
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - What is discarded counts as blood loss; what is returned does not.
 * - Stop infusions in every lumen first.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source RNAO best practice guideline, node 805 (seen; its stored page prints "non coagulation" on both
 *   lines, an evident slip); CLSI H21-A5: 6 dead-space volumes for coagulation (from memory)
 * @example
 * ```ts
 * discardVolume({ deadSpaceMl: '0.75', sampleFor: 'general', ageDays: 6575 }).value; // '1.5'
 * ```
 */
export function discardVolume(input: DiscardVolumeInput): DiscardVolume {
  const own = discardVolumeCard();
  const { deadSpaceMl, sampleFor, ageDays } = readInput(own.inputs, input);
  const multiple = sampleFor === 'coagulation' ? '6' : '2';
  const exact = times(deadSpaceMl, decimal(multiple));
  const discard = round(exact, 1, 'up');
  const adult = ageDays !== undefined && ageDays >= adultFromDays;
  const shown = measured(discard, adult ? '10-ml' : '1-ml', 'up');
  return {
    ...answerAmount(
      own,
      discard,
      [
        `${multiple} × ${toText(deadSpaceMl)} mL = ${toText(exact)} mL`,
        `rounded up to 0.1 mL: ${toText(discard)} mL`,
        `a ${sizeText(shown.syringe)} syringe shows steps of ${shown.stepMl} mL: ${toText(shown.volumeMl)} mL there`,
      ],
      raisedWhere(
        [
          compare(deadSpaceMl, decimal('5')) > 0,
          'A DEAD SPACE OF MORE THAN 5 ML: check the volumes of lumen and add-ons.',
        ],
        [
          adult,
          'Fixed volumes of adults are published too and differ: 3 to 6 mL (RNAO), 5 to 10 mL (Royal Marsden Manual); local policy says which rule counts.',
        ],
        [
          !adult,
          'In a child the fixed volumes of adults never apply; hold everything that is drawn against the limit of the day.',
        ],
        [
          sampleFor === 'coagulation',
          'Coagulation tests: avoid a catheter that holds heparin; a vein is better.',
        ],
      ),
    ),
    onSyringeMl: toText(shown.volumeMl),
  };
}
