// Days and times by plain arithmetic of the Gregorian calendar, as ISO 8601 takes it: no clock, no zone. The time library
// gives the same a hundred times slower, and a record asks for thousands.

export const minuteMs = 60_000;
export const hourMs = 60 * minuteMs;
export const dayMs = 24 * hourMs;

/** A day of the calendar. */
export interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

export function isLeap(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

export function daysInMonth(year: number, month: number): number {
  return month === 2 && isLeap(year) ? 29 : (monthDays[month - 1] ?? 0);
}

// Years are counted from March, so that a leap day is the last of its year; 400 of them have 146,097 days, and from
// 1 March 0000 to 1 January 1970 there are 719,468.
const daysIn400Years = 146_097;
const daysTo1970 = 719_468;

/** How many days a day is after 1 January 1970. */
export function dayNumber({ year, month, day }: Day): number {
  const from = month > 2 ? year : year - 1;
  const era = Math.floor(from / 400);
  const ofEra = from - era * 400;
  const ofYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const days = ofEra * 365 + Math.floor(ofEra / 4) - Math.floor(ofEra / 100) + ofYear;
  return era * daysIn400Years + days - daysTo1970;
}

/** The day that is so many after 1 January 1970. */
export function dayOfNumber(number: number): Day {
  const days = number + daysTo1970;
  const era = Math.floor(days / daysIn400Years);
  const ofEra = days - era * daysIn400Years;
  const years = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const ofYear = ofEra - (365 * years + Math.floor(years / 4) - Math.floor(years / 100));
  const fromMarch = Math.floor((5 * ofYear + 2) / 153);
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  return {
    year: era * 400 + years + (month <= 2 ? 1 : 0),
    month,
    day: ofYear - Math.floor((153 * fromMarch + 2) / 5) + 1,
  };
}

const plainInstant =
  /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)(?::([0-5]\d)(?:\.(\d{1,9}))?)?(?:Z|([+-])(\d\d):(\d\d))$/;

/**
 * Milliseconds since 1970 of an instant that is written as FHIR writes it, digits below them cut off; undefined of any
 * other text, of which the time library has to say what it is.
 */
export function plainInstantMs(text: string): number | undefined {
  const parts = plainInstant.exec(text);
  if (parts === null) return undefined;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const [hour, minute, second] = [Number(parts[4]), Number(parts[5]), Number(parts[6] ?? 0)];
  const [fraction, sign, hours, minutes] = [parts[7], parts[8], parts[9], parts[10]];
  if (day < 1 || day > daysInMonth(year, month) || hour > 23 || minute > 59) return undefined;
  const offset = sign === undefined ? 0 : Number(hours) * hourMs + Number(minutes) * minuteMs;
  if (Number(hours ?? 0) > 23 || Number(minutes ?? 0) > 59) return undefined;
  return (
    dayNumber({ year, month, day }) * dayMs +
    hour * hourMs +
    minute * minuteMs +
    second * 1000 +
    (fraction === undefined ? 0 : Number(fraction.slice(0, 3).padEnd(3, '0'))) -
    (sign === '-' ? -offset : offset)
  );
}

const plainDay = /^\d{4}-\d\d-\d\d$/;

/** A day that is written as FHIR writes it; undefined of any other text. */
export function plainDayOf(text: string): Day | undefined {
  if (!plainDay.test(text)) return undefined;
  const [year, month, day] = [Number(text.slice(0, 4)), Number(text.slice(5, 7)), Number(text.slice(8))];
  return day >= 1 && day <= daysInMonth(year, month) ? { year, month, day } : undefined;
}

const two = (value: number): string => (value < 10 ? `0${value}` : String(value));

/** `2026-11-25`, of a year from 0 to 9999. */
export function dayText({ year, month, day }: Day): string {
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

/** `07:30:00`, with milliseconds where there are any, of milliseconds since midnight. */
export function clockText(ms: number): string {
  const rest = ms % 1000;
  const fraction = rest === 0 ? '' : `.${String(rest).padStart(3, '0')}`;
  const [hour, minute] = [Math.floor(ms / hourMs), Math.floor((ms % hourMs) / minuteMs)];
  return `${two(hour)}:${two(minute)}:${two(Math.floor((ms % minuteMs) / 1000))}${fraction}`;
}
