import { Temporal } from 'temporal-polyfill';
import type { Span } from '@dwellward/policy';
import {
  clockText,
  dayMs,
  dayNumber,
  dayOfNumber,
  daysInMonth,
  dayText,
  hourMs,
  minuteMs,
  plainDayOf,
  plainInstantMs,
  type Day,
} from '../model/civil.js';
import { CoreError } from '../model/error.js';
import type { RecordedTime } from '../model/record.js';
import { Offsets } from './offsets.js';

const firstDay = Temporal.PlainDate.from('1970-01-01');

/** Nominal length of a span, for comparing rules and for leads; never for working out when something is due. */
export function nominalMs({ value, unit }: Span): number {
  return value * { min: minuteMs, h: hourMs, d: dayMs, wk: 7 * dayMs, mo: 30 * dayMs }[unit];
}

/**
 * A unit's clock: wall-clock arithmetic in one IANA zone. Instants are milliseconds since 1970 UTC. Worked out by the table
 * of offsets; what lies outside of it, by the time library, and both are the same.
 */
export class Calendar {
  readonly zone: string;
  readonly #offsets: Offsets;

  /** Throws a CoreError, `no-zone`, where the zone is not an IANA zone. */
  constructor(zone: string) {
    const known = tables.get(zone);
    if (known !== undefined) {
      this.zone = known.zone;
      this.#offsets = known;
      return;
    }
    try {
      this.zone = Temporal.PlainDate.from('2026-01-01').toZonedDateTime(zone).timeZoneId;
    } catch (cause) {
      const accepted = 'an IANA time zone such as Europe/Berlin';
      throw new CoreError('no-zone', `${zone} is not ${accepted}.`, { given: zone, accepted, cause });
    }
    this.#offsets = tableOf(zone, this.zone);
  }

