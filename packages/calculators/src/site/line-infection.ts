import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { compare, decimal, toText } from '../lib/decimal.js';
import { type InputOf, flag, optional, quantity, readInput } from '../lib/input.js';

export const lineInfectionCard = () =>
  card({
    name: 'line-infection',
    title: 'Exit-site, tunnel and pocket infection by published definition',
    formula:
      'pocket: infected fluid in the pocket; tunnel: signs more than 2 cm from the exit site along the tract; exit site: signs within 2 cm, or exudate that grows an organism',
    unit: '',
    source: 'IDSA 2009, Table 4 (PMC4039170, seen); KDOQI 2019 has the same split at 2 cm (from memory)',
    cautions: [
      'Signs are erythema, induration or tenderness; one secondary page prints 12 cm for the tunnel, a scanning error.',
      'Few neutrophils, few signs: pain alone may be all that shows.',
      'A definition for counting and for talking; treatment is the clinician’s.',
      deferToClinician,
    ],
    inputs: {
      signsReachCm: optional(
        quantity(
          'cm',
          '0',
          '60',
          'farthest reach of erythema, induration or tenderness from the exit site; left out when none',
        ),
      ),
      exudateGrowsOrganism: flag('exudate at the exit site grew an organism'),
      infectedPocketFluid: flag('infected fluid in the pocket of an implanted port'),
    },
  });

export type LineInfectionInput = InputOf<ReturnType<typeof lineInfectionCard>['inputs']>;

/** Definition met as `value`, and whether microbiology supports an exit-site infection. */
export interface LineInfection extends Result<'none' | 'exit-site' | 'tunnel' | 'pocket'> {
  readonly microbiological: boolean;
}

/**
 * Which definition of a local line infection is met. Exactly 2 cm is within 2 cm.
 *
 * @formula pocket: infected fluid in the pocket; tunnel: signs more than 2 cm from the exit site along the
 *   tract; exit site: signs within 2 cm, or exudate that grows an organism
 * @units `signsReachCm` in cm; result a word
 * @ranges
 * - `signsReachCm` (optional): 0 to 60 cm; farthest reach of erythema, induration or tenderness from the
 *   exit site; left out when none
 * - `exudateGrowsOrganism`: true or false; exudate at the exit site grew an organism
 * - `infectedPocketFluid`: true or false; infected fluid in the pocket of an implanted port
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Signs are erythema, induration or tenderness; one secondary page prints 12 cm for the tunnel, a scanning
 *   error.
 * - Few neutrophils, few signs: pain alone may be all that shows.
 * - A definition for counting and for talking; treatment is the clinician’s.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source IDSA 2009, Table 4 (PMC4039170, seen); KDOQI 2019 has the same split at 2 cm (from memory)
 * @example
 * ```ts
 * lineInfection({ exudateGrowsOrganism: false, infectedPocketFluid: false }).value; // 'none'
 * ```
 */
export function lineInfection(input: LineInfectionInput): LineInfection {
  const own = lineInfectionCard();
  const { signsReachCm: reach, exudateGrowsOrganism, infectedPocketFluid } = readInput(own.inputs, input);
  const alongTunnel = reach !== undefined && compare(reach, decimal('2')) > 0;
  const atExit = reach !== undefined || exudateGrowsOrganism;
  const met = infectedPocketFluid ? 'pocket' : alongTunnel ? 'tunnel' : atExit ? 'exit-site' : 'none';
  return {
    ...answer(
      own,
      met,
      [
        `signs ${reach === undefined ? 'none' : `up to ${toText(reach)} cm from the exit site, limit 2 cm`}`,
        `organism in exudate ${exudateGrowsOrganism ? 'yes' : 'no'}, infected pocket fluid ${infectedPocketFluid ? 'yes' : 'no'}: ${met}`,
      ],
      raisedWhere([
        met !== 'none',
        'Signs of a line infection: call the clinician before the line is used further.',
      ]),
    ),
    microbiological: exudateGrowsOrganism,
  };
}
