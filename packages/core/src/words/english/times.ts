import { Temporal } from 'temporal-polyfill';
import type { RecordedTime } from '../../model/basics.js';
import type { Calendar } from '../../timeline/calendar.js';

const days = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

function zoned(ms: number, { zone }: Calendar): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(zone);
}

// Clocks are put back in the small hours: a time after them never comes twice.
const lastHourThatComesTwice = 3;

/** The offset, where the clock shows the same time twice that night; of the zone UTC, its name; else nothing. */
function whichText(at: Temporal.ZonedDateTime): string {
  if (at.timeZoneId === 'UTC') return ' UTC';
  if (at.hour > lastHourThatComesTwice) return '';
  const wall = at.toPlainDateTime();
  const first = wall.toZonedDateTime(at.timeZoneId, { disambiguation: 'earlier' });
  const second = wall.toZonedDateTime(at.timeZoneId, { disambiguation: 'later' });
  return first.offset === second.offset ? '' : ` (UTC${at.offset})`;
}

/** `Wed 25 Nov`. */
export function weekdayText(ms: number, calendar: Calendar): string {
  const at = zoned(ms, calendar);
  return `${days[at.dayOfWeek - 1]} ${at.day} ${months[at.month - 1]}`;
}

/** The time on the clock: `07:30`. */
export function timeOfDay(ms: number, calendar: Calendar): string {
  return clockOf(zoned(ms, calendar));
}

function clockOf(at: Temporal.ZonedDateTime): string {
  return at.toPlainTime().toString({ smallestUnit: 'minute' });
}

/** `Wed 25 Nov 07:30`. */
export function clockText(ms: number, calendar: Calendar): string {
  const at = zoned(ms, calendar);
  return `${days[at.dayOfWeek - 1]} ${at.day} ${months[at.month - 1]} ${clockOf(at)}${at.timeZoneId === 'UTC' ? '' : whichText(at)}`;
}

/** `Wed 25 Nov 2026 07:30`; which of two where the clock shows the time twice that night. */
export function momentText(ms: number, calendar: Calendar): string {
  const at = zoned(ms, calendar);
  return `${days[at.dayOfWeek - 1]} ${at.day} ${months[at.month - 1]} ${at.year} ${clockOf(at)}${whichText(at)}`;
}

/** A day with its year: `25 Nov 2026`. */
export function dayText(ms: number, calendar: Calendar): string {
  const at = zoned(ms, calendar);
  return `${at.day} ${months[at.month - 1]} ${at.year}`;
}

/** A time as exact as it was recorded: `Wed 25 Nov 2026 07:30`, `25 Nov 2026`, `Nov 2026`, `2026`. */
export function recordedText(time: RecordedTime, calendar: Calendar): string {
  const { text, precision } = time;
  const [year = text, month = '', day = ''] = text.split('-');
  switch (precision) {
    case 'instant':
      return momentText(calendar.earliest(time), calendar);
    case 'day':
      return `${Number(day)} ${months[Number(month) - 1] ?? month} ${year}`;
    case 'month':
      return `${months[Number(month) - 1] ?? month} ${year}`;
    case 'year':
      return year;
  }
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
