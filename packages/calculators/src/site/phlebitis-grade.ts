import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, toText } from '../lib/decimal.js';
import { type InputOf, flag, optional, quantity, readInput } from '../lib/input.js';

export const phlebitisGradeCard = () =>
  card({
    name: 'phlebitis-grade',
    title: 'Phlebitis scale (INS 2011 wording)',
    formula:
      '0 none; 1 erythema with or without pain; 2 pain with erythema and/or oedema; 3 also streak and palpable cord; 4 also cord over 1 inch, purulence',
    unit: 'grade',
    source: 'INS phlebitis scale, 2011 wording (infusionnurse.org 2011-02-21, seen)',
    cautions: [
      'Rows 1 and 2 both hold for erythema with pain; the higher one is given.',
      'Signs that fit no row take the highest row that one of them belongs to.',
      deferToClinician,
    ],
    inputs: {
      pain: flag('pain at the access site'),
      erythema: flag('redness'),
      oedema: flag('swelling'),
      streak: flag('red streak along the vein'),
      cordLengthCm: optional(
        quantity('cm', '0.1', '60', 'length of the palpable venous cord; left out when none'),
      ),
      purulence: flag('purulent drainage'),
    },
  });

export type PhlebitisGradeInput = InputOf<ReturnType<typeof phlebitisGradeCard>['inputs']>;

/**
 * Grade 0 to 4 of phlebitis. Exactly 1 inch (2.54 cm) of cord is grade 3.
 *
 * @formula 0 none; 1 erythema with or without pain; 2 pain with erythema and/or oedema; 3 also streak and
 *   palpable cord; 4 also cord over 1 inch, purulence
 * @units `cordLengthCm` in cm; result in grade
 * @ranges
 * - `pain`: true or false; pain at the access site
 * - `erythema`: true or false; redness
 * - `oedema`: true or false; swelling
 * - `streak`: true or false; red streak along the vein
 * - `cordLengthCm` (optional): 0.1 to 60 cm; length of the palpable venous cord; left out when none
 * - `purulence`: true or false; purulent drainage
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Rows 1 and 2 both hold for erythema with pain; the higher one is given.
 * - Signs that fit no row take the highest row that one of them belongs to.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source INS phlebitis scale, 2011 wording (infusionnurse.org 2011-02-21, seen)
 * @example
 * ```ts
 * phlebitisGrade({ pain: true, erythema: false, oedema: false, streak: false, purulence: false }).value; // 1
 * ```
 */
export function phlebitisGrade(input: PhlebitisGradeInput): Result<number> {
  const own = phlebitisGradeCard();
  const { pain, erythema, oedema, streak, cordLengthCm, purulence } = readInput(own.inputs, input);
  const cord = cordLengthCm !== undefined;
  const longCord = cord && compare(cordLengthCm, decimal('2.54')) > 0;
  const second = pain && (erythema || oedema);
  const grade =
    longCord || purulence ? 4 : cord || streak ? 3 : second ? 2 : pain || erythema || oedema ? 1 : 0;
  const whole = second && (grade < 3 || (cord && streak)) && (grade < 4 || (longCord && purulence));
  const fits = grade === 0 || (grade === 1 && erythema && !oedema) || whole;
  const signs = [
    pain && 'pain',
    erythema && 'erythema',
    oedema && 'oedema',
    streak && 'streak',
    cord && `cord of ${toText(cordLengthCm)} cm`,
    purulence && 'purulence',
  ].filter((sign) => sign !== false);
  return answer(
    own,
    grade,
    [`${signs.length === 0 ? 'no sign' : signs.join(', ')}: grade ${grade}`],
    raisedWhere(
      [!fits, 'These signs fit no row as printed; the protective grade is given.'],
      [grade >= 2, 'Phlebitis: follow local policy for the removal of the catheter.'],
    ),
  );
}
