import { isEmergency, type Group } from '../table/rows.js';
import type { Calendar } from '../timeline/calendar.js';
import type { Say } from '../words/say.js';
import type { BoardShift } from './model.js';

const hourMs = 3_600_000;
/** Hours of the day at which a shift begins where the unit says nothing else. Common practice, no source. */
export const usualShifts: readonly number[] = [7, 19];
/** As far as the lanes reach: what was late since the shift before, and the shifts of a day. */
const [beforeMs, afterMs] = [8 * hourMs, 24 * hourMs];

/**
 * The shifts from eight hours ago to a day ahead, with what falls due in each; what is late stands in the one that runs,
 * and what waits for the end of a hold that nobody knows in none.
 * @param hours of the day, by the clock of the unit, at which shifts begin.
 */
export function shiftsOf(
  groups: readonly Group[],
  calendar: Calendar,
  nowMs: number,
  hours: readonly number[],
  say: Say,
): BoardShift[] {
  const slots = hours.map((hour) => `${String(hour).padStart(2, '0')}:00`);
  const begins = new Set<number>();
  // By the hour: a clock that changes moves a shift by one at most.
  for (let ms = nowMs - beforeMs; ms <= nowMs + afterMs + 24 * hourMs; ms += hourMs)
    begins.add(calendar.lastSlot(ms, slots));
  const ordered = [...begins].sort((a, b) => a - b);
  return ordered.flatMap((fromMs, at) => {
    const untilMs = ordered[at + 1];
    if (untilMs === undefined || fromMs > nowMs + afterMs) return [];
    const runs = fromMs <= nowMs && nowMs < untilMs;
    const own = groups.filter(([{ item, dueMs }]) => {
      if (item.state === 'held' && item.heldBy?.until === undefined) return false;
      return runs ? dueMs < untilMs : fromMs > nowMs && fromMs <= dueMs && dueMs < untilMs;
    });
    const emergencies = own.filter(([{ item }]) => isEmergency(item)).length;
    return [
      {
        from: calendar.text(fromMs),
        until: calendar.text(untilMs),
        runs,
        items: own.length,
        emergencies,
        text: say({ code: 'shift-band', runs, from: fromMs, until: untilMs, items: own.length }),
      },
    ];
  });
}
