import { Temporal } from 'temporal-polyfill';
import type { Span } from '@dwellward/policy';
import { CoreError } from '../model/error.js';
import type { RecordedTime } from '../model/record.js';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const dayMs = 24 * hourMs;
const firstDay = Temporal.PlainDate.from('1970-01-01');
// A century of midnights: no line counts more.
const mostDays = 40_000;

/** Nominal length of a span, for comparing rules and for leads; never for working out when something is due. */
export function nominalMs({ value, unit }: Span): number {
  return value * { min: minuteMs, h: hourMs, d: dayMs, wk: 7 * dayMs, mo: 30 * dayMs }[unit];
}

/** A unit's clock: wall-clock arithmetic in one IANA zone. Instants are milliseconds since 1970 UTC. */
export class Calendar {
  readonly zone: string;
  readonly #dayNumbers = new Map<number, number>();

  /** Throws a CoreError, `no-zone`, where the zone is not an IANA zone. */
  constructor(zone: string) {
    try {
      this.zone = Temporal.PlainDate.from('2026-01-01').toZonedDateTime(zone).timeZoneId;
    } catch (cause) {
      const accepted = 'an IANA time zone such as Europe/Berlin';
      throw new CoreError('no-zone', `${zone} is not ${accepted}.`, { given: zone, accepted, cause });
    }
  }

  /**
   * Days, weeks and months keep the wall-clock time: where the clock skips it, it moves on by the gap; where it comes
   * twice, the first counts. Minutes and hours are exact.
   */
  add(ms: number, span: Span, sign: 1 | -1 = 1): number {
    const value = sign * span.value;
    switch (span.unit) {
      case 'min':
        return ms + value * minuteMs;
      case 'h':
        return ms + value * hourMs;
      case 'd':
        return this.#zoned(ms).add({ days: value }).epochMilliseconds;
      case 'wk':
        return this.#zoned(ms).add({ weeks: value }).epochMilliseconds;
      case 'mo':
        return this.#zoned(ms).add({ months: value }).epochMilliseconds;
    }
  }

  /** The first moment of what was recorded: a date is the start of that day in the zone. */
  earliest(time: RecordedTime): number {
    return this.#bounds(time)[0];
  }

  /** The first moment after what was recorded; of an instant, the instant itself. */
  latest(time: RecordedTime): number {
    return this.#bounds(time)[1];
  }

  /** Wall-clock time with its offset. */
  text(ms: number): string {
    const smallestUnit = ms % 1000 === 0 ? 'second' : 'millisecond';
    return this.#zoned(ms).toString({ smallestUnit, timeZoneName: 'never' });
  }

  /** Midnight that begins the day of an instant. */
  startOfDay(ms: number): number {
    return this.#zoned(ms).startOfDay().epochMilliseconds;
  }

  /** Whole calendar days from one instant's day to another's. */
  daysBetween(fromMs: number, toMs: number): number {
    return this.#dayNumber(toMs) - this.#dayNumber(fromMs);
  }

  /**
   * The first of the wall-clock times after an instant; every day where no days are given. 1 is Monday.
   * Undefined where there is none within a year.
   */
  nextSlot(
    afterMs: number,
    daysOfWeek: readonly number[],
    timesOfDay: readonly string[],
  ): number | undefined {
    const times = [...(timesOfDay.length > 0 ? timesOfDay : ['00:00'])]
      .sort()
      .map((text) => Temporal.PlainTime.from(text));
    let day = this.#zoned(afterMs).toPlainDate();
    for (let i = 0; i <= 366; i++, day = day.add({ days: 1 })) {
      if (daysOfWeek.length > 0 && !daysOfWeek.includes(day.dayOfWeek)) continue;
      for (const time of times) {
        const slot = day.toZonedDateTime({ timeZone: this.zone, plainTime: time }).epochMilliseconds;
        if (slot > afterMs) return slot;
      }
    }
    return undefined;
  }

  /** The last of the wall-clock times, every day, at or before an instant. */
  lastSlot(untilMs: number, timesOfDay: readonly string[]): number {
    const times = timesOfDay.map((text) => Temporal.PlainTime.from(text));
    // Two days are enough: every time comes once a day.
    const slots = [0, 1, 2].flatMap((back) => {
      const day = this.#zoned(untilMs).toPlainDate().subtract({ days: back });
      return times.map(
        (time) => day.toZonedDateTime({ timeZone: this.zone, plainTime: time }).epochMilliseconds,
      );
    });
    return Math.max(...slots.filter((slot) => slot <= untilMs));
  }

  /** The number of the day on the wall, kept: every rule that counts days asks for the same midnights. */
  #dayNumber(ms: number): number {
    const known = this.#dayNumbers.get(ms);
    if (known !== undefined) return known;
    const number = firstDay.until(this.#zoned(ms).toPlainDate(), { largestUnit: 'days' }).days;
    if (this.#dayNumbers.size >= mostDays) this.#dayNumbers.clear();
    this.#dayNumbers.set(ms, number);
    return number;
  }

  #zoned(ms: number): Temporal.ZonedDateTime {
    return Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(this.zone);
  }

  #bounds({ text, precision }: RecordedTime): [number, number] {
    if (precision === 'instant') {
      const ms = instantMs(text);
      return [ms, ms];
    }
    const first = Temporal.PlainDate.from(
      precision === 'day' ? text : precision === 'month' ? `${text}-01` : `${text}-01-01`,
    );
    const next = first.add(
      precision === 'day' ? { days: 1 } : precision === 'month' ? { months: 1 } : { years: 1 },
    );
    return [
      first.toZonedDateTime(this.zone).epochMilliseconds,
      next.toZonedDateTime(this.zone).epochMilliseconds,
    ];
  }
}

/**
 * An instant with an offset as milliseconds since 1970 UTC. Throws a CoreError, `no-instant`, where it is none.
 * @example
 * ```ts
 * instantMs('2026-11-25T07:30:00+01:00'); // 1795588200000
 * ```
 */
export function instantMs(text: string): number {
  try {
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch (cause) {
    const accepted = 'an instant with an offset such as 2026-11-25T07:30:00+01:00';
    throw new CoreError('no-instant', `${text} is not ${accepted}.`, { given: text, accepted, cause });
  }
}
