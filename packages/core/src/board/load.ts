import type { LineCareActivity } from '@dwellward/profiles';
import type { Calendar } from '../timeline/calendar.js';
import { isEmergency, type Group } from '../table/rows.js';
import type { LoadHour } from './model.js';

const hourMs = 3_600_000;

/**
 * What falls due in each of the next 24 hours, so that a shift sees its peaks. What is late already stands in the first;
 * what waits for the end of a hold stands where that ends, and nowhere while nobody knows when. The hours are the
 * clock’s, so the first of them has begun already.
 * @param minutes what the unit takes each activity to need; there is no published value, so none is assumed.
 */
export function loadOf(
  groups: readonly Group[],
  calendar: Calendar,
  nowMs: number,
  minutes: Readonly<Partial<Record<LineCareActivity, number>>>,
): LoadHour[] {
  const offsetMs = clockOffsetMs(calendar.text(nowMs));
  const startMs = Math.floor((nowMs + offsetMs) / hourMs) * hourMs - offsetMs;
  const hours = Array.from({ length: 24 }, (_, hour) => {
    const from = calendar.text(startMs + hour * hourMs);
    return { from, clock: from.slice(11, 13), items: 0, emergencies: 0, minutes: 0, withoutMinutes: 0 };
  });
  for (const group of groups) {
    const [{ item, dueMs }] = group;
    const waits = item.state === 'held' && item.heldBy?.until === undefined;
    const hour = hours[Math.max(0, Math.floor((dueMs - startMs) / hourMs))];
    if (waits || hour === undefined) continue;
    hour.items += 1;
    hour.emergencies += isEmergency(item) ? 1 : 0;
    for (const { item: one } of group) {
      const needed = minutes[one.activity];
      if (needed === undefined) hour.withoutMinutes += 1;
      else hour.minutes += needed;
    }
  }
  return hours;
}

/** By how much the clock of the unit is ahead of UTC, from the text of an instant with its offset. */
function clockOffsetMs(instant: string): number {
  const [, sign, hours, minutes] = /([+-])(\d{2}):(\d{2})$/.exec(instant) ?? [];
  const ms = (Number(hours ?? 0) * 60 + Number(minutes ?? 0)) * 60_000;
  return sign === '-' ? -ms : ms;
}
