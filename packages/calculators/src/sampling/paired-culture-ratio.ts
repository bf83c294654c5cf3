import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, divide, times, toText } from '../lib/decimal.js';
import { type InputOf, choice, flag, optional, quantity, readInput } from '../lib/input.js';

export const pairedCultureRatioCard = () =>
  card({
    name: 'paired-culture-ratio',
    title: 'Ratio of paired quantitative blood cultures',
    formula:
      'ratio = colonies of the line’s culture / of the peripheral one, down to 0.1; supports an infection of the line from 3 : 1 on (other reading: above 5 : 1)',
    unit: 'to 1',
    source:
      'IDSA 2009 and KDOQI 2019: at least 3 : 1 (reported in secondary texts, not read); above 5 : 1: an older figure, printed by a secondary page for IDSA 2009 (seen there)',
    cautions: [
      'Growth in one of the two alone is not what this ratio is about.',
      'One piece of evidence: signs, other sources and the organism count too; a ratio not reached does not rule an infection of the line out.',
      deferToClinician,
    ],
    inputs: {
      lineColoniesPerMl: quantity('{CFU}/mL', '0.01', '1000000', 'colonies, culture from the line'),
      peripheralColoniesPerMl: quantity(
        '{CFU}/mL',
        '0.01',
        '1000000',
        'colonies, culture from a peripheral vein',
      ),
      sameOrganism: flag('both grew the same organism'),
      reading: optional(
        choice(
          ['at-least-3-to-1', 'above-5-to-1'],
          'which published ratio local policy goes by; at-least-3-to-1, the more protective, when left out',
        ),
      ),
    },
  });

export type PairedCultureRatioInput = InputOf<ReturnType<typeof pairedCultureRatioCard>['inputs']>;

/** Ratio as `value`, the reading it was judged by, and the verdict. */
export interface PairedCultureRatio extends Result {
  readonly reading: 'at-least-3-to-1' | 'above-5-to-1';
  /** `not-comparable` where the organisms differ. */
  readonly supportsLineInfection: 'yes' | 'no' | 'not-comparable';
}

/**
 * How many times as many colonies grew from the line. The comparison is exact; the printed ratio is rounded down
 * to 0.1. 3 : 1 just reached counts, 5 : 1 has to be exceeded, as each is published.
 *
 * @formula ratio = colonies of the line’s culture / of the peripheral one, down to 0.1; supports an
 *   infection of the line from 3 : 1 on (other reading: above 5 : 1)
 * @units `lineColoniesPerMl` in {CFU}/mL; `peripheralColoniesPerMl` in {CFU}/mL; result in to 1
 * @ranges
 * - `lineColoniesPerMl`: 0.01 to 1000000 {CFU}/mL; colonies, culture from the line
 * - `peripheralColoniesPerMl`: 0.01 to 1000000 {CFU}/mL; colonies, culture from a peripheral vein
 * - `sameOrganism`: true or false; both grew the same organism
 * - `reading` (optional): one of at-least-3-to-1, above-5-to-1; which published ratio local policy goes by;
 *   at-least-3-to-1, the more protective, when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Growth in one of the two alone is not what this ratio is about.
 * - One piece of evidence: signs, other sources and the organism count too; a ratio not reached does not
 *   rule an infection of the line out.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source IDSA 2009 and KDOQI 2019: at least 3 : 1 (reported in secondary texts, not read); above 5 : 1: an
 *   older figure, printed by a secondary page for IDSA 2009 (seen there)
 * @example
 * ```ts
 * pairedCultureRatio({
 *   lineColoniesPerMl: '30',
 *   peripheralColoniesPerMl: '10',
 *   sameOrganism: true,
 * }).value; // '3'
 * ```
 */
export function pairedCultureRatio(input: PairedCultureRatioInput): PairedCultureRatio {
  const own = pairedCultureRatioCard();
  const read = readInput(own.inputs, input);
  const { lineColoniesPerMl: line, peripheralColoniesPerMl: peripheral, sameOrganism } = read;
  const reading = read.reading ?? 'at-least-3-to-1';
  const against = (multiple: string): number => compare(line, times(peripheral, decimal(multiple)));
  const threefold = against('3') >= 0;
  const aboveFivefold = against('5') > 0;
  const reached = reading === 'at-least-3-to-1' ? threefold : aboveFivefold;
  const verdict = sameOrganism ? (reached ? 'yes' : 'no') : 'not-comparable';
  const ratio = divide(line, peripheral, 1, 'down');
  return {
    ...answerAmount(
      own,
      ratio,
      [
        `${toText(line)} ÷ ${toText(peripheral)} = ${toText(ratio)}, rounded down to 0.1`,
        `same organism ${sameOrganism ? 'yes' : 'no'}, reading ${reading}: ${verdict}`,
      ],
      raisedWhere(
        [
          verdict === 'yes',
          'Supports an infection of the line: call the clinician before the line is used further.',
        ],
        [!sameOrganism, 'Not the same organism: the two cultures are no pair.'],
        [
          sameOrganism && threefold !== aboveFivefold,
          'The published ratios disagree here: reached by 3 : 1, not by above 5 : 1.',
        ],
      ),
    ),
    reading,
    supportsLineInfection: verdict,
  };
}
