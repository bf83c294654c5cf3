import { type Result, answerAmount, card, inconsistent } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { type Decimal, compare, decimal, minus, plus, toText } from '../lib/decimal.js';
import { type InputOf, list, optional, quantity, readInput } from '../lib/input.js';

export const bloodLossCard = () =>
  card({
    name: 'blood-loss',
    title: 'Running blood loss by sampling over 24 hours, 30 days and 8 weeks',
    formula: 'loss = Σ (drawn − returned) of the draws at most 24 h, 720 h and 1344 h ago',
    unit: 'mL',
    source:
      'Howie 2011, Bull WHO 89:46-53: clinical and research samples count together, per 24 h and per 8 weeks (seen); sum (arithmetic)',
    cautions: [
      'Bleeding and other losses are not in it.',
      'Draws for research count together with clinical ones.',
      deferToClinician,
    ],
    refuses: ['more returned than drawn'],
    inputs: {
      draws: list(
        0,
        2000,
        {
          hoursAgo: quantity('h', '0', '20000', 'since the draw'),
          drawnMl: quantity('mL', '0', '500', 'everything drawn, discard included'),
          returnedMl: optional(quantity('mL', '0', '500', 'what went back; 0 when left out')),
        },
        'every draw',
      ),
    },
  });

export type BloodLossInput = InputOf<ReturnType<typeof bloodLossCard>['inputs']>;

/** Loss over 24 hours as `value`, over 30 days and 8 weeks beside it. */
export interface BloodLoss extends Result {
  readonly last30DaysMl: string;
  readonly last8WeeksMl: string;
}

/**
 * What sampling took from the patient over the last 24 hours, 30 days and 8 weeks. Exact, nothing is rounded.
 *
 * A draw exactly 24 h, 720 h or 1344 h (56 days) ago still counts: the protective reading.
 *
 * @formula loss = Σ (drawn − returned) of the draws at most 24 h, 720 h and 1344 h ago
 * @units `draws[].hoursAgo` in h; `draws[].drawnMl` in mL; `draws[].returnedMl` in mL; result in mL
 * @ranges
 * - `draws`: a list of 0 to 2000 entries; every draw
 * - `draws[].hoursAgo`: 0 to 20000 h; since the draw
 * - `draws[].drawnMl`: 0 to 500 mL; everything drawn, discard included
 * - `draws[].returnedMl` (optional): 0 to 500 mL; what went back; 0 when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: more returned than drawn
 * @cautions
 * - Bleeding and other losses are not in it.
 * - Draws for research count together with clinical ones.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Howie 2011, Bull WHO 89:46-53: clinical and research samples count together, per 24 h and per 8
 *   weeks (seen); sum (arithmetic)
 * @example
 * ```ts
 * bloodLoss({
 *   draws: [{ hoursAgo: 24, drawnMl: 1 }, { hoursAgo: '24.01', drawnMl: 2 }, { hoursAgo: 720, drawnMl: 4 }, { hoursAgo: '720.01', drawnMl: 8 }, { hoursAgo: 1344, drawnMl: 16 }, { hoursAgo: '1344.01', drawnMl: 32 }],
 * }).value; // '1'
 * ```
 */
export function bloodLoss(input: BloodLossInput): BloodLoss {
  const own = bloodLossCard();
  const { draws } = readInput(own.inputs, input);
  const losses = draws.map(({ hoursAgo, drawnMl, returnedMl = decimal('0') }, index) => {
    if (compare(returnedMl, drawnMl) > 0) {
      throw inconsistent(
        `draws[${index}].returnedMl`,
        toText(returnedMl),
        `at most drawnMl, ${toText(drawnMl)} mL`,
      );
    }
    return { hoursAgo, lostMl: minus(drawnMl, returnedMl) };
  });
  const within = (hours: string): readonly Decimal[] =>
    losses.filter(({ hoursAgo }) => compare(hoursAgo, decimal(hours)) <= 0).map(({ lostMl }) => lostMl);
  const day = within('24');
  const month = within('720');
  const weeks = within('1344');
  const total = (parts: readonly Decimal[]): Decimal => parts.reduce(plus, decimal('0'));
  const working = (parts: readonly Decimal[]): string =>
    `${['0', ...parts.map(toText)].join(' + ')} = ${toText(total(parts))} mL`;
  return {
    ...answerAmount(own, total(day), [
      `last 24 h: ${working(day)}`,
      `last 30 days: ${working(month)}`,
      `last 8 weeks: ${working(weeks)}`,
    ]),
    last30DaysMl: toText(total(month)),
    last8WeeksMl: toText(total(weeks)),
  };
}
