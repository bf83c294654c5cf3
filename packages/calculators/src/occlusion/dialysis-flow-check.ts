import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { type Decimal, compare, decimal, toText } from '../lib/decimal.js';
import { type InputOf, choice, flag, list, optional, quantity, readInput } from '../lib/input.js';

export const dialysisFlowCheckCard = () =>
  card({
    name: 'dialysis-flow-check',
    title: 'Whether a dialysis catheter works, by its blood flow',
    formula:
      'below-200 and below-250: mean flow of the latest session below it; allon-2018: pressure alarms in every session, or no 2 sessions in a row above 300 mL/min, or Kt/V of 1.2 within 4 h in none, after the first measures',
    unit: '',
    source:
      'below-200: JASN review, Table 3, sustained flow below 200 mL/min (seen); allon-2018: trial end-points, PMC5967684 (seen); below-250: in use, no source read (reported). That `sustained` is the mean of a whole session is a reading of ours, no source',
    cautions: [
      'The published readings differ: 200, 250 and 300 mL/min; local policy says which one counts.',
      'Patient position, clamps and kinks come first; then reversing the lines and a flush, as local policy has it.',
      'Published steps after that: a short thrombolytic dwell, a longer one, imaging (JASN review, Table 3); the clinician decides.',
      deferToClinician,
    ],
    inputs: {
      reading: choice(['below-200', 'below-250', 'allon-2018'], 'which reading local policy goes by'),
      sessions: list(
        1,
        60,
        {
          meanFlowMlPerMin: quantity('mL/min', '0', '800', 'mean blood flow of the session'),
          recurrentPressureAlarms: flag('pressure alarms came again and again'),
          ktV: optional(quantity('1', '0', '5', 'Kt/V of the session')),
          hours: optional(quantity('h', '0.1', '24', 'length of the session')),
        },
        'the sessions to judge, the latest last',
      ),
      afterFirstMeasures: flag('repositioning, reversing the lines and a flush were tried and did not help'),
    },
  });

export type DialysisFlowCheckInput = InputOf<ReturnType<typeof dialysisFlowCheckCard>['inputs']>;

type Reading = 'below-200' | 'below-250' | 'allon-2018';
type Verdict = 'works' | 'first-measures' | 'dysfunction' | 'cannot-be-judged';
type Sign = 'flow' | 'pressure-alarms' | 'kt-v';

/** The verdict as `value`, by which reading, on what signs, and what the other readings would say. */
export interface DialysisFlowCheck extends Result<Verdict> {
  readonly reading: Reading;
  readonly signs: readonly Sign[];
  readonly otherReadings: readonly { readonly reading: Reading; readonly says: Verdict }[];
}

interface Session {
  readonly meanFlowMlPerMin: Decimal;
  readonly recurrentPressureAlarms: boolean;
  readonly ktV: Decimal | undefined;
  readonly hours: Decimal | undefined;
}

interface Judged {
  readonly verdict: Verdict;
  readonly signs: readonly Sign[];
}

/**
 * Whether the catheter works by the reading named; there is no default, since the published ones disagree.
 *
 * Flow exactly at 200 or 250 mL/min is not below it; 300 mL/min has to be exceeded. The reading of 2018 needs two
 * sessions at least for its flow, and the first measures tried for a dysfunction; Kt/V is judged only where it and
 * the length are given for every session.
 *
 * @formula below-200 and below-250: mean flow of the latest session below it; allon-2018: pressure alarms in
 *   every session, or no 2 sessions in a row above 300 mL/min, or Kt/V of 1.2 within 4 h in none, after the
 *   first measures
 * @units `sessions[].meanFlowMlPerMin` in mL/min; `sessions[].ktV` in 1; `sessions[].hours` in h; result a
 *   word
 * @ranges
 * - `reading`: one of below-200, below-250, allon-2018; which reading local policy goes by
 * - `sessions`: a list of 1 to 60 entries; the sessions to judge, the latest last
 * - `sessions[].meanFlowMlPerMin`: 0 to 800 mL/min; mean blood flow of the session
 * - `sessions[].recurrentPressureAlarms`: true or false; pressure alarms came again and again
 * - `sessions[].ktV` (optional): 0 to 5 1; Kt/V of the session
 * - `sessions[].hours` (optional): 0.1 to 24 h; length of the session
 * - `afterFirstMeasures`: true or false; repositioning, reversing the lines and a flush were tried and did
 *   not help
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - The published readings differ: 200, 250 and 300 mL/min; local policy says which one counts.
 * - Patient position, clamps and kinks come first; then reversing the lines and a flush, as local policy has
 *   it.
 * - Published steps after that: a short thrombolytic dwell, a longer one, imaging (JASN review, Table 3);
 *   the clinician decides.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source below-200: JASN review, Table 3, sustained flow below 200 mL/min (seen); allon-2018: trial
 *   end-points, PMC5967684 (seen); below-250: in use, no source read (reported). That `sustained` is the
 *   mean of a whole session is a reading of ours, no source
 * @example
 * ```ts
 * dialysisFlowCheck({
 *   reading: 'below-200',
 *   sessions: [{ meanFlowMlPerMin: 199, recurrentPressureAlarms: false }],
 *   afterFirstMeasures: true,
 * }).value; // 'dysfunction'
 * ```
 */
