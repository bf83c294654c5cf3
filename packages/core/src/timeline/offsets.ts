import { Temporal } from 'temporal-polyfill';
import { dayMs, dayNumber } from '../model/civil.js';

/** A stretch of time with one offset from UTC, its end not included. */
interface Stretch {
  readonly fromMs: number;
  readonly untilMs: number;
  readonly offsetMs: number;
}

// Outside of these years the time library is asked each time: nobody who lives has a line then.
const firstMs = dayNumber({ year: 1900, month: 1, day: 1 }) * dayMs;
const lastMs = dayNumber({ year: 2200, month: 1, day: 1 }) * dayMs;

/** What a zone's clock shows when: the time library’s own table, asked once for each stretch between two changes. */
export class Offsets {
  readonly #stretches: Stretch[] = [];
  #last: Stretch | undefined;

  constructor(readonly zone: string) {}

  /** The offset at an instant; undefined where it is outside of the table. */
  at(ms: number): number | undefined {
    return this.#stretch(ms)?.offsetMs;
  }

  /** The time on the wall at an instant, as if it were UTC. */
  wall(ms: number): number | undefined {
    const offsetMs = this.at(ms);
    return offsetMs === undefined ? undefined : ms + offsetMs;
  }

  /** When the wall shows a time: the first where it does twice; where it never does, later by what is skipped. */
  when(wallMs: number): number | undefined {
    return this.#found(wallMs)?.ms;
  }

  /** The first instant of the day that begins at a time on the wall: where midnight is skipped, the end of the gap. */
  dayStart(wallMs: number): number | undefined {
    const found = this.#found(wallMs);
    return found?.skipped === true ? this.#stretch(found.ms)?.fromMs : found?.ms;
  }

  #found(wallMs: number): { readonly ms: number; readonly skipped: boolean } | undefined {
    // A zone changes its clock less often than every second day, and by no more than one.
    const [before, after] = [this.at(wallMs - dayMs), this.at(wallMs + dayMs)];
    if (before === undefined || after === undefined) return undefined;
    const early = wallMs - before;
    if (before === after || this.at(early) === before) return { ms: early, skipped: false };
    const late = wallMs - after;
    return this.at(late) === after ? { ms: late, skipped: false } : { ms: early, skipped: true };
  }

  #stretch(ms: number): Stretch | undefined {
    const last = this.#last;
    if (last !== undefined && ms >= last.fromMs && ms < last.untilMs) return last;
    if (!(ms >= firstMs && ms < lastMs) || !Number.isInteger(ms)) return undefined;
    let found = this.#stretches.find(({ fromMs, untilMs }) => ms >= fromMs && ms < untilMs);
    if (found === undefined) this.#stretches.push((found = this.#asked(ms)));
    return (this.#last = found);
  }

  #asked(ms: number): Stretch {
    const zoned = Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(this.zone);
    // A change in the same millisecond is the stretch’s own beginning.
    const change = Temporal.Instant.fromEpochMilliseconds(ms + 1).toZonedDateTimeISO(this.zone);
    return {
      fromMs: change.getTimeZoneTransition('previous')?.epochMilliseconds ?? firstMs,
      untilMs: zoned.getTimeZoneTransition('next')?.epochMilliseconds ?? lastMs,
      offsetMs: zoned.offsetNanoseconds / 1_000_000,
    };
  }
}
