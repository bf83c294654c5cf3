import type { CareWindow, WindowOutcome } from './windows.js';

/** How many windows ended how. */
export interface OnTime {
  readonly windows: number;
  readonly onTime: number;
  readonly late: number;
  readonly missed: number;
  readonly held: number;
  /** On time, of all but those that were held; absent where there is none. */
  readonly share?: number;
  /** Of the late and the missed, the middle one and the longest; absent where there is none. */
  readonly daysOverdue?: { readonly median: number; readonly most: number };
  /** Why it was not done when it was due, as it was charted, the most frequent first. */
  readonly reasons: readonly { readonly reason: string; readonly count: number }[];
}

/** The windows of one activity, unit and shift. */
export interface OnTimeRow extends OnTime {
  readonly unit: string;
  readonly shift: string;
  readonly activity: CareWindow['activity'];
}

/** What care asks of a unit. */
export interface BurdenRow {
  readonly unit: string;
  readonly layer: string;
  readonly activity: CareWindow['activity'];
  /** Windows, of 1,000 line days; absent where the unit has no line days. */
  readonly per1000?: number;
  readonly windows: number;
  /** Windows that a nurse was alarmed by: urgent ones, and those that were overdue. */
  readonly alarms: number;
  /** How often each supply was taken to it: of what was done. */
  readonly supplies: Readonly<Record<string, number>>;
}

/**
 * Counts windows by how they ended.
 * @example
 * ```ts
 * onTime([]).windows; // 0
 * ```
 */
export function onTime(windows: readonly CareWindow[]): OnTime {
  const of = (outcome: WindowOutcome) => windows.filter((one) => one.outcome === outcome).length;
  const counts = { onTime: of('on-time'), late: of('late'), missed: of('missed'), held: of('held') };
  const counted = windows.length - counts.held;
  const overdue = windows
    .filter(({ outcome }) => outcome === 'late' || outcome === 'missed')
    .map(({ daysOverdue }) => daysOverdue)
    .sort((a, b) => a - b);
  return {
    windows: windows.length,
    ...counts,
    ...(counted === 0 ? {} : { share: counts.onTime / counted }),
    ...(overdue.length === 0 ? {} : { daysOverdue: { median: middle(overdue), most: overdue.at(-1) ?? 0 } }),
    reasons: reasonsOf(windows),
  };
}

/**
 * Care on time by unit, activity and shift.
 * @example
 * ```ts
 * onTimeRows([]); // []
 * ```
 */
export function onTimeRows(windows: readonly CareWindow[]): OnTimeRow[] {
  return grouped(windows, ({ unit, activity, shift }) => [unit, activity, shift]).map((own) => {
    const [{ unit, activity, shift }] = own;
    return { unit, activity, shift, ...onTime(own) };
  });
}

/**
 * What care asks by unit, layer of the policy and activity.
 * @param lineDays by unit; a figure of 1,000 line days is left out where a unit has none.
 * @example
 * ```ts
 * burdenRows([], {}); // []
 * ```
 */
export function burdenRows(
  windows: readonly CareWindow[],
  lineDays: Readonly<Record<string, number>>,
): BurdenRow[] {
  return grouped(windows, ({ unit, layer, activity }) => [unit, layer, activity]).map((own) => {
    const [{ unit, layer, activity }] = own;
    const days = lineDays[unit] ?? 0;
    const supplies: Record<string, number> = {};
    for (const { by, supplies: taken } of own)
      for (const one of by === undefined ? [] : taken) supplies[one] = (supplies[one] ?? 0) + 1;
    return {
      ...{ unit, layer, activity, windows: own.length },
      ...(days > 0 ? { per1000: (own.length / days) * 1000 } : {}),
      alarms: own.filter(({ urgent, outcome }) => urgent || outcome === 'late' || outcome === 'missed')
        .length,
      supplies,
    };
  });
}

function reasonsOf(windows: readonly CareWindow[]): OnTime['reasons'] {
  const counts = new Map<string, number>();
  for (const { reason } of windows)
    if (reason !== undefined) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  return [...counts]
    .map(([reason, count]) => ({ reason, count }))
    .sort((a, b) => b.count - a.count || (a.reason < b.reason ? -1 : 1));
}

type Some = readonly [CareWindow, ...CareWindow[]];

function grouped(windows: readonly CareWindow[], keyOf: (one: CareWindow) => readonly string[]): Some[] {
  const groups = new Map<string, CareWindow[]>();
  for (const one of windows) {
    const key = keyOf(one).join('\u0000');
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, own]) => own as unknown as Some);
}

function middle(sorted: readonly number[]): number {
  const half = Math.floor(sorted.length / 2);
  const [low = 0, high = 0] = [sorted[half - 1] ?? sorted[half], sorted[half]];
  return sorted.length % 2 === 1 ? high : (low + high) / 2;
}
