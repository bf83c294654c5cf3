import { type Result, answer, card, inconsistent, raisedWhere } from '../lib/calculator.js';
import { localTimeOf } from '../lib/calendar.js';
import { deferToDrug } from '../lib/cautions.js';
import { type InputOf, flag, localTime, optional, readInput, whole } from '../lib/input.js';

export const thrombolyticClockCard = () =>
  card({
    name: 'thrombolytic-clock',
    title: 'Where a thrombolytic dwell stands and what comes next',
    formula:
      'first assessment at instillation + 30 min, second at + 120 min; over at + 240 min, whatever was found',
    unit: '',
    source:
      'US label of alteplase for catheter occlusion: 30 min, 120 min, second equal dose (seen); over after 240 min: common practice, no source',
    cautions: [
      'Wall-clock times: where the clocks change during the dwell, count the minutes yourself.',
      deferToDrug,
    ],
    refuses: ['a time before the instillation', 'an assessment that lies in the future'],
    inputs: {
      instilledAt: localTime('when the drug went in'),
      asOf: localTime('the time now'),
      worksAt30Minutes: optional(
        flag('the lumen worked at the first assessment; left out when not assessed'),
      ),
      worksAt120Minutes: optional(
        flag('the lumen worked at the second assessment; left out when not assessed'),
      ),
      dosesGiven: optional(whole('doses', '1', '2', 'doses given, this one included; 1 when left out')),
    },
  });

export type ThrombolyticClockInput = InputOf<ReturnType<typeof thrombolyticClockCard>['inputs']>;

export type ThrombolyticStep =
  | 'wait'
  | 'assess-now'
  | 'withdraw-and-flush'
  | 'second-dose-may-follow'
  | 'stop-and-call-the-prescriber'
  | 'dwell-over';

/** Next step as `value`; both assessment times beside it. */
export interface ThrombolyticClock extends Result<ThrombolyticStep> {
  readonly firstAssessmentAt: string;
  readonly secondAssessmentAt: string;
  readonly minutesSinceInstillation: number;
}

/**
 * The next step of a thrombolytic dwell, from its start, the time now, and what was found.
 *
 * The clock ends 240 minutes after the drug went in: whoever asks later is not told to do now what was to be done then.
 *
 * @formula first assessment at instillation + 30 min, second at + 120 min; over at + 240 min, whatever was
 *   found
 * @units `dosesGiven` in doses; result a word
 * @ranges
 * - `instilledAt`: a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199; when the drug went in
 * - `asOf`: a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199; the time now
 * - `worksAt30Minutes` (optional): true or false; the lumen worked at the first assessment; left out when
 *   not assessed
 * - `worksAt120Minutes` (optional): true or false; the lumen worked at the second assessment; left out when
 *   not assessed
 * - `dosesGiven` (optional): a whole number from 1 to 2 doses; doses given, this one included; 1 when left
 *   out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: a time before the instillation
 * @throws {@link CalculatorError} where refused together: an assessment that lies in the future
 * @cautions
 * - Wall-clock times: where the clocks change during the dwell, count the minutes yourself.
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source US label of alteplase for catheter occlusion: 30 min, 120 min, second equal dose (seen); over
 *   after 240 min: common practice, no source
 * @example
 * ```ts
 * thrombolyticClock({ instilledAt: '2026-11-25T10:00', asOf: '2026-11-25T10:29' }).value; // 'wait'
 * ```
 */
export function thrombolyticClock(input: ThrombolyticClockInput): ThrombolyticClock {
  const own = thrombolyticClockCard();
  const read = readInput(own.inputs, input);
  const minutes = read.asOf - read.instilledAt;
  if (minutes < 0) {
    throw inconsistent(
      'asOf',
      localTimeOf(read.asOf),
      `not before the instillation at ${localTimeOf(read.instilledAt)}`,
    );
  }
  refuseFuture('worksAt30Minutes', read.worksAt30Minutes, minutes, 30);
  refuseFuture('worksAt120Minutes', read.worksAt120Minutes, minutes, 120);
  const step = nextStep(minutes, read.worksAt30Minutes, read.worksAt120Minutes, read.dosesGiven ?? 1);
  const firstAssessmentAt = localTimeOf(read.instilledAt + 30);
  const secondAssessmentAt = localTimeOf(read.instilledAt + 120);
  return {
    ...answer(
      own,
      step,
      [
        `first assessment ${firstAssessmentAt}, second ${secondAssessmentAt}`,
        `${minutes} min since the instillation: ${step}`,
      ],
      raisedWhere([
        step === 'dwell-over',
        'This dwell is over. Go by how the lumen is found now: try gently to draw blood; where none comes, leave it clamped and call the prescriber. No second dose on this clock.',
      ]),
    ),
    firstAssessmentAt,
    secondAssessmentAt,
    minutesSinceInstillation: minutes,
  };
}

function refuseFuture(input: string, works: boolean | undefined, minutes: number, due: number): void {
  if (works !== undefined && minutes < due) {
    throw inconsistent(input, works, `left out until ${due} min have passed; now it is ${minutes} min`);
  }
}

/** Twice the time to the second assessment: nothing is known of a drug that stays in longer. */
const overAfterMinutes = 240;

function nextStep(
  minutes: number,
  worksAt30: boolean | undefined,
  worksAt120: boolean | undefined,
  doses: number,
): ThrombolyticStep {
  if (minutes > overAfterMinutes) return 'dwell-over';
  if (worksAt30 === true || worksAt120 === true) return 'withdraw-and-flush';
  if (worksAt120 === false) return doses === 1 ? 'second-dose-may-follow' : 'stop-and-call-the-prescriber';
  if (minutes >= 120) return 'assess-now';
  return minutes < 30 || worksAt30 === false ? 'wait' : 'assess-now';
}
