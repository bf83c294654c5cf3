import type { Condition } from './condition.js';
import type { Begins, Rule, Scope, Span } from './model.js';
import { scheduleText } from './schedule-text.js';
import { comparableMinutes } from './spans.js';
import { conjuncts, disjuncts } from './expression.js';
import { takesIn } from './triggers.js';

/** How one rule is looser than another: both sides in words, short, and only what differs. */
export interface Loosening {
  readonly from: string;
  readonly to: string;
}

const minutesPerDay = 1440;

/** The longest time between two of a recurrence’s times, in minutes; undefined for the kinds that have none. */
function longestGap(begins: Begins): number | undefined {
  if (begins.kind === 'interval') return comparableMinutes(begins.every);
  if (begins.kind !== 'fixed-times') return undefined;
  const days = begins.daysOfWeek.length === 0 ? [1, 2, 3, 4, 5, 6, 7] : begins.daysOfWeek;
  const times = days.flatMap((day) =>
    begins.timesOfDay.map(
      (time) => day * minutesPerDay + Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5)),
    ),
  );
  times.sort((a, b) => a - b);
  const first = times[0] ?? 0;
  return Math.max(...times.map((time, index) => (times[index + 1] ?? first + 7 * minutesPerDay) - time));
}

const unbounded: Span = { value: Number.POSITIVE_INFINITY, unit: 'min' };
const atOnce: Span = { value: 0, unit: 'min' };

function longer(a: Span, b: Span): boolean {
  return comparableMinutes(a) > comparableMinutes(b);
}

function looserBegins(lower: Begins, upper: Begins): boolean {
  switch (lower.kind) {
    case 'interval':
    case 'fixed-times':
      return looserRecurrence(lower, upper);
    case 'triggered':
      if (upper.kind !== 'triggered' || longer(upper.after ?? atOnce, lower.after ?? atOnce)) return true;
      return lower.by.some((trigger) => !upper.by.some((other) => takesIn(other, trigger)));
    case 'before':
      // Later, or at other times of day: whether those are later depends on the day.
      if (upper.kind !== 'before' || upper.of !== lower.of || longer(lower.offset, upper.offset)) return true;
      return upper.timesOfDay !== undefined && upper.timesOfDay.join() !== lower.timesOfDay?.join();
    case 'while':
    case 'once':
      return upper.kind !== lower.kind;
    case 'planned':
      return false;
  }
}

function looserRecurrence(lower: Begins, upper: Begins): boolean {
  const [gap, other] = [longestGap(lower), longestGap(upper)];
  if (gap === undefined || other === undefined || other > gap) return true;
  if (upper.kind !== 'interval') return false;
  const before = lower.kind === 'interval' ? lower : undefined;
  if (longer(before?.untilAfterInsertion ?? unbounded, upper.untilAfterInsertion ?? unbounded)) return true;
  return (upper.atMost ?? Number.POSITIVE_INFINITY) < (before?.atMost ?? Number.POSITIVE_INFINITY);
}

/** Whether a scope of `lower` is left out; one that a lumen’s own trigger would take away from the whole line too. */
function fewerScopes(lower: readonly Scope[], upper: readonly Scope[]): boolean {
  if (lower.some((scope) => !upper.includes(scope))) return true;
  return lower.includes('line') && upper.includes('lumen') && !lower.includes('lumen');
}

/** Whether a condition asks for something that the other does not ask for; what is not the same counts as narrower. */
function narrower(lower: Condition | undefined, upper: Condition | undefined): boolean {
  if (upper === undefined || upper.meaning === '') return false;
  const asked = new Set(conjuncts(lower?.meaning ?? ''));
  return conjuncts(upper.meaning).some((part) => !asked.has(part));
}

/** Whether a rule is ended by something that does not end the other. */
function endsSooner(lower: Rule, upper: Rule): boolean {
  if (longer(lower.lasts ?? unbounded, upper.lasts ?? unbounded)) return true;
  if (upper.stop === undefined) return false;
  const ended = new Set(disjuncts(lower.stop?.meaning ?? ''));
  return disjuncts(upper.stop.meaning).some((part) => !ended.has(part));
}

/** One of two rules, in words: no expression of a condition stands in them. */
function described(rule: Rule, other: Rule): string {
  const same = rule.activity === other.activity && rule.effect === other.effect;
  const act = `${rule.effect === 'forbid' ? 'no ' : ''}${rule.activity.replaceAll('-', ' ')}, `;
  const where = `, on the ${rule.scopes.map((scope) => scope.replace('-', ' ')).join(' and ')}`;
  return [same ? '' : act, scheduleText(rule), rule.scopes.join() === other.scopes.join() ? '' : where].join(
    '',
  );
}

/**
 * Whether `upper`, or switching `lower` off, asks for less or forbids less than `lower` does: another effect, activity
 * or scope, a longer interval, a later time, an end or a greatest number, fewer triggers, a shorter ban, unknown facts
 * read as false, or a condition that asks for something else (whether it is narrower can’t be decided, so it counts as
 * narrower).
 */
export function loosening(lower: Rule, upper: Rule | 'off'): Loosening | undefined {
  const from = scheduleText(lower);
  if (upper === 'off') return { from, to: 'switched off' };
  const to = scheduleText(upper);
  const both: Loosening = { from: described(lower, upper), to: described(upper, lower) };
  if (upper.effect !== lower.effect || upper.activity !== lower.activity) return both;
  if (fewerScopes(lower.scopes, upper.scopes)) return both;
  if (looserBegins(lower.begins, upper.begins) || endsSooner(lower, upper))
    return from === to ? { from, to: `${to}, and ended by more` } : { from, to };
  if (narrower(lower.applicability, upper.applicability) || narrower(lower.start, upper.start))
    return { from: both.from, to: `${both.to}, under further conditions` };
  const asks = [upper.applicability, upper.start].some((one) => (one?.uses.length ?? 0) > 0);
  if (upper.whenUnknown === 'default' && lower.whenUnknown === 'protective' && asks)
    return { from: `${from}, also where a fact is unknown`, to: `${to}, not where a fact is unknown` };
  return undefined;
}
