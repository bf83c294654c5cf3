import { type Result, answerAmount, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, divide, times, toText } from '../lib/decimal.js';
import { type InputOf, optional, quantity, readInput } from '../lib/input.js';

export const catheterToVeinRatioCard = () =>
  card({
    name: 'catheter-to-vein-ratio',
    title: 'Catheter-to-vein ratio',
    formula: 'ratio = 100 × (Fr / 3) / vein diameter in mm, rounded to whole percent, then compared',
    unit: '%',
    source:
      'Sharp 2021 (pubmed 34226216, seen): thrombosis relative risk 2.30 (1.202 to 4.383) at 46 % and above against 45 % and below; INS: at most 45 % (from memory)',
    cautions: [
      'Other studies put the limit at 33 % (not significant) or 36.5 % (164 patients, 3 events); local policy says which one counts.',
      'Measure the vein without a tourniquet, at the place and in the position of the insertion.',
      deferToClinician,
    ],
    inputs: {
      catheterFrench: quantity('[Ch]', '0.5', '40', 'outer diameter of the catheter in French'),
      veinDiameterMm: quantity('mm', '0.5', '40', 'diameter of the vein'),
      limitPercent: optional(quantity('%', '10', '100', 'highest ratio accepted; 45 when left out')),
    },
  });

export type CatheterToVeinRatioInput = InputOf<ReturnType<typeof catheterToVeinRatioCard>['inputs']>;

/** Whole percent as `value`, the ratio to 0.1 % and the comparison beside it. */
export interface CatheterToVeinRatio extends Result {
  readonly percentToOneDecimal: string;
  readonly limitPercent: string;
  readonly withinLimit: boolean;
}

/**
 * How much of the vein's diameter the catheter takes up.
 *
 * Rounded to whole percent before the comparison, since the published limit separates 45 from 46.
 *
 * @formula ratio = 100 × (Fr / 3) / vein diameter in mm, rounded to whole percent, then compared
 * @units `catheterFrench` in [Ch]; `veinDiameterMm` in mm; `limitPercent` in %; result in %
 * @ranges
 * - `catheterFrench`: 0.5 to 40 [Ch]; outer diameter of the catheter in French
 * - `veinDiameterMm`: 0.5 to 40 mm; diameter of the vein
 * - `limitPercent` (optional): 10 to 100 %; highest ratio accepted; 45 when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Other studies put the limit at 33 % (not significant) or 36.5 % (164 patients, 3 events); local policy
 *   says which one counts.
 * - Measure the vein without a tourniquet, at the place and in the position of the insertion.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Sharp 2021 (pubmed 34226216, seen): thrombosis relative risk 2.30 (1.202 to 4.383) at 46 % and
 *   above against 45 % and below; INS: at most 45 % (from memory)
 * @example
 * ```ts
 * catheterToVeinRatio({ catheterFrench: '5.448', veinDiameterMm: '4' }).value; // '45'
 * ```
 */
export function catheterToVeinRatio(input: CatheterToVeinRatioInput): CatheterToVeinRatio {
  const own = catheterToVeinRatioCard();
  const { catheterFrench, veinDiameterMm, limitPercent = decimal('45') } = readInput(own.inputs, input);
  const hundredfold = times(catheterFrench, decimal('100'));
  const threefold = times(veinDiameterMm, decimal('3'));
  const percent = divide(hundredfold, threefold, 0, 'nearest');
  const fine = toText(divide(hundredfold, threefold, 1, 'nearest'));
  const withinLimit = compare(percent, limitPercent) <= 0;
  const limit = toText(limitPercent);
  return {
    ...answerAmount(
      own,
      percent,
      [
        `100 × ${toText(catheterFrench)} Fr ÷ 3 ÷ ${toText(veinDiameterMm)} mm = ${fine} %`,
        `rounded to whole percent: ${toText(percent)} %, limit ${limit} %`,
      ],
      raisedWhere([
        !withinLimit,
        `Above the limit of ${limit} %: consider a thinner catheter or a larger vein.`,
      ]),
    ),
    percentToOneDecimal: fine,
    limitPercent: limit,
    withinLimit,
  };
}
