import { findingsWhere } from '@dwellward/profiles';
import type { Moment } from './moment.js';
import type { Timed } from '../timeline/timed.js';
import { eventsOn, findingsOn, isOn, type Timeline } from '../timeline/timeline.js';
import type { Target } from '../model/care.js';
import type { CareEvent, Finding } from '../model/record.js';

/**
 * The doses for a blocked lumen that it was given since it was last found open, up to a moment: the two that the US
 * label of alteplase allows are of one blockage.
 *
 * Brisk blood return shows it open. A flush that meets no resistance does so only where blood return was not found
 * missing or sluggish: that it works is, by the label, that blood can be drawn.
 */
export function dosesSinceOpen(
  timeline: Timeline,
  target: Target,
  ms = timeline.asOfMs,
): readonly Timed<CareEvent>[] {
  const openMs = timeline.findings
    .filter((found) => found.ms <= ms && isOn(timeline, found.fact, target))
    .filter((found) => showsOpen(found, timeline, target))
    .map((found) => found.ms);
  const since = Math.max(-Infinity, ...openMs);
  return eventsOn(timeline, 'occlusion-treatment', target).filter(
    (dose) => dose.ms >= since && dose.ms <= ms,
  );
}

function showsOpen({ fact, ms }: Timed<Finding>, timeline: Timeline, target: Target): boolean {
  if (fact.finding === 'blood-return') return fact.values.includes('brisk');
  if (fact.finding !== 'flush-resistance' || !fact.values.includes('none')) return false;
  const last = findingsOn(timeline, 'blood-return', target)
    .filter((found) => found.ms <= ms)
    .at(-1);
  return last === undefined || last.fact.values.includes('brisk');
}

/**
 * The last look whether a lumen works since its last dose, and how many whole minutes after the dose it was; undefined
 * where there was no dose, or nobody looked since. A dose of which only the day is known counts from its end.
 */
export function lookAfterDose({
  timeline,
  target,
  ms,
}: Pick<Moment, 'timeline' | 'target' | 'ms'>):
  { readonly minutes: number; readonly ms: number; readonly refs: readonly string[] } | undefined {
  const dose = dosesSinceOpen(timeline, target, ms).at(-1);
  if (!dose) return undefined;
  const look = [
    ...eventsOn(timeline, 'patency-assessment', target),
    ...findingsWhere(({ tellsPatency }) => tellsPatency).flatMap((one) => findingsOn(timeline, one, target)),
  ]
    .filter((one) => one.ms >= dose.latestMs && one.ms <= ms)
    .sort((a, b) => a.ms - b.ms)
    .at(-1);
  return (
    look && {
      minutes: Math.floor((look.ms - dose.latestMs) / 60_000),
      ms: look.ms,
      refs: [dose.fact.ref, look.fact.ref],
    }
  );
}
