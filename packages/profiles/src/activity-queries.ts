import type { ActivityRow } from './activity-row.js';
import { activities, type LineCareActivity } from './activities.js';
import type { Concept } from './codes.js';

const rows: Readonly<Record<LineCareActivity, ActivityRow>> = activities;

/** Every activity, in the order of the table. */
export const activityCodes = Object.keys(activities) as readonly LineCareActivity[];

/** The activities as concepts of their code system. */
export const lineCareActivities: readonly Concept<LineCareActivity>[] = activityCodes.map((code) => [
  code,
  rows[code].display,
  rows[code].definition,
]);

/**
 * What the table says of an activity.
 * @example
 * ```ts
 * activityRow('flush').throughLumen; // true
 * ```
 */
export function activityRow(activity: LineCareActivity): ActivityRow {
  return rows[activity];
}

/**
 * The activities of which the table says so, in its order.
 * @example
 * ```ts
 * activitiesWhere(({ throughLumen }) => throughLumen).includes('flush'); // true
 * ```
 */
export function activitiesWhere(says: (row: ActivityRow) => unknown): readonly LineCareActivity[] {
  return activityCodes.filter((code) => Boolean(says(rows[code])));
}

/**
 * The activity with which a line begins or ends.
 * @example
 * ```ts
 * activityOfRole('begins-line'); // 'insertion'
 * ```
 */
export function activityOfRole(role: NonNullable<ActivityRow['role']>): LineCareActivity {
  const [activity] = activitiesWhere((row) => row.role === role);
  if (activity === undefined) throw new RangeError(`No activity has the role ${role}.`);
  return activity;
}