  /**
   * Days, weeks and months keep the wall-clock time: where the clock skips it, it moves on by the gap; where it comes
   * twice, the first counts. Minutes and hours are exact.
   */
  add(ms: number, span: Span, sign: 1 | -1 = 1): number {
    const value = sign * span.value;
    const moved = this.#moved(ms, value, span.unit);
    if (moved !== undefined) return moved;
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

  /** Days, weeks and months by the table; undefined where the time library has to. */
  #moved(ms: number, value: number, unit: Span['unit']): number | undefined {
    // Nothing added is no new look at the wall, which may show this time twice.
    if (unit === 'min' || unit === 'h' || value === 0 || !Number.isInteger(value)) return undefined;
    const wallMs = this.#offsets.wall(ms);
    if (wallMs === undefined) return undefined;
    if (unit !== 'mo') return this.#offsets.when(wallMs + value * (unit === 'wk' ? 7 : 1) * dayMs);
    const number = Math.floor(wallMs / dayMs);
    return this.#offsets.when(
      dayNumber(monthsAfter(dayOfNumber(number), value)) * dayMs + wallMs - number * dayMs,
    );
  }

  /** Wall-clock time with its offset. */
  text(ms: number): string {
    const wallMs = this.#offsets.wall(ms);
    // Before there were zones offsets had seconds.
    if (wallMs !== undefined && (wallMs - ms) % minuteMs === 0) {
      const number = Math.floor(wallMs / dayMs);
      const apartMs = Math.abs(wallMs - ms);
      const offset = clockText(apartMs).slice(0, 5);
      return `${dayText(dayOfNumber(number))}T${clockText(wallMs - number * dayMs)}${wallMs < ms ? '-' : '+'}${offset}`;
    }
    const smallestUnit = ms % 1000 === 0 ? 'second' : 'millisecond';
    return this.#zoned(ms).toString({ smallestUnit, timeZoneName: 'never' });
  }

  /** Midnight that begins the day of an instant. */
  startOfDay(ms: number): number {
    const wallMs = this.#offsets.wall(ms);
    const start =
      wallMs === undefined ? undefined : this.#offsets.dayStart(Math.floor(wallMs / dayMs) * dayMs);
    return start ?? this.#zoned(ms).startOfDay().epochMilliseconds;
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
    const times = [...(timesOfDay.length > 0 ? timesOfDay : ['00:00'])].sort().map(timeOfDayMs);
    const today = this.#dayNumber(afterMs);
    for (let number = today; number <= today + 366; number++) {
      if (daysOfWeek.length > 0 && !daysOfWeek.includes(dayOfWeek(number))) continue;
      for (const timeMs of times) {
        const slot = this.#slot(number, timeMs);
        if (slot > afterMs) return slot;
      }
    }
    return undefined;
  }

  /** The last of the wall-clock times, every day, at or before an instant. */
  lastSlot(untilMs: number, timesOfDay: readonly string[]): number {
    const today = this.#dayNumber(untilMs);
    const times = timesOfDay.map(timeOfDayMs);
    // Two days are enough: every time comes once a day.
    const slots = [0, 1, 2].flatMap((back) => times.map((timeMs) => this.#slot(today - back, timeMs)));
    return Math.max(...slots.filter((slot) => slot <= untilMs));
  }

  /** When a time of day comes on a day; where it is skipped, later by what is skipped. */
  #slot(number: number, timeMs: number): number {
    return (
      this.#offsets.when(number * dayMs + timeMs) ??
      firstDay
        .add({ days: number })
        .toZonedDateTime({ timeZone: this.zone, plainTime: midnight.add({ milliseconds: timeMs }) })
        .epochMilliseconds
    );
  }

  /** The number of the day on the wall. */
  #dayNumber(ms: number): number {
    const wallMs = this.#offsets.wall(ms);
    return wallMs === undefined
      ? firstDay.until(this.#zoned(ms).toPlainDate(), { largestUnit: 'days' }).days
      : Math.floor(wallMs / dayMs);
  }

  #zoned(ms: number): Temporal.ZonedDateTime {
    return Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(this.zone);
  }

  #bounds({ text, precision }: RecordedTime): [number, number] {
    if (precision === 'instant') {
      const ms = instantMs(text);
      return [ms, ms];
    }
    const day = plainDayOf(
      precision === 'day' ? text : precision === 'month' ? `${text}-01` : `${text}-01-01`,
    );
    if (day !== undefined) {
      const next = precision === 'day' ? undefined : monthsAfter(day, precision === 'month' ? 1 : 12);
      const number = dayNumber(day);
      const start = this.#offsets.dayStart(number * dayMs);
      const end = this.#offsets.dayStart((next === undefined ? number + 1 : dayNumber(next)) * dayMs);
      if (start !== undefined && end !== undefined) return [start, end];
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

const midnight = Temporal.PlainTime.from('00:00');

/** A time of day as milliseconds since midnight, as it is where no clock is changed. */
function timeOfDayMs(text: string): number {
  const time = Temporal.PlainTime.from(text);
  return (time.hour * 60 + time.minute) * minuteMs + time.second * 1000 + time.millisecond;
}

/** The same day so many months later, or the last of a month that has no such day. */
function monthsAfter({ year, month, day }: Day, months: number): Day {
  const all = year * 12 + month - 1 + months;
  const [inYear, inMonth] = [Math.floor(all / 12), (((all % 12) + 12) % 12) + 1];
  return { year: inYear, month: inMonth, day: Math.min(day, daysInMonth(inYear, inMonth)) };
}

/** 1 is Monday; 1 January 1970 was a Thursday. */
function dayOfWeek(number: number): number {
  return ((((number + 3) % 7) + 7) % 7) + 1;
}

// A table is filled from the time library, which takes a while: those who ask for one zone share it. Zones come from
// callers and must not make it grow without end.
const tables = new Map<string, Offsets>();
const mostTables = 1_000;

/** The table of a zone, by the name that it was asked for by. */
function tableOf(given: string, zone: string): Offsets {
  if (tables.size >= mostTables) tables.clear();
  const offsets = new Offsets(zone);
  tables.set(given, offsets);
  return offsets;
}

/**
 * An instant with an offset as milliseconds since 1970 UTC. Throws a CoreError, `no-instant`, where it is none.
 * @example
 * ```ts
 * instantMs('2026-11-25T07:30:00+01:00'); // 1795588200000
 * ```
 */
export function instantMs(text: string): number {
  const plain = plainInstantMs(text);
  if (plain !== undefined) return plain;
  try {
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch (cause) {
    const accepted = 'an instant with an offset such as 2026-11-25T07:30:00+01:00';
    throw new CoreError('no-instant', `${text} is not ${accepted}.`, { given: text, accepted, cause });
  }
}
