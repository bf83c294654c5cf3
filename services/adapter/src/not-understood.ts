import { english, notUnderstoodSaid, speaker, Calendar } from '@dwellward/core';
import type { Logger } from 'pino';
import type { Computed } from './due-care.js';

/** As many kinds as a log row holds; the patient’s DetectedIssues have all of them. */
const mostKinds = 10;

/**
 * Tells the log what was given of a patient’s lines and not understood: once, and again when it changes. Codes and
 * references of the server stand in it, names of patients do not.
 */
export function tellNotUnderstood(log: Logger): (patient: string, computed: Computed) => void {
  const told = new Map<string, string>();
  const say = speaker(english, new Calendar('UTC'));
  return (patient, { records: { notUnderstood }, chartedOnly }) => {
    const said = notUnderstoodSaid(notUnderstood, mostKinds);
    const kinds = (said?.kinds ?? []).map(say);
    const key = [...kinds, ...chartedOnly].join('\n');
    if ((told.get(patient) ?? '') === key) return;
    told.set(patient, key);
    if (said) log.warn({ patient, notUnderstood: kinds }, say(said.head));
    if (chartedOnly.length > 0)
      log.warn(
        { patient, lines: chartedOnly },
        'Lines that only a nursing chart tells of: no Device is on the server, so no Tasks are written for them.',
      );
  };
}
