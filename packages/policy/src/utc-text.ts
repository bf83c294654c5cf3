const msPerDay = 86_400_000;
// Days from 0000-03-01 to 1970-01-01, and in 400 years, after which the calendar repeats itself.
const daysTo1970 = 719_468;
const daysIn400Years = 146_097;

/**
 * A time as FHIRPath and FHIR write it, in UTC to the millisecond. For the years 1 to 9999; the proleptic Gregorian
 * calendar, as ISO 8601 has it.
 * @param ms milliseconds since 1970 UTC.
 */
export function utcText(ms: number): string {
  const days = Math.floor(ms / msPerDay);
  const { year, month, day } = dateOf(days);
  let rest = ms - days * msPerDay;
  const take = (size: number): number => {
    const count = Math.floor(rest / size);
    rest -= count * size;
    return count;
  };
  const clock = [take(3_600_000), take(60_000), take(1_000)].map((part) => digits(part, 2)).join(':');
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}T${clock}.${digits(rest, 3)}Z`;
}

/** The date so many days after 1970-01-01, by years that begin in March, so that a leap day is their last. */
function dateOf(daysSince1970: number): {
  readonly year: number;
  readonly month: number;
  readonly day: number;
} {
  const days = daysSince1970 + daysTo1970;
  const cycle = Math.floor(days / daysIn400Years);
  const dayOfCycle = days - cycle * daysIn400Years;
  const yearOfCycle = Math.floor(
    (dayOfCycle -
      Math.floor(dayOfCycle / 1460) +
      Math.floor(dayOfCycle / 36_524) -
      Math.floor(dayOfCycle / 146_096)) /
      365,
  );
  const dayOfYear =
    dayOfCycle - (365 * yearOfCycle + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100));
  // The months from March on last 31, 30, 31, 30, 31 days, twice, and then some.
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return {
    year: cycle * 400 + yearOfCycle + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1,
  };
}

function digits(value: number, length: number): string {
  return String(value).padStart(length, '0');
}
