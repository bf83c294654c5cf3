import { type Result, answer, card } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { notInTable } from '../lib/gauge.js';
import { type InputOf, choice, readInput, whole } from '../lib/input.js';

const colours = (): Readonly<Record<'needle' | 'cannula', Readonly<Record<number, string>>>> => ({
  needle: {
    14: 'orange (older: pale green)',
    16: 'white',
    18: 'pink',
    20: 'yellow',
    21: 'deep green',
    22: 'black',
    23: 'deep blue',
    24: 'purple',
    25: 'orange',
    26: 'brown',
    27: 'grey',
  },
  cannula: {
    14: 'orange',
    16: 'grey',
    17: 'white',
    18: 'green',
    20: 'pink',
    22: 'blue',
    24: 'yellow',
    26: 'violet',
  },
});

export const hubColourCard = () =>
  card({
    name: 'hub-colour',
    title: 'Hub colour of a needle or an over-needle cannula',
    formula: 'table by kind and gauge',
    unit: '',
    source: 'ISO 6009 (needles) and ISO 10555-5 (over-needle cannulae), from memory',
    cautions: [
      'Needles and cannulae use different colours for the same gauge; never read one table for the other.',
      'The printed gauge rules, not the colour.',
      deferToDevice,
    ],
    refuses: ['a gauge that the table of that kind does not have'],
    inputs: {
      kind: choice(['needle', 'cannula'], 'steel needle, or cannula over a needle'),
      gauge: whole('G', '14', '27', 'gauge printed on it'),
    },
  });

export type HubColourInput = InputOf<ReturnType<typeof hubColourCard>['inputs']>;

/**
 * The colour of the hub by gauge.
 *
 * @formula table by kind and gauge
 * @units `gauge` in G; result a word
 * @ranges
 * - `kind`: one of needle, cannula; steel needle, or cannula over a needle
 * - `gauge`: a whole number from 14 to 27 G; gauge printed on it
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: a gauge that the table of that kind does not have
 * @cautions
 * - Needles and cannulae use different colours for the same gauge; never read one table for the other.
 * - The printed gauge rules, not the colour.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source ISO 6009 (needles) and ISO 10555-5 (over-needle cannulae), from memory
 * @example
 * ```ts
 * hubColour({ kind: 'cannula', gauge: 18 }).value; // 'green'
 * ```
 */
export function hubColour(input: HubColourInput): Result {
  const own = hubColourCard();
  const { kind, gauge } = readInput(own.inputs, input);
  const table = colours()[kind];
  const colour = table[gauge];
  if (colour === undefined) throw notInTable(gauge, Object.keys(table));
  return answer(own, colour, [`${kind}, ${gauge} G: ${colour}`]);
}
