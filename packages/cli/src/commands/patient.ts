import type { Records, Ref } from '@dwellward/core';
import { meant } from '../args.js';
import { CliError } from '../errors.js';

/** The patient that `--patient ID` or `--patient Patient/ID` names. Throws a CliError where nobody's line is theirs. */
export function patientOf(given: string | undefined, { lines }: Records): Ref {
  if (!given)
    throw new CliError('usage', '--patient is missing: the patient’s id, such as Patient/12 or 12.');
  const refs = [...new Set(lines.map(({ patient }) => patient.ref))].sort();
  const found = refs.find((ref) => ref === given || ref === `Patient/${given}`);
  if (!found)
    throw new CliError(
      'usage',
      `--patient ${given}: nobody of that id has a line in the input. ${meant(given, refs, 'Patients:')}`,
    );
  return found;
}
