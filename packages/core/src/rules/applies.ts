import type { Condition, FactName, Rule } from '@dwellward/policy';
import { changesOf, factsAt, known, type Moment, type Occurrence } from '../facts/facts.js';

/** Whether a rule applies, and the facts that are not known and whose reading makes it so. */
export interface Applicability {
  readonly applies: boolean;
  readonly byUnknown: readonly FactName[];
}

/** Whether a rule applies at a moment: its applicability condition is true of what is known then. */
export function applies(rule: Rule, at: Moment): Applicability {
  return judged(rule, rule.applicability, at);
}

/** Whether an occurrence of its trigger sets a rule going: judged when it occurred, a later value does not undo it. */
export function starts(rule: Rule, at: Moment, began: Occurrence): Applicability {
  if (rule.start === undefined) return { applies: true, byUnknown: [] };
  return judged(rule, rule.start, { ...at, ms: began.ms, began });
}

function judged({ whenUnknown }: Rule, condition: Condition, at: Moment): Applicability {
  const truth = condition.evaluate(factsAt(condition.uses, at));
  if (truth.is === 'unknown') return { applies: whenUnknown === 'protective', byUnknown: truth.missing };
  return { applies: truth.is === 'true', byUnknown: [] };
}

/**
 * When the unbroken run in which the rule applies began; undefined where it has applied from the start.
 * A rule never makes an item due before its condition began to be true.
 * @param afterMs a run that began at or before it need not be traced further back: undefined then too.
 */
export function appliesSince(rule: Rule, at: Moment, afterMs = -Infinity): number | undefined {
  const { uses } = rule.applicability;
  if (uses.length === 0) return undefined;
  let sinceMs: number | undefined;
  for (const change of changesOf(uses, at.timeline, at.staleAfter)) {
    if (!applies(rule, { ...at, ms: change.ms }).applies) return sinceMs;
    sinceMs = change.sinceMs;
    if (sinceMs <= afterMs) return undefined;
  }
  return applies(rule, { ...at, ms: beforeAll }).applies ? undefined : sinceMs;
}

/**
 * When what an occurrence set going was stopped: the first moment at or after it at which the rule’s stop condition is
 * true; Infinity where it is not. What is not known does not stop it, and what was found on a day stops it when that day
 * is over.
 */
export function stoppedMs({ stop }: Rule, at: Moment, began: Occurrence): number {
  if (stop === undefined) return Infinity;
  const moments = changesOf(stop.uses, at.timeline, at.staleAfter).map(({ ms }) => ms);
  if (began.answeredMs !== undefined) moments.push(began.answeredMs);
  for (const ms of [...moments, began.latestMs].sort((a, b) => a - b)) {
    if (ms < began.ms) continue;
    const then = { ...at, ms, began };
    if (stop.evaluate(factsAt(stop.uses, then)).is !== 'true') continue;
    return Math.max(ms, ...stop.uses.map((name) => surelyFoundMs(name, then)));
  }
  return Infinity;
}

function surelyFoundMs(name: FactName, at: Moment): number {
  const { value } = name.startsWith('found.') ? known(name, at) : {};
  return typeof value === 'object' && 'highMs' in value && value.lowMs === at.ms ? value.highMs : -Infinity;
}

// Before anything that a record can tell of, and well within what a calendar can hold.
const beforeAll = -6e13;
