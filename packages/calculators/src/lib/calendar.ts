const dateGrammar = /^(\d{4})-(\d{2})-(\d{2})$/;
const localTimeGrammar = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})$/;

const daysInMonth = (year: number, month: number): number =>
  month === 2 ? (isLeapYear(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;

const isLeapYear = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/**
 * The number of a calendar day, 0 for 1970-01-01, counted in the Gregorian calendar; `undefined` where the text
 * is no day of the years 1900 to 2199.
 */
export function dayNumber(date: string): number | undefined {
  const match = dateGrammar.exec(date);
  if (match === null) return undefined;
  const [year = 0, month = 0, day = 0] = match.slice(1).map(Number);
  if (year < 1900 || year > 2199 || month < 1 || month > 12) return undefined;
  if (day < 1 || day > daysInMonth(year, month)) return undefined;
  return daysBeforeYear(year) + daysBeforeMonth(year, month) + day - 1;
}

function daysBeforeYear(year: number): number {
  const past = year - 1;
  // 719162 days lie before 1970-01-01.
  return past * 365 + Math.floor(past / 4) - Math.floor(past / 100) + Math.floor(past / 400) - 719162;
}

function daysBeforeMonth(year: number, month: number): number {
  let days = 0;
  for (let earlier = 1; earlier < month; earlier += 1) days += daysInMonth(year, earlier);
  return days;
}

/** The calendar date of a day number, the other way round. */
export function dateOf(day: number): string {
  // 1900 begins 25567 days before 1970; 366 days a year never guess too late a year, so the loop only goes up.
  let year = 1900 + Math.floor((day + 25567) / 366);
  while (daysBeforeYear(year + 1) <= day) year += 1;
  let month = 1;
  while (month < 12 && daysBeforeYear(year) + daysBeforeMonth(year, month + 1) <= day) month += 1;
  const dayOfMonth = day - daysBeforeYear(year) - daysBeforeMonth(year, month) + 1;
  return `${year}-${twoDigits(month)}-${twoDigits(dayOfMonth)}`;
}

const twoDigits = (value: number): string => String(value).padStart(2, '0');

/** Minutes on the wall clock since 1970-01-01T00:00 there; `undefined` where the text is no local date and time. */
export function localMinutes(localTime: string): number | undefined {
  const match = localTimeGrammar.exec(localTime);
  if (match === null) return undefined;
  const day = dayNumber(match[1] ?? '');
  const hour = Number(match[2]);
  const minute = Number(match[3]);
  return day === undefined || hour > 23 || minute > 59 ? undefined : (day * 24 + hour) * 60 + minute;
}

/** The local date and time of a number of minutes, the other way round. */
export function localTimeOf(minutes: number): string {
  const day = Math.floor(minutes / 1440);
  const rest = minutes - day * 1440;
  return `${dateOf(day)}T${twoDigits(Math.floor(rest / 60))}:${twoDigits(rest % 60)}`;
}
