import type { FactName, Rule } from '@dwellward/policy';
import { changesOf, factsAt, type Moment } from '../facts/known.js';

/** Whether a rule holds at a moment. */
export function holds(
  rule: Rule,
  at: Moment,
): { readonly holds: boolean; readonly byUnknown: readonly FactName[] } {
  const truth = rule.condition.evaluate(factsAt(rule.condition.uses, at));
  if (truth.is === 'unknown') return { holds: rule.whenUnknown === 'protective', byUnknown: truth.missing };
  return { holds: truth.is === 'true', byUnknown: [] };
}

/**
 * When the unbroken run in which the rule holds began; undefined where it has held from the start.
 * A rule never makes an item due before its condition began to hold.
 * @param afterMs a run that began at or before it need not be traced further back: undefined then too.
 */
export function heldSince(rule: Rule, at: Moment, afterMs = -Infinity): number | undefined {
  const { uses } = rule.condition;
  if (uses.length === 0) return undefined;
  let sinceMs: number | undefined;
  for (const change of changesOf(uses, at.timeline, at.staleAfter)) {
    if (!holds(rule, { ...at, ms: change.ms }).holds) return sinceMs;
    sinceMs = change.sinceMs;
    if (sinceMs <= afterMs) return undefined;
  }
  return holds(rule, { ...at, ms: beforeAll }).holds ? undefined : sinceMs;
}

// Before anything that a record can tell of, and well within what a calendar can hold.
const beforeAll = -6e13;
