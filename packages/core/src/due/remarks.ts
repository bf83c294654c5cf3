import { factWords, type FactName } from '@dwellward/policy';
import type { Calendar } from '../timeline/calendar.js';
import type { Start } from '../rules/starts.js';
import type { Candidate, DueItem } from '../model/care.js';

/** What a reader has to know of an item beyond its window: every reading that was taken because something is not known. */
export function remarksOf(
  item: DueItem,
  winner: Candidate,
  byUnknown: readonly FactName[],
  start: Start,
  calendar: Calendar,
): string[] {
  const remarks: string[] = [];
  const { countedFrom, heldBy } = item;
  if (countedFrom.imprecise) {
    remarks.push(`Counted from the start of ${countedFrom.imprecise.text}: the record gives no exact time.`);
  }
  if (countedFrom.basis === 'earliest-event') {
    remarks.push('No insertion is on record: counted from the earliest event of the line.');
  }
  if (countedFrom.basis === 'nothing') {
    remarks.push('Nothing is on record to count from: due now.');
  }
  if (byUnknown.length > 0) {
    const words = byUnknown.map((name) => factWords[name]).join(', ');
    remarks.push(`Not known: ${words}. The protective reading is taken.`);
  }
  for (const fact of item.facts) {
    if (fact.remark) remarks.push(`${sentenceCase(factWords[fact.fact])}: ${fact.remark}.`);
  }
  if (winner.appliesSince) {
    remarks.push(`The rule has held since ${winner.appliesSince}.`);
  }
  if (heldBy) {
    const moved = item.dueByUnheld ? ` It was due by ${item.dueByUnheld}.` : '';
    const until = heldBy.until ? `until ${heldBy.until}` : `until ${holdEnd(item)}`;
    remarks.push(`Held ${until} (${heldBy.rule.title}).${moved}`);
  }
  if (
    start.ms !== undefined &&
    item.rule.minimumSpacing &&
    calendar.text(calendar.add(start.ms, item.rule.minimumSpacing)) === item.opens
  ) {
    remarks.push('Opens only when the minimum spacing since the last time has passed.');
  }
  return remarks;
}

function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function holdEnd({ heldBy }: DueItem): string {
  const { acts, findings } = heldBy ? holdEnds(heldBy.rule) : { acts: [], findings: [] };
  if (acts.length > 0) return `the ${acts.join(' or ')} is done`;
  return findings.length > 0 ? `${findings.join(' or ')} shows that it may end` : 'it ends';
}
