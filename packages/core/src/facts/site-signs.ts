import { findingsWhere } from '@dwellward/profiles';
import { nothing, type Known, type Moment } from './moment.js';
import { findingsOn, shows } from '../timeline/timeline.js';

/** What a new site does while it settles, and an older one where it is infected. */
const settling: readonly string[] = findingsWhere(({ whileNew }) => whileNew);

/**
 * How old the site was when it was last found to drain or swell: whole calendar days since the insertion. By the day on
 * which it was seen, so that what a new site did is not read anew as a sign of infection when the days have passed.
 */
export function signDwellDays({ timeline, target, ms }: Moment): Known<number> {
  const { insertion, calendar } = timeline;
  const last = findingsOn(timeline, 'exit-site', target)
    .filter((found) => found.ms <= ms && shows(found.fact, settling))
    .at(-1);
  if (!insertion || !last || last.latestMs < insertion.ms) return nothing;
  return {
    value: Math.max(0, calendar.daysBetween(insertion.ms, last.ms)),
    refs: [insertion.fact.ref, last.fact.ref],
    sinceMs: last.ms,
  };
}
