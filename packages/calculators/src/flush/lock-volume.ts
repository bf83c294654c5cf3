import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToDevice, printedVolumeFirst } from '../lib/cautions.js';
import { type Decimal, compare, decimal, plus, round, times, toText } from '../lib/decimal.js';
import { type InputOf, choice, optional, quantity, readInput } from '../lib/input.js';
import { measured, sizeText } from '../lib/syringe.js';

export const lockVolumeCard = () =>
  card({
    name: 'lock-volume',
    title: 'Lock volume with overfill',
    formula:
      'lock = 1.2 × (catheter + add-on), or 1.2 × catheter + add-on, by the reading chosen; rounded up to 0.01 mL',
    unit: 'mL',
    source:
      'Goossens 2015, Nurs Res Pract 985686, Table 4: internal volume + 20 %, add-on volume extra; INS standards: + 20 % of catheter and add-ons (from memory)',
    cautions: [
      printedVolumeFirst,
      'The overfill reaches the blood: right only for a lock that does no harm there.',
      deferToDevice,
    ],
    inputs: {
      catheterVolumeMl: quantity('mL', '0.001', '10', 'internal (priming) volume of the lumen'),
      addOnVolumeMl: optional(quantity('mL', '0', '10', 'extension sets and connectors; 0 when left out')),
      overfill: optional(
        choice(
          ['catheter-and-add-on', 'catheter'],
          'what the 20 % are taken of; the two published readings differ. catheter-and-add-on, the fuller one, when left out',
        ),
      ),
    },
  });

export type LockVolumeInput = InputOf<ReturnType<typeof lockVolumeCard>['inputs']>;

/** The volume as `value`; the next mark of a 10 mL syringe beside it. */
export interface LockVolume extends Result {
  readonly onSyringeMl: string;
}

/**
 * The volume that fills a lumen to its tip with 20 % overfill against spillage.
 *
 * Two readings are published: 20 % of the catheter alone, or of catheter and add-ons. Where they differ the result
 * says what the other one gives. Rounded up to 0.01 mL, the finest mark on a 1 mL syringe, so that the fill is
 * never short. A line is locked with a barrel as wide as that of a 10 mL syringe, which shows steps of 0.2 mL: what to fill
 * it to stands beside.
 *
 * @formula lock = 1.2 × (catheter + add-on), or 1.2 × catheter + add-on, by the reading chosen; rounded up
 *   to 0.01 mL
 * @units `catheterVolumeMl` in mL; `addOnVolumeMl` in mL; result in mL
 * @ranges
 * - `catheterVolumeMl`: 0.001 to 10 mL; internal (priming) volume of the lumen
 * - `addOnVolumeMl` (optional): 0 to 10 mL; extension sets and connectors; 0 when left out
 * - `overfill` (optional): one of catheter-and-add-on, catheter; what the 20 % are taken of; the two
 *   published readings differ. catheter-and-add-on, the fuller one, when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Where the maker prints a volume on the limb or in the leaflet, use that volume instead of a computed
 *   one.
 * - The overfill reaches the blood: right only for a lock that does no harm there.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Goossens 2015, Nurs Res Pract 985686, Table 4: internal volume + 20 %, add-on volume extra; INS
 *   standards: + 20 % of catheter and add-ons (from memory)
 * @example
 * ```ts
 * lockVolume({ catheterVolumeMl: '0.6' }).value; // '0.72'
 * ```
 */
export function lockVolume(input: LockVolumeInput): LockVolume {
  const own = lockVolumeCard();
  const read = readInput(own.inputs, input);
  const { catheterVolumeMl, addOnVolumeMl = decimal('0'), overfill = 'catheter-and-add-on' } = read;
  const ofBoth = times(plus(catheterVolumeMl, addOnVolumeMl), decimal('1.2'));
  const ofCatheter = plus(times(catheterVolumeMl, decimal('1.2')), addOnVolumeMl);
  const exact = overfill === 'catheter' ? ofCatheter : ofBoth;
  const other = overfill === 'catheter' ? ofBoth : ofCatheter;
  const lock = fullMl(exact);
  const shown = measured(lock, '10-ml', 'up');
  const catheter = toText(catheterVolumeMl);
  const addOn = toText(addOnVolumeMl);
  const working =
    overfill === 'catheter' ? `1.2 × ${catheter} mL + ${addOn} mL` : `1.2 × (${catheter} mL + ${addOn} mL)`;
  return {
    ...answerAmount(
      own,
      lock,
      [
        `${working} = ${toText(exact)} mL`,
        `rounded up to 0.01 mL: ${toText(lock)} mL`,
        `a ${sizeText(shown.syringe)} syringe shows steps of ${shown.stepMl} mL: ${toText(shown.volumeMl)} mL there`,
      ],
      raisedWhere(
        [
          compare(exact, decimal('5')) > 0,
          'MORE THAN 5 ML: no lumen holds so much; check the volumes of lumen and add-ons.',
        ],
        [
          compare(exact, other) !== 0,
          `The other published reading gives ${toText(fullMl(other))} mL; local policy says which one counts.`,
        ],
      ),
    ),
    onSyringeMl: toText(shown.volumeMl),
  };
}

const fullMl = (exact: Decimal): Decimal => round(exact, 2, 'up');
