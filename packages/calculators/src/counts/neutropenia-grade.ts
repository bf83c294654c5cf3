import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, toText } from '../lib/decimal.js';
import { neutrophilCautions } from '../lib/laboratory.js';
import { type InputOf, optional, quantity, readInput } from '../lib/input.js';

export const neutropeniaGradeCard = () =>
  card({
    name: 'neutropenia-grade',
    title: 'Grade of a low neutrophil count',
    formula:
      '4 below 500, 3 from 500, 2 from 1000, 1 from 1500 /uL to below the lower limit of normal, else 0',
    unit: 'grade',
    source: 'CTCAE v5.0, neutrophil count decreased (from memory; grade 2 also seen on a secondary page)',
    cautions: [
      'Exactly 1500, 1000 and 500 belong to the milder grade; some pages print the limits otherwise.',
      'Fever with a low count is an emergency at any grade.',
      deferToClinician,
    ],
    inputs: {
      neutrophilsPerUl: quantity(
        '/uL',
        '0',
        '100000',
        'absolute neutrophil count; a higher one is a slip of the unit, or needs its leucocytes beside it',
      ),
      lowerLimitOfNormalPerUl: optional(
        quantity('/uL', '500', '10000', 'of the laboratory; it divides grade 1 from none'),
      ),
    },
  });

export type NeutropeniaGradeInput = InputOf<ReturnType<typeof neutropeniaGradeCard>['inputs']>;

/**
 * Grade 0 to 4 of a neutrophil count.
 *
 * From 1500 /uL on the laboratory's lower limit decides; where it is not given, the protective reading is grade 1
 * and the result says so.
 *
 * @formula 4 below 500, 3 from 500, 2 from 1000, 1 from 1500 /uL to below the lower limit of normal, else 0
 * @units `neutrophilsPerUl` in /uL; `lowerLimitOfNormalPerUl` in /uL; result in grade
 * @ranges
 * - `neutrophilsPerUl`: 0 to 100000 /uL; absolute neutrophil count; a higher one is a slip of the unit, or
 *   needs its leucocytes beside it
 * - `lowerLimitOfNormalPerUl` (optional): 500 to 10000 /uL; of the laboratory; it divides grade 1 from none
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Exactly 1500, 1000 and 500 belong to the milder grade; some pages print the limits otherwise.
 * - Fever with a low count is an emergency at any grade.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source CTCAE v5.0, neutrophil count decreased (from memory; grade 2 also seen on a secondary page)
 * @example
 * ```ts
 * neutropeniaGrade({ neutrophilsPerUl: 5000 }).value; // 1
 * ```
 */
export function neutropeniaGrade(input: NeutropeniaGradeInput): Result<number> {
  const own = neutropeniaGradeCard();
  const { neutrophilsPerUl: count, lowerLimitOfNormalPerUl: limit } = readInput(own.inputs, input);
  const below = (bound: string): boolean => compare(count, decimal(bound)) < 0;
  const undecided = limit === undefined && !below('1500');
  const grade = below('500')
    ? 4
    : below('1000')
      ? 3
      : below('1500')
        ? 2
        : limit && compare(count, limit) >= 0
          ? 0
          : 1;
  return answer(
    own,
    grade,
    [`${toText(count)} /uL${limit ? `, lower limit of normal ${toText(limit)} /uL` : ''}: grade ${grade}`],
    [
      ...neutrophilCautions(count),
      ...raisedWhere(
        [
          undecided,
          'The lower limit of normal was not given: grade 1 is the protective reading, it may be 0.',
        ],
        [grade === 4, 'Below 500 /uL: high risk of infection; watch exit site and temperature closely.'],
      ),
    ],
  );
}
