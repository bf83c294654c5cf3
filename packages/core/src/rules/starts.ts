import type { Rule } from '@dwellward/policy';
import type { CountedFrom, Target } from '../model/care.js';
import type { Timed } from '../timeline/timed.js';
import { eventsOn, type Timeline } from '../timeline/timeline.js';
import type { CareEvent, RecordedTime, Ref } from '../model/record.js';

/** What an interval counts from: the last time it was done, else the insertion, else the earliest sign of the line. */
export interface Start {
  readonly ms?: number;
  readonly countedFrom: CountedFrom;
  readonly last?: Timed<CareEvent>;
}

/** The start of the open cycle of an activity on a target. */
export function startOf(timeline: Timeline, rule: Pick<Rule, 'activity'>, target: Target): Start {
  const last = eventsOn(timeline, rule.activity, target).at(-1);
  if (last) return { ms: last.ms, last, countedFrom: countedFrom(timeline, 'event', last.fact.ref, last) };
  const { insertion, earliest } = timeline;
  if (insertion)
    return {
      ms: insertion.ms,
      countedFrom: countedFrom(timeline, 'insertion', insertion.fact.ref, insertion),
    };
  if (earliest)
    return { ms: earliest.ms, countedFrom: countedFrom(timeline, 'earliest-event', earliest.ref, earliest) };
  return { countedFrom: { basis: 'nothing' } };
}

/** When a window opens by the rule’s lead, or by a quarter of its interval where it states none. */
export function leadStart(
  { lead }: Pick<Rule, 'lead'>,
  dueByMs: number,
  intervalMs: number,
  { calendar }: Timeline,
): number {
  return lead ? calendar.add(dueByMs, lead, -1) : dueByMs - Math.floor(intervalMs / 4);
}

/** What an item counts from, as the answer says it. */
export function countedFrom(
  { calendar }: Timeline,
  basis: CountedFrom['basis'],
  ref: Ref,
  time: { readonly ms: number; readonly imprecise?: RecordedTime },
): CountedFrom {
  return { basis, ref, at: calendar.text(time.ms), ...(time.imprecise ? { imprecise: time.imprecise } : {}) };
}
