import { Temporal } from 'temporal-polyfill';
import type { Calendar } from '../../timeline/calendar.js';

const days = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

function zoned(ms: number, { zone }: Calendar): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(zone);
}

/** `Wed 25 Nov`. */
export function weekdayText(ms: number, calendar: Calendar): string {
  const at = zoned(ms, calendar);
  return `${days[at.dayOfWeek - 1]} ${at.day} ${months[at.month - 1]}`;
}

/** The time on the clock: `07:30`. */
export function timeOfDay(ms: number, calendar: Calendar): string {
  return zoned(ms, calendar).toPlainTime().toString({ smallestUnit: 'minute' });
}

/** `Wed 25 Nov 07:30`. */
export function clockText(ms: number, calendar: Calendar): string {
  return `${weekdayText(ms, calendar)} ${timeOfDay(ms, calendar)}`;
}

/** A day with its year: `25 Nov 2026`. */
export function dayText(ms: number, calendar: Calendar): string {
  const at = zoned(ms, calendar);
  return `${at.day} ${months[at.month - 1]} ${at.year}`;
}

/** `3 h`, `2 d`: one unit, rounded down, so that nothing sounds longer than it is. */
export function lengthOfTime(ms: number): string {
  const minutes = Math.floor(Math.abs(ms) / 60_000);
  if (minutes < 60) return `${minutes} min`;
  return minutes < 48 * 60 ? `${Math.floor(minutes / 60)} h` : `${Math.floor(minutes / 1440)} d`;
}

/** `in 3 h`, `2 d ago`, `now`. */
export function relativeText(ms: number): string {
  if (Math.abs(ms) < 60_000) return 'now';
  return ms < 0 ? `${lengthOfTime(ms)} ago` : `in ${lengthOfTime(ms)}`;
}
