import { activityRow } from '@dwellward/profiles';
import type { CareEvent } from '../model/record.js';

/** Whether an event put a dressing on the exit site; some acts do so only where they say which. */
export function putsDressingOn({ activity, site, dressing }: CareEvent): boolean {
  const { putsDressingOn: when } = activityRow(activity);
  if (when === 'always') return site === 'exit-site';
  return when === 'where-said' && dressing !== undefined;
}
