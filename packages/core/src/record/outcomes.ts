import { activityRow, standard, type LineCareActivity } from '@dwellward/profiles';
import { codesOf } from './codes.js';
import { asCodeable } from './shapes.js';

// SNOMED CT, as R4’s value set procedure-outcome has it.
const successful = '385669000';
const partlySuccessful = '385670004';
const unsuccessful = '385671000';

/**
 * Whether an event counts by its `Procedure.outcome` (SNOMED CT). One that was not successful does not. A
 * tip that was found only partly right, or with an outcome that can’t be read, is not confirmed: the protective reading.
 * No outcome counts, and so does one that can’t be read on anything else than a tip confirmation.
 */
export function outcomeOf(
  activity: LineCareActivity,
  outcome: unknown,
): 'counts' | 'not-successful' | 'not-readable' {
  if (outcome === undefined || activityRow(activity).countsUnsuccessful) return 'counts';
  const concept = asCodeable(outcome);
  const codes = codesOf(standard.snomed, concept);
  if (codes.includes(unsuccessful)) return 'not-successful';
  if (activity !== 'tip-confirmation') return 'counts';
  if (codes.includes(partlySuccessful)) return 'not-successful';
  if (codes.includes(successful)) return 'counts';
  const empty = concept !== undefined && !concept.text?.trim() && (concept.coding ?? []).length === 0;
  return empty ? 'counts' : 'not-readable';
}
