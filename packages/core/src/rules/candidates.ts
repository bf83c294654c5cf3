import type { FactName, Rule } from '@dwellward/policy';
import { heldSince, holds } from './applies.js';
import { bySchedule, type Found } from './by-schedule.js';
import { judgesItsFinding } from '../facts/external-length.js';
import type { Moment } from '../facts/moment.js';
import { isEmergency } from './priority.js';
import { leadStart, type Start } from './starts.js';

/** A rule that holds for a target, with the time that it alone would give. */
export interface DueByRule extends Omit<Found, 'sinceMs'> {
  readonly rule: Rule;
  /** Since when the condition has held, where that moved `dueByMs`. */
  readonly heldSinceMs?: number;
  /** True where it holds only by its reading of facts that are not known. */
  readonly byUnknown: readonly FactName[];
}

/**
 * When a rule alone would have its activity done on a target; undefined where it asks for nothing now.
 * `sinceMs` is when the rule itself began to count, as a patient's order does.
 */
export function dueByRule(rule: Rule, at: Moment, sinceMs = -Infinity): DueByRule | undefined {
  // What a measurement tells of itself is asked at its own moment: a later one does not undo it.
  const itself = judgesItsFinding(rule);
  const applicability = itself ? { holds: true, byUnknown: [] } : holds(rule, at);
  if (!applicability.holds) return undefined;
  const found = bySchedule(rule, rule.schedule, at);
  if (!found) return undefined;
  const heldMs = (itself ? undefined : heldSince(rule, at, found.dueByMs)) ?? -Infinity;
  const since = Math.max(sinceMs, found.sinceMs ?? -Infinity, heldMs);
  const moved = since > found.dueByMs;
  return {
    rule,
    ...found,
    ...(moved ? { dueByMs: since, heldSinceMs: since } : {}),
    byUnknown: applicability.byUnknown,
  };
}

/**
 * The most protective first: earliest, then the shorter interval, then an emergency, then the later layer, then the
 * rule's id.
 */
export function compareProtection(a: DueByRule, b: DueByRule): number {
  return (
    a.dueByMs - b.dueByMs ||
    a.intervalMs - b.intervalMs ||
    Number(isEmergency([b.rule])) - Number(isEmergency([a.rule])) ||
    b.rule.origin.layer - a.rule.origin.layer ||
    (a.rule.id < b.rule.id ? -1 : a.rule.id > b.rule.id ? 1 : 0)
  );
}

/**
 * When the item opens: `dueBy` less the rule's lead, a quarter of its interval where it states none, and not before
 * the minimum spacing since the last time has passed. The spacing never moves `dueBy`.
 */
export function opensMs(found: DueByRule, start: Start, { timeline }: Moment): number {
  const { rule, dueByMs, intervalMs } = found;
  if (found.opensMs !== undefined) return Math.min(dueByMs, found.opensMs);
  const byLead = leadStart(rule, dueByMs, intervalMs, timeline);
  const spaced =
    start.ms !== undefined && rule.minimumSpacing
      ? timeline.calendar.add(start.ms, rule.minimumSpacing)
      : byLead;
  return Math.min(dueByMs, Math.max(byLead, spaced));
}
