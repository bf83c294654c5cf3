import { activityRow } from '@dwellward/profiles';
import type { DueItem } from '../model/care.js';
import { digest } from '../model/digest.js';
import { instantMs } from '../timeline/calendar.js';
import { compareText } from '../timeline/timeline.js';

/**
 * What is done in one visit: items of a line whose activities the table puts together (flush and lock of its lumens; the
 * dressing with what is renewed and measured with it), where one may be done by the time that the first of them is due.
 * What is held makes no visit with what is not. Care of the patient as a whole is one visit with that of the other lines
 * that follows from the same. The items stay items: a visit is what people read, and are called to, once.
 */
export function inVisits(items: readonly DueItem[], asOfMs: number): DueItem[] {
  const visitOf = new Map<DueItem, string>();
  const kinds = new Map<string, DueItem[]>();
  for (const item of items) {
    const { visit, ofPatient } = activityRow(item.activity);
    if (ofPatient)
      visitOf.set(item, digest('visit', item.activity, item.patient, item.countedFrom.ref ?? ''));
    if (visit === undefined) continue;
    const key = [visit, item.state === 'held', item.heldBy?.id ?? ''].join('\u0000');
    kinds.set(key, [...(kinds.get(key) ?? []), item]);
  }
  for (const [kind, own] of kinds)
    for (const visit of together(own, asOfMs)) {
      const [first, ...others] = visit;
      if (first === undefined || others.length === 0) continue;
      const id = digest('visit', kind, ...visit.map((item) => item.id).sort(compareText));
      for (const item of visit) visitOf.set(item, id);
    }
  return items.map((item) => {
    const visit = visitOf.get(item);
    return visit === undefined ? item : { ...item, visit };
  });
}

/** In the order of time: each visit begins with the first that is due, and has what may be done by then. */
function together(items: readonly DueItem[], asOfMs: number): DueItem[][] {
  const visits: { readonly byMs: number; readonly items: DueItem[] }[] = [];
  for (const item of [...items].sort(byTurn)) {
    const last = visits.at(-1);
    if (last && instantMs(item.opens) <= last.byMs) last.items.push(item);
    else visits.push({ byMs: Math.max(asOfMs, instantMs(item.dueBy)), items: [item] });
  }
  return visits.map((visit) => visit.items);
}

/** By the time they are due, then as they follow each other: a lumen is flushed before it is locked. */
export function byTurn(a: DueItem, b: DueItem): number {
  const turn = ({ activity }: DueItem) => activityRow(activity).turn ?? Infinity;
  return (
    instantMs(a.dueBy) - instantMs(b.dueBy) ||
    (turn(a) === turn(b) ? 0 : turn(a) - turn(b)) ||
    compareText(a.activity, b.activity) ||
    compareText(a.target.ref, b.target.ref) ||
    compareText(a.id, b.id)
  );
}

/**
 * Items as people read them: those of one visit in one row, and those that are alike; in the order of the items given.
 * @param alikeKey what items without a visit have in common that are one row.
 */
export function rowsOf<Item extends { readonly visit?: string | undefined }>(
  items: readonly Item[],
  alikeKey: (item: Item) => string,
): (readonly [Item, ...Item[]])[] {
  const rows = new Map<string, [Item, ...Item[]]>();
  for (const item of items) {
    const key = item.visit ?? alikeKey(item);
    const row = rows.get(key);
    if (row) row.push(item);
    else rows.set(key, [item]);
  }
  return [...rows.values()];
}
