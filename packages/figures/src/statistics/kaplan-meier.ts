import { FiguresError } from '../error.js';
import { z95 } from './distributions.js';

/** One line: how long it was watched, and whether it ended with the event; else it was still in, or ended otherwise. */
export interface Watched {
  readonly time: number;
  readonly event: boolean;
}

/** The share that is still without the event after a time at which events happened. */
export interface SurvivalStep {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  readonly share: number;
  /** Greenwood’s standard error; absent where the share is 0. */
  readonly standardError?: number;
  /** 95 %, share ± 1.96 standard errors, kept within 0 and 1. */
  readonly interval?: { readonly lower: number; readonly upper: number };
}

/**
 * Kaplan-Meier estimate with Greenwood’s interval: the share without the event over time.
 *
 * - Units: those of the times, such as days in place. Ranges: times from 0; of those that end together, events come before
 *   censoring. A step for each time with an event; none where there is no event.
 * - Errors: throws a {@link FiguresError} for a time below 0.
 * - Cautions: the interval is Greenwood’s plain one, poor where few are at risk. Where lines also end for other reasons, the
 *   curve says what would be if they did not: it is no share of all lines.
 * - Source: Kaplan and Meier 1958; Greenwood 1926 (formulas from memory).
 *
 * @example
 * ```ts
 * kaplanMeier([{ time: 3, event: true }, { time: 5, event: false }]).map(({ share }) => share); // [0.5]
 * ```
 */
export function kaplanMeier(watched: readonly Watched[]): readonly SurvivalStep[] {
  for (const { time } of watched) {
    if (!Number.isFinite(time) || time < 0)
      throw new FiguresError('out-of-range', 'time', time, 'a number from 0');
  }
  const times = [...new Set(watched.filter(({ event }) => event).map(({ time }) => time))];
  let share = 1;
  let greenwood = 0;
  return times
    .sort((a, b) => a - b)
    .map((time) => {
      const atRisk = watched.filter((one) => one.time >= time).length;
      const events = watched.filter((one) => one.event && one.time === time).length;
      share *= (atRisk - events) / atRisk;
      if (share === 0) return { time, atRisk, events, share };
      greenwood += events / (atRisk * (atRisk - events));
      const standardError = share * Math.sqrt(greenwood);
      const interval = {
        lower: Math.max(0, share - z95 * standardError),
        upper: Math.min(1, share + z95 * standardError),
      };
      return { time, atRisk, events, share, standardError, interval };
    });
}
