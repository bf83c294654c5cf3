import type { Rule, Schedule, Sign, Span } from './model.js';
import { scheduleText } from './schedule-text.js';
import { comparableMinutes } from './spans.js';

/** How one rule is looser than another: both sides in words. */
export interface Loosening {
  readonly from: string;
  readonly to: string;
}

const minutesPerDay = 1440;

/** The longest time between two of a schedule’s times, in minutes; undefined for the kinds that have none. */
function longestGap(schedule: Schedule): number | undefined {
  if (schedule.kind === 'interval') return comparableMinutes(schedule.every);
  if (schedule.kind !== 'fixed-times') return undefined;
  const days = schedule.daysOfWeek.length === 0 ? [1, 2, 3, 4, 5, 6, 7] : schedule.daysOfWeek;
  const times = days.flatMap((day) =>
    schedule.timesOfDay.map(
      (time) => day * minutesPerDay + Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5)),
    ),
  );
  times.sort((a, b) => a - b);
  const first = times[0] ?? 0;
  return Math.max(...times.map((time, index) => (times[index + 1] ?? first + 7 * minutesPerDay) - time));
}

function longer(a: Span | undefined, b: Span | undefined): boolean {
  return a !== undefined && (b === undefined || comparableMinutes(a) > comparableMinutes(b));
}

function looserSchedule(lower: Schedule, upper: Schedule): boolean {
  const gap = longestGap(lower);
  if (gap !== undefined) {
    const other = longestGap(upper);
    if (other === undefined || other > gap) return true;
    if (upper.kind !== 'interval') return false;
    const first = upper.firstAfterInsertion;
    const firstBefore = lower.kind === 'interval' ? (lower.firstAfterInsertion ?? lower.every) : undefined;
    if (
      first !== undefined &&
      (firstBefore === undefined ? comparableMinutes(first) > gap : longer(first, firstBefore))
    )
      return true;
    const before = lower.kind === 'interval' ? lower : undefined;
    if (
      upper.untilAfterInsertion !== undefined &&
      longer(before?.untilAfterInsertion ?? unbounded, upper.untilAfterInsertion)
    )
      return true;
    return upper.atMost !== undefined && upper.atMost < (before?.atMost ?? Number.POSITIVE_INFINITY);
  }
  if (lower.kind === 'anchor') return false;
  if (lower.kind === 'at-once') {
    if (upper.kind !== 'at-once' || upper.finding !== lower.finding) return true;
    if (endsSooner(lower.until, upper.until)) return true;
    if (upper.values.length === 0) return false;
    return lower.values.length === 0 || lower.values.some((value) => !upper.values.includes(value));
  }
  if (lower.kind === 'once') return upper.kind !== 'once';
  if (lower.kind === 'before') {
    // Later, or at other times of day: whether those are later depends on the day.
    if (upper.kind !== 'before' || upper.of !== lower.of || longer(lower.offset, upper.offset)) return true;
    return upper.timesOfDay !== undefined && upper.timesOfDay.join() !== lower.timesOfDay?.join();
  }
  // A chain is looser where it is later; a hold where it is shorter, and one that waits for the act is the longest.
  // A finding that ends it before its time makes either looser.
  if (lower.kind === 'chain') {
    if (upper.kind !== 'chain' || upper.after !== lower.after || endsSooner(lower.until, upper.until))
      return true;
    return longer(upper.offset, lower.offset);
  }
  // A hold that no act ends, only a finding, is no looser than one that either ends.
  if (lower.kind !== 'hold' || upper.kind !== 'hold') return true;
  if (upper.after !== lower.after && upper.after !== undefined) return true;
  if (endsSooner(lower.until, upper.until)) return true;
  if (JSON.stringify(upper.from) !== JSON.stringify(lower.from)) return true;
  if (lower.offset === undefined) return upper.offset !== undefined;
  return longer(lower.offset, upper.offset) && upper.offset !== undefined;
}

/** Whether `upper` is ended by a finding that does not end `lower`. */
function endsSooner(lower: readonly Sign[] | undefined, upper: readonly Sign[] | undefined): boolean {
  return (upper ?? []).some(
    ({ finding, values }) =>
      !(lower ?? []).some(
        (sign) =>
          sign.finding === finding &&
          (sign.values.length === 0 ||
            (values.length > 0 && values.every((value) => sign.values.includes(value)))),
      ),
  );
}

const unbounded: Span = { value: Number.POSITIVE_INFINITY, unit: 'min' };

function described(rule: Rule): string {
  const when = rule.condition.text === '' ? '' : ` where ${rule.condition.text}`;
  return `${rule.activity} (${rule.scope}) ${scheduleText(rule.schedule)}${when}`;
}

/**
 * Whether `upper`, or switching `lower` off, asks for less than `lower` does: another activity or scope, a longer
 * interval, a later first time, an end or a greatest number, fewer findings, a shorter hold, unknown facts read as
 * false, or a condition that is not the same (whether it is narrower can’t be decided, so it counts as narrower).
 */
export function loosening(lower: Rule, upper: Rule | 'off'): Loosening | undefined {
  const from = scheduleText(lower.schedule);
  if (upper === 'off') return { from, to: 'switched off' };
  const to = scheduleText(upper.schedule);
  if (upper.activity !== lower.activity || upper.scope !== lower.scope) {
    return { from: described(lower), to: described(upper) };
  }
  if (looserSchedule(lower.schedule, upper.schedule)) return { from, to };
  const narrower = upper.condition.text !== '' && upper.condition.text !== lower.condition.text;
  if (narrower) return { from: described(lower), to: described(upper) };
  if (
    upper.whenUnknown === 'default' &&
    lower.whenUnknown === 'protective' &&
    upper.condition.uses.length > 0
  ) {
    return { from: `${from}, also where a fact is unknown`, to: `${to}, not where a fact is unknown` };
  }
  return undefined;
}
