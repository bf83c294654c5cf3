import { counted, FiguresError, positive } from '../error.js';
import type { Counted } from './rates.js';

/** Why a point of a chart is pointed out. */
export type Signal = 'above-limit' | 'below-limit' | 'run';

/** One point of a control chart with its limits. */
export interface ChartPoint {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
  readonly signals: readonly Signal[];
}

/** A control chart. */
export interface ControlChart {
  readonly centre: number;
  readonly points: readonly ChartPoint[];
  readonly cautions: readonly string[];
}

// Shewhart charts: eight in a row on one side of the centre. From memory.
const runLength = 8;
// A u-chart needs about 25 subgroups before its limits can be relied on (Benneyan).
const enough = 25;

/**
 * u-chart: events of 1,000 days in each subgroup (a month), with limits of three standard deviations.
 *
 * - Units: events of 1,000 days. Ranges: at least one subgroup; events whole numbers from 0, days above 0. The lower limit is
 *   never below 0. Signals: beyond a limit, or the eighth and later of a run on one side of the centre.
 * - Errors: throws a {@link FiguresError} beyond the ranges.
 * - Cautions: with fewer than 25 subgroups the limits are provisional, and the answer says so.
 * - Source: `u ± 3√(u/n)` from memory; number of subgroups: Benneyan 2001.
 *
 * @example
 * ```ts
 * uChart([{ events: 12, days: 8000 }]).centre; // 1.5
 * ```
 */
export function uChart(groups: readonly Counted[]): ControlChart {
  const events = total(groups.map((group) => counted('events', group.events)));
  const days = total(groups.map((group) => positive('days', group.days)));
  if (days === 0) throw new FiguresError('out-of-range', 'groups', 'empty', 'at least one subgroup');
  const each = events / days;
  return chart(
    1000 * each,
    groups.map((group) => {
      const width = 3 * Math.sqrt(each / group.days);
      return {
        value: (1000 * group.events) / group.days,
        lower: 1000 * Math.max(0, each - width),
        upper: 1000 * (each + width),
      };
    }),
    'subgroups',
  );
}

/**
 * g-chart: days (or opportunities) between one event and the next, for events that are rare.
 *
 * - Units: those of the gaps. Ranges: at least one gap, each a whole number from 0. Limits: `g ± 3√(g(g + 1))`, never below 0.
 * - Errors: throws a {@link FiguresError} beyond the ranges.
 * - Cautions: a point above its limit is a long time without an event: good news. A lower limit of 0 can’t be crossed, so
 *   that worsening shows late.
 * - Source: Benneyan 2001 (PubMed 11718463).
 *
 * @example
 * ```ts
 * gChart([30, 12, 45, 8, 60, 25]).centre; // 30
 * ```
 */
export function gChart(gaps: readonly number[]): ControlChart {
  if (gaps.length === 0) throw new FiguresError('out-of-range', 'gaps', 'empty', 'at least one gap');
  const mean = total(gaps.map((gap) => counted('gap', gap))) / gaps.length;
  const width = 3 * Math.sqrt(mean * (mean + 1));
  return chart(
    mean,
    gaps.map((value) => ({ value, lower: Math.max(0, mean - width), upper: mean + width })),
    'gaps',
  );
}

function chart(centre: number, bare: readonly Omit<ChartPoint, 'signals'>[], of: string): ControlChart {
  let side = 0;
  let run = 0;
  const points = bare.map((point) => {
    const now = Math.sign(point.value - centre);
    run = now !== 0 && now === side ? run + 1 : now === 0 ? 0 : 1;
    side = now;
    const signals: Signal[] = [];
    if (point.value > point.upper) signals.push('above-limit');
    if (point.value < point.lower) signals.push('below-limit');
    if (run >= runLength) signals.push('run');
    return { ...point, signals };
  });
  const cautions =
    points.length < enough
      ? [`${points.length} ${of}: below about ${enough}, the limits are provisional.`]
      : [];
  return { centre, points, cautions };
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
