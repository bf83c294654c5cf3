import type { FactName, Rule } from '@dwellward/policy';
import { applies, appliesSince } from './applies.js';
import { byBegins, type Found } from './by-begins.js';
import type { Moment } from '../facts/facts.js';
import { pressing } from './priority.js';
import { leadStart, type Start } from './starts.js';

/** A rule that applies to a target, with the time that it alone would give. */
export interface DueByRule extends Omit<Found, 'sinceMs'> {
  readonly rule: Rule;
  /** Since when it has applied, where that moved `dueByMs`. */
  readonly appliesSinceMs?: number;
  /** The facts by whose protective reading alone it applies. */
  readonly byUnknown: readonly FactName[];
}

/**
 * When a rule alone would have its activity done on a target; undefined where it asks for nothing now.
 * `sinceMs` is when the rule itself began to count, as a patient's order does.
 */
export function dueByRule(rule: Rule, at: Moment, sinceMs = -Infinity): DueByRule | undefined {
  const applicability = applies(rule, at);
  if (!applicability.applies) return undefined;
  const found = byBegins(rule, at);
  if (!found) return undefined;
  const appliedMs = appliesSince(rule, at, found.dueByMs) ?? -Infinity;
  const since = Math.max(sinceMs, found.sinceMs ?? -Infinity, appliedMs);
  const moved = since > found.dueByMs;
  return {
    rule,
    ...found,
    ...(moved ? { dueByMs: since, appliesSinceMs: since } : {}),
    byUnknown: [...new Set([...applicability.byUnknown, ...(found.byUnknown ?? [])])],
  };
}

/**
 * The most protective first: earliest, then the more pressing, then the shorter interval, then the later layer, then the
 * rule's id.
 */
export function compareProtection(a: DueByRule, b: DueByRule): number {
  return (
    a.dueByMs - b.dueByMs ||
    pressing[a.rule.priority] - pressing[b.rule.priority] ||
    a.intervalMs - b.intervalMs ||
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
