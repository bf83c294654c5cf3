import {
  Calendar,
  english,
  instantMs,
  speaker,
  type AsOf,
  type LineRecord,
  type Records,
} from '@dwellward/core';
import { careWindows } from '@dwellward/figures';
import type { Policy } from '@dwellward/policy';

/** A window of care that has closed, in words. */
export interface PastWindow {
  readonly opens: string;
  readonly dueBy: string;
  readonly outcome: 'on-time' | 'late' | 'missed' | 'held';
  readonly text: string;
}

export interface PastWindows {
  /** The first day that was looked at. */
  readonly from: string;
  readonly windows: readonly PastWindow[];
}

/**
 * What was due is asked anew before each act. So many of the latest acts are looked at: more, and the page of a line that
 * has been in for a year keeps everybody else waiting.
 */
const mostActs = 120;

/** The windows of a line that closed before today: what was kept, what was late, what was not done. */
export function pastWindows(
  records: Records,
  line: LineRecord,
  policy: Policy,
  { asOf, zone }: AsOf,
): PastWindows {
  const calendar = new Calendar(zone);
  const nowMs = instantMs(asOf);
  const dayOf = (ms: number) => calendar.text(ms).slice(0, 10);
  const to = dayOf(calendar.startOfDay(nowMs) - 1);
  const acts = line.events
    .flatMap(({ at, status }) => (at && status === 'completed' ? [calendar.earliest(at)] : []))
    .filter((ms) => ms <= nowMs)
    .sort((a, b) => b - a);
  const firstMs = acts[Math.min(mostActs, acts.length) - 1];
  if (firstMs === undefined || dayOf(firstMs) > to) return { from: dayOf(nowMs), windows: [] };
  const from = dayOf(firstMs);
  const say = speaker(english, calendar);
  const windows = careWindows({ ...records, lines: [line] }, policy, { from, to, zone });
  return {
    from,
    windows: windows.map(({ activity, opens, dueBy, outcome, at }) => ({
      opens,
      dueBy,
      outcome,
      text: say({ code: 'window-ended', activity, outcome, dueBy, ...(at === undefined ? {} : { at }) }),
    })),
  };
}
