import { type Result, answer, card } from '../lib/calculator.js';
import { localTimeOf } from '../lib/calendar.js';
import { deferToDevice } from '../lib/cautions.js';
import { type InputOf, localTime, optional, quantity, readInput } from '../lib/input.js';
import { decimal, round, times, toText } from '../lib/decimal.js';
import { practiceSource, repairPractice } from '../lib/practice.js';

export const repairTimesCard = () =>
  card({
    name: 'repair-times',
    title: 'When a repaired line may be infused through, and when its splint comes off',
    formula: 'infusion from repair + the kit’s time; splint off at repair + 48 h; up to the minute',
    unit: 'local date and time',
    source: practiceSource,
    cautions: [
      'The adhesive’s and kit’s own times rule; makers give minutes to 24 h (from memory).',
      'Wall-clock times: where the clocks change in between, count the hours yourself.',
      deferToDevice,
    ],
    inputs: {
      repairedAt: localTime('when the adhesive was put on'),
      noInfusionHours: quantity('h', '0', '240', 'wait before an infusion; the kit’s instructions say it'),
      splintHours: optional(quantity('h', '0', '1000', 'of the kit’s instructions; 48 when left out')),
    },
  });

export type RepairTimesInput = InputOf<ReturnType<typeof repairTimesCard>['inputs']>;

/** Earliest infusion as `value`, splint off beside it. */
export interface RepairTimes extends Result {
  readonly splintOffAt: string;
}

/**
 * The two times that follow a repair. A part of a minute counts as a whole one, so neither comes early.
 *
 * @formula infusion from repair + the kit’s time; splint off at repair + 48 h; up to the minute
 * @units `noInfusionHours` in h; `splintHours` in h; result in local date and time
 * @ranges
 * - `repairedAt`: a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199; when the adhesive was
 *   put on
 * - `noInfusionHours`: 0 to 240 h; wait before an infusion; the kit’s instructions say it
 * - `splintHours` (optional): 0 to 1000 h; of the kit’s instructions; 48 when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - The adhesive’s and kit’s own times rule; makers give minutes to 24 h (from memory).
 * - Wall-clock times: where the clocks change in between, count the hours yourself.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source common practice, no source
 * @example
 * ```ts
 * repairTimes({
 *   repairedAt: '2026-02-28T23:30',
 *   noInfusionHours: '0.51',
 *   splintHours: 24,
 * }).value; // '2026-03-01T00:01'
 * ```
 */
export function repairTimes(input: RepairTimesInput): RepairTimes {
  const own = repairTimesCard();
  const read = readInput(own.inputs, input);
  const wait = read.noInfusionHours;
  const splint = read.splintHours ?? decimal(repairPractice.splintHours);
  const after = (hours: typeof wait): string =>
    localTimeOf(read.repairedAt + Number(round(times(hours, decimal('60')), 0, 'up').digits));
  const infusionFrom = after(wait);
  const splintOffAt = after(splint);
  return {
    ...answer(own, infusionFrom, [
      `${localTimeOf(read.repairedAt)} + ${toText(wait)} h = ${infusionFrom}: infusion from then on`,
      `${localTimeOf(read.repairedAt)} + ${toText(splint)} h = ${splintOffAt}: splint off`,
    ]),
    splintOffAt,
  };
}
