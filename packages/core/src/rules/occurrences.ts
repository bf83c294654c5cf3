import { findingRow } from '@dwellward/profiles';
import type { FactName, Rule, Trigger } from '@dwellward/policy';
import type { Moment, Occurrence } from '../facts/facts.js';
import { answeredMs } from '../timeline/damage.js';
import { targetsOf } from '../timeline/targets.js';
import { eventsOn, findingsOn, shows, type Timeline } from '../timeline/timeline.js';
import type { Target } from '../model/care.js';
import type { Ref } from '../model/record.js';
import { starts, stoppedMs } from './applies.js';

/** An occurrence of a rule’s trigger that set it going. */
export interface Begun {
  readonly occurrence: Occurrence;
  /** When its stop condition became true; Infinity while it is not. */
  readonly stopMs: number;
  /** The facts by whose protective reading it set the rule going. */
  readonly byUnknown: readonly FactName[];
}

/** Every occurrence that set a rule going on a target, in the order of time. */
export function begunOn(rule: Rule, at: Moment): Begun[] {
  const { begins } = rule;
  if (begins.kind !== 'triggered') return [];
  return begins.by
    .flatMap((trigger) => occurrencesOf(trigger, at))
    .filter(({ fact }) => concerns(rule, fact, at))
    .flatMap((occurrence) => {
      const { applies, byUnknown } = starts(rule, at, occurrence);
      return applies ? [{ occurrence, stopMs: stoppedMs(rule, at, occurrence), byUnknown }] : [];
    })
    .sort(
      (a, b) => a.occurrence.ms - b.occurrence.ms || (a.occurrence.fact.ref < b.occurrence.fact.ref ? -1 : 1),
    );
}

/** The trigger’s occurrences on a target, each with the lumen that it names. */
function occurrencesOf(
  trigger: Trigger,
  { timeline, target }: Moment,
): (Occurrence & { readonly fact: { readonly lumen?: Ref } })[] {
  if (trigger.kind === 'event')
    return eventsOn(timeline, trigger.activity, target).map((one) => ({ ...one, of: 'event' as const }));
  return findingsOn(timeline, trigger.finding, target)
    .filter(({ fact }) => shows(fact, trigger.values))
    .map((one) => {
      const answered = answeredMs(timeline, one);
      const answeredBy = findingRow(trigger.finding).answeredBy;
      return {
        ...one,
        of: 'finding' as const,
        ...(answeredBy === undefined ? {} : { answeredBy }),
        ...(answered === undefined ? {} : { answeredMs: answered }),
      };
    });
}

/**
 * A rule of both line and lumen concerns the part that its trigger names: what names one of several lumens concerns that
 * lumen, and the line only what names none.
 */
function concerns({ scopes }: Rule, { lumen }: { readonly lumen?: string }, { timeline, target }: Moment) {
  if (target.scope !== 'line' || !scopes.includes('lumen')) return true;
  const { lumens } = timeline.line;
  return lumens.length < 2 || !lumens.some(({ ref }) => ref === lumen);
}

/**
 * What a rule is about: a target for each of its scopes. Of a line with one lumen the line and its lumen are one: care
 * that is asked of both is that of the lumen, and what is forbidden on both is forbidden on the line.
 */
export function targetsOfRule({ scopes, effect }: Rule, { line }: Timeline): Target[] {
  const both = scopes.includes('line') && scopes.includes('lumen') && line.lumens.length === 1;
  const left = effect === 'ask' ? 'line' : 'lumen';
  return scopes.filter((scope) => !both || scope !== left).flatMap((scope) => targetsOf(line, scope));
}