export function dialysisFlowCheck(input: DialysisFlowCheckInput): DialysisFlowCheck {
  const own = dialysisFlowCheckCard();
  const { reading, sessions, afterFirstMeasures } = readInput(own.inputs, input);
  const by = (each: Reading): Judged =>
    each === 'allon-2018'
      ? byTrial(sessions, afterFirstMeasures)
      : byLimit(sessions, each === 'below-200' ? '200' : '250');
  const { verdict, signs } = by(reading);
  const others = (['below-200', 'below-250', 'allon-2018'] as const).filter((each) => each !== reading);
  const otherReadings = others.map((each) => ({ reading: each, says: by(each).verdict }));
  return {
    ...answer(
      own,
      verdict,
      [
        `mean flows ${sessions.map((each) => toText(each.meanFlowMlPerMin)).join(', ')} mL/min, the latest last`,
        `recurrent pressure alarms in ${sessions.filter((each) => each.recurrentPressureAlarms).length} of ${sessions.length}; Kt/V ${adequacies[adequacy(sessions)]}`,
        `reading ${reading}, first measures tried ${afterFirstMeasures ? 'yes' : 'no'}: ${verdict}${signs.length === 0 ? '' : `, by ${signs.join(', ')}`}`,
        ...otherReadings.map((each) => `reading ${each.reading} would say: ${each.says}`),
      ],
      raisedWhere(
        [
          verdict === 'dysfunction',
          'The catheter does not work by this reading: tell the dialysis team before the next session.',
        ],
        [
          verdict !== 'works' && !afterFirstMeasures,
          'Try the first measures, then judge again: position, reversed lines, flush.',
        ],
        [
          verdict === 'cannot-be-judged',
          'One session cannot show two in a row above 300 mL/min: count it as not known to work, and look at the next one.',
        ],
        [
          otherReadings.some(({ says }) => says !== verdict),
          'Another published reading says otherwise; see which one local policy goes by.',
        ],
        [
          reading === 'allon-2018' && adequacy(sessions) === 'not-given',
          'Kt/V or the length of a session is not given: that part is not judged.',
        ],
      ),
    ),
    reading,
    signs,
    otherReadings,
  };
}

function byLimit(sessions: readonly Session[], limitMlPerMin: string): Judged {
  const latest = sessions.at(-1);
  const low = latest !== undefined && compare(latest.meanFlowMlPerMin, decimal(limitMlPerMin)) < 0;
  return low ? { verdict: 'dysfunction', signs: ['flow'] } : { verdict: 'works', signs: [] };
}

function byTrial(sessions: readonly Session[], afterFirstMeasures: boolean): Judged {
  const high = sessions.map(({ meanFlowMlPerMin }) => compare(meanFlowMlPerMin, decimal('300')) > 0);
  const reproduced = high.some((each, index) => each && high[index + 1] === true);
  // One session above 300 may yet be the first of two; one at or below it is no sign until there is a second.
  const flowKnown = sessions.length > 1;
  const signs: Sign[] = [];
  if (flowKnown && !reproduced) signs.push('flow');
  if (sessions.every(({ recurrentPressureAlarms }) => recurrentPressureAlarms)) signs.push('pressure-alarms');
  if (adequacy(sessions) === 'not-reached') signs.push('kt-v');
  if (signs.length > 0) return { verdict: afterFirstMeasures ? 'dysfunction' : 'first-measures', signs };
  return { verdict: flowKnown ? 'works' : 'cannot-be-judged', signs };
}

const adequacies = {
  reached: 'reached',
  'not-reached': 'not reached',
  'not-given': 'not given for every session',
} as const;

function adequacy(sessions: readonly Session[]): keyof typeof adequacies {
  const reached = sessions.some(
    ({ ktV, hours }) =>
      ktV !== undefined &&
      hours !== undefined &&
      compare(ktV, decimal('1.2')) >= 0 &&
      compare(hours, decimal('4')) <= 0,
  );
  if (reached) return 'reached';
  const allGiven = sessions.every(({ ktV, hours }) => ktV !== undefined && hours !== undefined);
  return allGiven ? 'not-reached' : 'not-given';
}
