import type { Target } from '../model/care.js';
import type { CareEvent } from '../model/record.js';
import { lastFoundOpen } from '../timeline/patency.js';
import type { Timed } from '../timeline/timed.js';
import { eventsOn, type Timeline } from '../timeline/timeline.js';

/**
 * The doses for a blocked lumen that it was given since it was last found open, up to a moment: the two that the US
 * label of alteplase allows are of one blockage.
 */
export function dosesSinceOpen(
  timeline: Timeline,
  target: Target,
  ms = timeline.asOfMs,
): readonly Timed<CareEvent>[] {
  const sinceMs = lastFoundOpen(timeline, target, ms)?.ms ?? -Infinity;
  return eventsOn(timeline, 'occlusion-treatment', target).filter(
    (dose) => dose.ms >= sinceMs && dose.ms <= ms,
  );
}
