import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, toText } from '../lib/decimal.js';
import { type InputOf, choice, flag, optional, quantity, readInput } from '../lib/input.js';

export const infiltrationGradeCard = () =>
  card({
    name: 'infiltration-grade',
    title: 'Infiltration scale',
    formula:
      '0 none; 1 blanched, cool, oedema below 1 inch; 2 oedema 1 to 6 inches; 3 over 6 inches, translucent, numb; 4 tight, leaking, bruised, deep pitting, circulation impaired, or any amount of blood, irritant or vesicant',
    unit: 'grade',
    source: 'INS infiltration scale (from memory)',
    cautions: [
      'Stop the infusion first; with a vesicant follow the drug’s own extravasation instructions at once.',
      'Signs that fit no row take the highest row that one of them belongs to.',
      deferToClinician,
    ],
    inputs: {
      oedemaCm: optional(quantity('cm', '0.1', '100', 'extent of the swelling; left out when none')),
      blanched: flag('skin blanched'),
      cool: flag('skin cool to touch'),
      pain: choice(['none', 'mild', 'moderate', 'severe'], 'pain'),
      translucent: flag('skin translucent'),
      numbness: flag('numbness'),
      tightOrLeaking: flag('skin tight or leaking'),
      bruised: flag('skin discoloured, bruised or swollen'),
      deepPitting: flag('deep pitting oedema'),
      circulationImpaired: flag('circulatory impairment'),
      infusate: choice(['other', 'blood', 'irritant', 'vesicant'], 'what was infusing'),
    },
  });

export type InfiltrationGradeInput = InputOf<ReturnType<typeof infiltrationGradeCard>['inputs']>;

/**
 * Grade 0 to 4 of an infiltration. Any sign at all with blood, an irritant or a vesicant is grade 4. Exactly 1 and
 * 6 inches (2.54 and 15.24 cm) are grade 2; severe pain counts as 4 and moderate pain as 3.
 *
 * @formula 0 none; 1 blanched, cool, oedema below 1 inch; 2 oedema 1 to 6 inches; 3 over 6 inches,
 *   translucent, numb; 4 tight, leaking, bruised, deep pitting, circulation impaired, or any amount of
 *   blood, irritant or vesicant
 * @units `oedemaCm` in cm; result in grade
 * @ranges
 * - `oedemaCm` (optional): 0.1 to 100 cm; extent of the swelling; left out when none
 * - `blanched`: true or false; skin blanched
 * - `cool`: true or false; skin cool to touch
 * - `pain`: one of none, mild, moderate, severe; pain
 * - `translucent`: true or false; skin translucent
 * - `numbness`: true or false; numbness
 * - `tightOrLeaking`: true or false; skin tight or leaking
 * - `bruised`: true or false; skin discoloured, bruised or swollen
 * - `deepPitting`: true or false; deep pitting oedema
 * - `circulationImpaired`: true or false; circulatory impairment
 * - `infusate`: one of other, blood, irritant, vesicant; what was infusing
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Stop the infusion first; with a vesicant follow the drug’s own extravasation instructions at once.
 * - Signs that fit no row take the highest row that one of them belongs to.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source INS infiltration scale (from memory)
 * @example
 * ```ts
 * infiltrationGrade({
 *   blanched: false,
 *   cool: false,
 *   pain: 'none',
 *   translucent: false,
 *   numbness: false,
 *   tightOrLeaking: false,
 *   bruised: false,
 *   deepPitting: false,
 *   circulationImpaired: false,
 *   infusate: 'other',
 *   oedemaCm: '2.53',
 * }).value; // 1
 * ```
 */
export function infiltrationGrade(input: InfiltrationGradeInput): Result<number> {
  const own = infiltrationGradeCard();
  const read = readInput(own.inputs, input);
  const { oedemaCm: oedema, pain, infusate } = read;
  const wider = (inches: string): boolean => oedema !== undefined && compare(oedema, decimal(inches)) > 0;
  const fourth =
    read.tightOrLeaking || read.bruised || read.deepPitting || read.circulationImpaired || pain === 'severe';
  const third = wider('15.24') || read.translucent || read.numbness || pain === 'moderate';
  const second = oedema !== undefined && compare(oedema, decimal('2.54')) >= 0;
  const first = oedema !== undefined || read.blanched || read.cool || pain === 'mild';
  const bySigns = fourth ? 4 : third ? 3 : second ? 2 : first ? 1 : 0;
  const dangerous = bySigns > 0 && infusate !== 'other';
  const grade = dangerous ? 4 : bySigns;
  return answer(
    own,
    grade,
    [
      `swelling ${oedema === undefined ? 'none' : `${toText(oedema)} cm`}, pain ${pain}: grade ${bySigns} by the signs`,
      `infusate ${infusate}: grade ${grade}`,
    ],
    raisedWhere(
      [dangerous, `Any amount of ${infusate} outside the vein is grade 4.`],
      [grade > 0, 'Stop the infusion and call for help by local policy.'],
    ),
  );
}
