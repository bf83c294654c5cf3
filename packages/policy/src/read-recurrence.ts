import type { Recurrence } from './timing.js';
import { readTiming } from './timing.js';
import type { WholeAction } from './read-group.js';

/** Intervals or fixed times, as `timingTiming` gives them; undefined where it can’t be kept, which is said. */
export function readRecurrence(
  whole: WholeAction,
): { readonly begins: Recurrence; readonly notes: readonly string[] } | undefined {
  const at = whole.placeOf('timingTiming').at('timingTiming');
  const reading = readTiming(whole.action['timingTiming']);
  if (!reading.ok) {
    for (const { path, message, cure } of reading.problems) {
      at.error(
        path,
        'bad-timing',
        message,
        cure ?? 'Give an interval as frequency, period and periodUnit, or timeOfDay with dayOfWeek.',
      );
    }
    return undefined;
  }
  for (const note of reading.notes)
    at.information('', 'shorter-reading', note, 'Give one exact value where another reading is wanted.');
  return { begins: reading.begins, notes: reading.notes };
}
