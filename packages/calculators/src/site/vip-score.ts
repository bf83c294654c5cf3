import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { type InputOf, flag, readInput } from '../lib/input.js';

// What the published scale asks for at each score, in our own words.
const actions = [
  'it may stay; keep looking',
  'it may stay; look again soon',
  'take it out, and ask for another place',
  'take it out, ask for another place, and tell the prescriber',
  'take it out, ask for another place, and have the vein treated',
  'take it out, and have the vein and the fever treated without delay',
] as const;

export const vipScoreCard = () =>
  card({
    name: 'vip-score',
    title: 'Visual infusion phlebitis score',
    formula:
      '0 healthy; 1 one of pain, erythema, swelling; 2 two of them; 3 all three; 4 also a palpable cord; 5 also pyrexia',
    unit: 'score',
    source: 'Visual infusion phlebitis score (scribd 536252274, seen)',
    cautions: ['Check at least daily; the scale is made for peripheral cannulae.', deferToClinician],
    inputs: {
      pain: flag('pain near the site or along the cannula'),
      erythema: flag('redness'),
      swelling: flag('swelling or induration'),
      palpableCord: flag('palpable venous cord'),
      pyrexia: flag('raised temperature'),
    },
  });

export type VipScoreInput = InputOf<ReturnType<typeof vipScoreCard>['inputs']>;

/** Score as `value`; what follows from it beside it. */
export interface VipScore extends Result<number> {
  readonly action: string;
}

/**
 * Score 0 to 5. A palpable cord alone counts as 4, the protective reading; fever without a cord raises nothing.
 *
 * @formula 0 healthy; 1 one of pain, erythema, swelling; 2 two of them; 3 all three; 4 also a palpable cord;
 *   5 also pyrexia
 * @units result in score
 * @ranges
 * - `pain`: true or false; pain near the site or along the cannula
 * - `erythema`: true or false; redness
 * - `swelling`: true or false; swelling or induration
 * - `palpableCord`: true or false; palpable venous cord
 * - `pyrexia`: true or false; raised temperature
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Check at least daily; the scale is made for peripheral cannulae.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Visual infusion phlebitis score (scribd 536252274, seen)
 * @example
 * ```ts
 * vipScore({ pain: false, erythema: false, swelling: true, palpableCord: false, pyrexia: false }).value; // 1
 * ```
 */
export function vipScore(input: VipScoreInput): VipScore {
  const own = vipScoreCard();
  const { pain, erythema, swelling, palpableCord, pyrexia } = readInput(own.inputs, input);
  const signs = Number(pain) + Number(erythema) + Number(swelling);
  const score = palpableCord ? (pyrexia ? 5 : 4) : signs;
  const action = actions[score] ?? actions[5];
  return {
    ...answer(
      own,
      score,
      [
        `${signs} of pain, erythema, swelling; palpable cord ${yesNo(palpableCord)}; pyrexia ${yesNo(pyrexia)}: ${score}`,
        `what follows: ${action}`,
      ],
      raisedWhere(
        [
          palpableCord && signs < 3,
          'A cord without all three signs fits no row as printed; the protective score is given.',
        ],
        [pyrexia && !palpableCord, 'Fever without a cord does not raise the score: look for an infection.'],
      ),
    ),
    action,
  };
}

const yesNo = (value: boolean): string => (value ? 'yes' : 'no');
