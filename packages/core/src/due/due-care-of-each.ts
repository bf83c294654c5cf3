import type { Policy } from '@dwellward/policy';
import type { AsOf, LineCare } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { dueCare } from './due-care.js';

/**
 * Due care of each line, in their order. What no line of any record should bring about, an error of ours, stays with
 * that line: it has `notComputed`, no item, a warning on top and an issue of high severity, and the others are computed.
 *
 * Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone; nothing else throws.
 * @example
 * ```ts
 * dueCareOfEach(records.lines, policy, when).length === records.lines.length; // true
 * ```
 */
export function dueCareOfEach(lines: readonly LineRecord[], policy: Policy, when: AsOf): LineCare[] {
  // These are the caller’s, and no line’s.
  instantMs(when.asOf);
  new Calendar(when.zone);
  return lines.map((line) => {
    try {
      return dueCare(line, policy, when);
    } catch (error) {
      return notComputed(line, error instanceof Error ? error.message : String(error));
    }
  });
}

/** Nothing is known of what the line needs: said on top of it, and never read as nothing being due. */
function notComputed({ ref, patient }: LineRecord, text: string): LineCare {
  const sentence = { code: 'care-not-computed', reason: { code: 'outside-text', text } } as const;
  return {
    line: ref,
    patient: patient.ref,
    inPlace: true,
    notComputed: true,
    ...{ items: [], met: [], holds: [], lumens: [], unanswered: [] },
    warnings: [sentence],
    issues: [
      {
        ...{ code: 'unreadable', severity: 'high', resource: ref, path: 'Device' },
        ...{ sentence, patient: patient.ref, line: ref, related: [] },
      },
    ],
  };
}
