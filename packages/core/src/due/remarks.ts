import type { FactName } from '@dwellward/policy';
import type { Calendar } from '../timeline/calendar.js';
import type { Start } from '../rules/starts.js';
import type { Candidate, DueItem, Hold } from '../model/care.js';
import { holdEnds } from '../model/hold-ends.js';
import type { EndOfHold, Remark } from '../model/sentences.js';

/** What a reader has to know of an item beyond its window: every reading that was taken because something is not known. */
export function remarksOf(
  item: DueItem,
  winner: Candidate,
  byUnknown: readonly FactName[],
  start: Start,
  calendar: Calendar,
): Remark[] {
  const remarks: Remark[] = [];
  const { countedFrom, heldBy, dueByUnheld } = item;
  if (countedFrom.imprecise) remarks.push({ code: 'counted-from-start-of', time: countedFrom.imprecise });
  if (countedFrom.basis === 'earliest-event') remarks.push({ code: 'counted-from-earliest-event' });
  if (countedFrom.basis === 'nothing') remarks.push({ code: 'nothing-to-count-from' });
  if (byUnknown.length > 0) remarks.push({ code: 'protective-reading', facts: byUnknown });
  for (const { fact, remark } of item.facts) if (remark) remarks.push({ code: 'of-fact', fact, remark });
  if (winner.appliesSince) remarks.push({ code: 'applies-since', since: winner.appliesSince });
  if (heldBy) {
    const was = dueByUnheld === undefined ? {} : { wasDueBy: dueByUnheld };
    remarks.push({ code: 'held', end: endOfHold(heldBy), title: heldBy.rule.title, ...was });
  }
  if (
    start.ms !== undefined &&
    item.rule.minimumSpacing &&
    calendar.text(calendar.add(start.ms, item.rule.minimumSpacing)) === item.opens
  ) {
    remarks.push({ code: 'opens-after-spacing' });
  }
  return remarks;
}

/** When what a hold forbids may be done again: at a time, or once something was done or seen. */
function endOfHold({ until, rule }: Hold): EndOfHold {
  if (until !== undefined) return { at: until };
  const { acts, findings } = holdEnds(rule);
  const [activity] = acts;
  return activity === undefined ? { findings } : { activity };
}
