import { type Result, answer, card } from '../lib/calculator.js';
import { localTimeOf } from '../lib/calendar.js';
import { deferToClinician } from '../lib/cautions.js';
import { type InputOf, list, localTime, name, readInput, whole } from '../lib/input.js';

export const countBackTimesCard = () =>
  card({
    name: 'count-back-times',
    title: 'Preparation times counted back from a planned insertion',
    formula: 'time of a step = planned time − minutes before',
    unit: 'local date and time',
    source: 'Difference of times (arithmetic); the minutes are the unit’s own',
    cautions: [
      'Wall-clock times: where the clocks change in between, count the minutes yourself.',
      'When the plan moves, every time moves with it.',
      deferToClinician,
    ],
    inputs: {
      plannedAt: localTime('planned time of the insertion'),
      steps: list(
        1,
        50,
        {
          name: name('what has to be done'),
          minutesBefore: whole('min', '0', '43200', 'how long before the planned time it starts'),
        },
        'the steps, in any order',
      ),
    },
  });

export type CountBackTimesInput = InputOf<ReturnType<typeof countBackTimesCard>['inputs']>;

/** Start of the first step as `value`; every step in order of time beside it. */
export interface CountBackTimes extends Result {
  readonly times: readonly { readonly name: string; readonly at: string }[];
}

/**
 * When each preparation has to start. Steps of one time keep the order given.
 *
 * @formula time of a step = planned time − minutes before
 * @units `steps[].minutesBefore` in min; result in local date and time
 * @ranges
 * - `plannedAt`: a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199; planned time of the
 *   insertion
 * - `steps`: a list of 1 to 50 entries; the steps, in any order
 * - `steps[].name`: text of 1 to 80 characters; what has to be done
 * - `steps[].minutesBefore`: a whole number from 0 to 43200 min; how long before the planned time it starts
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Wall-clock times: where the clocks change in between, count the minutes yourself.
 * - When the plan moves, every time moves with it.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source Difference of times (arithmetic); the minutes are the unit’s own
 * @example
 * ```ts
 * countBackTimes({
 *   plannedAt: '2026-03-01T00:10',
 *   steps: [{ name: 'scrub', minutesBefore: 5 }, { name: 'bloods', minutesBefore: 1440 }, { name: 'gown', minutesBefore: 5 }, { name: 'go', minutesBefore: 0 }],
 * }).value; // '2026-02-28T00:10'
 * ```
 */
export function countBackTimes(input: CountBackTimesInput): CountBackTimes {
  const own = countBackTimesCard();
  const { plannedAt, steps } = readInput(own.inputs, input);
  const times = [...steps]
    .sort((a, b) => b.minutesBefore - a.minutesBefore)
    .map((step) => ({ name: step.name, at: localTimeOf(plannedAt - step.minutesBefore) }));
  const earliest = localTimeOf(plannedAt - Math.max(...steps.map(({ minutesBefore }) => minutesBefore)));
  return {
    ...answer(own, earliest, [
      ...times.map(({ name: step, at }) => `${at} ${step}`),
      `${localTimeOf(plannedAt)} planned insertion`,
    ]),
    times,
  };
}
