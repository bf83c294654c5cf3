import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, toText } from '../lib/decimal.js';
import { type InputOf, flag, quantity, readInput, whole } from '../lib/input.js';

export const differentialTimeToPositivityCard = () =>
  card({
    name: 'differential-time-to-positivity',
    title: 'Differential time to positivity of paired blood cultures',
    formula:
      'difference = |time to positivity of the peripheral culture − of the line’s|; supports an infection of the line where the line’s was positive at least 120 min earlier',
    unit: 'min',
    source:
      'IDSA 2009 and KDOQI 2019: at least 120 min (both reported in secondary texts, not read); equal volumes, drawn at most 10 to 15 min apart: INS, IDSA (from memory)',
    cautions: [
      'A change of the connector comes before the culture from the line.',
      'One piece of evidence: signs, other sources and the organism count too; a difference not reached does not rule an infection of the line out.',
      deferToClinician,
    ],
    inputs: {
      lineMinutes: whole('min', '1', '30000', 'from incubation to positivity, culture from the line'),
      peripheralMinutes: whole('min', '1', '30000', 'the same, culture from a peripheral vein'),
      lineVolumeMl: quantity('mL', '0.1', '60', 'blood in the culture from the line, as read from its mark'),
      peripheralVolumeMl: quantity('mL', '0.1', '60', 'blood in the peripheral culture'),
      minutesApart: whole('min', '0', '1440', 'between the two draws'),
      sameOrganism: flag('both grew the same organism'),
    },
  });

export type DifferentialTimeToPositivityInput = InputOf<
  ReturnType<typeof differentialTimeToPositivityCard>['inputs']
>;

/** Minutes between the two as `value`, which was first, and the verdict. */
export interface DifferentialTimeToPositivity extends Result<number> {
  readonly positiveFirst: 'line' | 'peripheral' | 'neither';
  /** `not-comparable`: other organism, unequal volumes, or drawn more than 15 min apart. */
  readonly supportsLineInfection: 'yes' | 'no' | 'not-comparable';
}

/**
 * How much earlier the culture from the line was positive. Whole minutes, exact; 120 min just reached counts.
 *
 * Published is `at most 10 to 15 min apart`: up to 10 min is taken as it is, 11 to 15 min with a caution, more does
 * not compare.
 *
 * @formula difference = |time to positivity of the peripheral culture − of the line’s|; supports an
 *   infection of the line where the line’s was positive at least 120 min earlier
 * @units `lineMinutes` in min; `peripheralMinutes` in min; `lineVolumeMl` in mL; `peripheralVolumeMl` in mL;
 *   `minutesApart` in min; result in min
 * @ranges
 * - `lineMinutes`: a whole number from 1 to 30000 min; from incubation to positivity, culture from the line
 * - `peripheralMinutes`: a whole number from 1 to 30000 min; the same, culture from a peripheral vein
 * - `lineVolumeMl`: 0.1 to 60 mL; blood in the culture from the line, as read from its mark
 * - `peripheralVolumeMl`: 0.1 to 60 mL; blood in the peripheral culture
 * - `minutesApart`: a whole number from 0 to 1440 min; between the two draws
 * - `sameOrganism`: true or false; both grew the same organism
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - A change of the connector comes before the culture from the line.
 * - One piece of evidence: signs, other sources and the organism count too; a difference not reached does
 *   not rule an infection of the line out.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source IDSA 2009 and KDOQI 2019: at least 120 min (both reported in secondary texts, not read); equal
 *   volumes, drawn at most 10 to 15 min apart: INS, IDSA (from memory)
 * @example
 * ```ts
 * differentialTimeToPositivity({
 *   lineMinutes: 600,
 *   peripheralMinutes: 720,
 *   lineVolumeMl: '10',
 *   peripheralVolumeMl: '10.0',
 *   minutesApart: 10,
 *   sameOrganism: true,
 * }).value; // 120
 * ```
 */
export function differentialTimeToPositivity(
  input: DifferentialTimeToPositivityInput,
): DifferentialTimeToPositivity {
  const own = differentialTimeToPositivityCard();
  const read = readInput(own.inputs, input);
  const { lineMinutes, peripheralMinutes, lineVolumeMl, peripheralVolumeMl, minutesApart } = read;
  const earlier = peripheralMinutes - lineMinutes;
  const positiveFirst = earlier > 0 ? 'line' : earlier < 0 ? 'peripheral' : 'neither';
  const unequal = compare(lineVolumeMl, peripheralVolumeMl) !== 0;
  const tooFarApart = minutesApart > 15;
  const comparable = read.sameOrganism && !unequal && !tooFarApart;
  const verdict = comparable ? (earlier >= 120 ? 'yes' : 'no') : 'not-comparable';
  return {
    ...answer(
      own,
      Math.abs(earlier),
      [
        `line ${lineMinutes} min, peripheral ${peripheralMinutes} min: ${Math.abs(earlier)} min, first ${positiveFirst}`,
        `volumes ${toText(lineVolumeMl)} and ${toText(peripheralVolumeMl)} mL, drawn ${minutesApart} min apart, same organism ${read.sameOrganism ? 'yes' : 'no'}`,
        `line at least 120 min earlier: ${verdict}`,
      ],
      raisedWhere(
        [
          verdict === 'yes',
          'Supports an infection of the line: call the clinician before the line is used further.',
        ],
        [
          earlier >= 120 && read.sameOrganism && !comparable,
          'The line’s culture was positive at least 120 min earlier all the same: tell the clinician.',
        ],
        [!read.sameOrganism, 'Not the same organism: the two cultures are no pair.'],
        [unequal, 'Unequal volumes: the fuller bottle may be positive earlier for that alone.'],
        [tooFarApart, 'Drawn more than 15 min apart: the times do not compare.'],
        [
          minutesApart > 10 && !tooFarApart,
          'Drawn 11 to 15 min apart: within the wider of the two published limits only.',
        ],
      ),
    ),
    positiveFirst,
    supportsLineInfection: verdict,
  };
}
