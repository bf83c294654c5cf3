import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { type InputOf, choice, readInput } from '../lib/input.js';

export const occlusionDegreeCard = () =>
  card({
    name: 'occlusion-degree',
    title: 'Degree of an occlusion from flushing and blood return',
    formula:
      'none: both free; partial: either sluggish; withdrawal: flushes but no return; complete: does not flush',
    unit: '',
    source: 'INS and CVAA 2013 wording of partial, withdrawal and complete occlusion (from memory)',
    cautions: [
      'Look for a mechanical cause first: closed clamp, kink, suture, dressing, position, needle out of place.',
      'Never force a flush against resistance.',
      deferToClinician,
    ],
    inputs: {
      flushes: choice(['freely', 'sluggishly', 'not-at-all'], 'how saline goes in'),
      bloodReturn: choice(['brisk', 'sluggish', 'none'], 'how blood comes back'),
    },
  });

export type OcclusionDegreeInput = InputOf<ReturnType<typeof occlusionDegreeCard>['inputs']>;

/**
 * The degree of an occlusion. A lumen that does not flush counts as complete even where blood returns.
 *
 * @formula none: both free; partial: either sluggish; withdrawal: flushes but no return; complete: does not
 *   flush
 * @units result a word
 * @ranges
 * - `flushes`: one of freely, sluggishly, not-at-all; how saline goes in
 * - `bloodReturn`: one of brisk, sluggish, none; how blood comes back
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Look for a mechanical cause first: closed clamp, kink, suture, dressing, position, needle out of place.
 * - Never force a flush against resistance.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source INS and CVAA 2013 wording of partial, withdrawal and complete occlusion (from memory)
 * @example
 * ```ts
 * occlusionDegree({ flushes: 'freely', bloodReturn: 'brisk' }).value; // 'none'
 * ```
 */
export function occlusionDegree(
  input: OcclusionDegreeInput,
): Result<'none' | 'partial' | 'withdrawal' | 'complete'> {
  const own = occlusionDegreeCard();
  const { flushes, bloodReturn } = readInput(own.inputs, input);
  const free = flushes === 'freely' && bloodReturn === 'brisk';
  const degree =
    flushes === 'not-at-all' ? 'complete' : bloodReturn === 'none' ? 'withdrawal' : free ? 'none' : 'partial';
  return answer(
    own,
    degree,
    [`flushes ${flushes}, blood return ${bloodReturn}: ${degree}`],
    raisedWhere([
      flushes === 'not-at-all' && bloodReturn !== 'none',
      'Blood returns although it does not flush: unusual, look at clamp, connector and tip.',
    ]),
  );
}
