// What stands in one row, and which row stands first: the same in the table of a terminal and on the unit's board.
import { timedOf } from '@dwellward/policy';
import type { DueState, LineCareActivity } from '@dwellward/profiles';
import { isUnknown } from '../due/unknowns.js';
import { rowsOf } from '../due/visits.js';
import type { AsOf, DueItem, LineCare } from '../model/care.js';
import type { LineRecord, Ref } from '../model/record.js';
import type { Name, Sentence } from '../model/sentences.js';
import { repairsOn } from '../repair/repair-judgement.js';
import { pressing, priorityOf } from '../rules/priority.js';
import { instantMs } from '../timeline/calendar.js';
import { compareText } from '../timeline/timeline.js';
import { nameKey } from '../words/keys.js';
import { questionsInShort } from '../words/questions.js';
import type { Say } from '../words/say.js';

const order: Readonly<Record<DueState, number>> = { overdue: 0, due: 1, held: 2, upcoming: 3 };

/** A line's care with its items in the order of urgency. */
export interface Row {
  readonly care: LineCare;
  readonly line: LineRecord | undefined;
  readonly items: readonly Sorted[];
}

export interface Sorted {
  readonly item: DueItem;
  readonly opensMs: number;
  readonly dueMs: number;
}

export function sorted(item: DueItem): Sorted {
  return { item, opensMs: instantMs(item.opens), dueMs: instantMs(item.dueBy) };
}

export function compareRows(a: Row, b: Row): number {
  const [x, y] = [a.items[0], b.items[0]];
  const urgency = x && y ? compareItems(x, y) : Number(!x) - Number(!y);
  return urgency || compareText(a.care.line, b.care.line);
}

export function isEmergency(item: DueItem): boolean {
  return priorityOf(item) === 'stat';
}

/** Emergencies first; of what may be done now the more pressing; the rest by its state and its time. */
export function compareItems(a: Sorted, b: Sorted): number {
  const emergency = Number(isEmergency(b.item)) - Number(isEmergency(a.item));
  const rank = ({ item }: Sorted) =>
    item.state === 'overdue' || item.state === 'due' ? pressing[priorityOf(item)] : 4;
  return (
    emergency ||
    rank(a) - rank(b) ||
    order[a.item.state] - order[b.item.state] ||
    a.dueMs - b.dueMs ||
    compareText(a.item.activity, b.item.activity) ||
    compareText(nameKey(a.item.target.name), nameKey(b.item.target.name)) ||
    compareText(a.item.id, b.item.id)
  );
}

export type Group = readonly [Sorted, ...Sorted[]];

/** Items of one activity that differ only in their lumen are one row, and so are those of one visit. */
export function together(items: readonly Sorted[]): Group[] {
  const rows = rowsOf(
    items.map((one) => ({ one, visit: one.item.visit })),
    ({ one }) => alikeKey(one.item),
  );
  return rows.map(([first, ...others]) => [first.one, ...others.map(({ one }) => one)]);
}

function alikeKey({ state, dueBy, activity, rule, remarks, questions }: DueItem): string {
  return JSON.stringify([state, dueBy, activity, rule.id, remarks, questions]);
}

export interface Part {
  readonly activity: LineCareActivity;
  readonly targets: Name[];
}

export function activitiesIn(group: Group): Part[] {
  const parts = new Map<LineCareActivity, Part>();
  for (const {
    item: { activity, target },
  } of group) {
    const part = parts.get(activity) ?? { activity, targets: [] };
    part.targets.push(target.name);
    parts.set(activity, part);
  }
  return [...parts.values()];
}

/** Why an item is asked for, with its own time where its visit has an earlier one; what is not known stands on its line. */
export function whyOf(item: DueItem, later: boolean, say: Say): string[] {
  const { rule, facts, remarks, dueBy } = item;
  const results = facts.filter(
    ({ fact, value }) =>
      fact.startsWith('labs.') && value !== 'unknown' && rule.applicability.uses.includes(fact),
  );
  const title = say({ code: 'rule-and-schedule', title: rule.title, schedule: timedOf(rule) });
  return [
    ...questionsInShort(item).map(say),
    later ? `${title} ${say({ code: 'by-time', at: dueBy })}` : title,
    ...results.map(({ fact, value }) => say({ code: 'result-is', fact, value })),
    ...remarks.filter((remark) => !isUnknown(remark)).map(say),
  ];
}

/** What is to be done in a row: “Urgent: Flush: red, white; Lock: red, white”. */
export function whatIn(group: Group, say: Say): string {
  const priority = priorityOf(group[0].item);
  return activitiesIn(group)
    .map(({ activity, targets }, at) =>
      at === 0
        ? say({ code: 'shift-item', priority, activity, targets, expected: false, missed: false })
        : say({ code: 'activity-on', activity, targets }),
    )
    .join('; ');
}

/** Why a row is to be done: each reason once. */
export function whyIn(group: Group, say: Say): string[] {
  return [...new Set(group.flatMap(({ item, dueMs }) => whyOf(item, dueMs > group[0].dueMs, say)))];
}

/** What is done first in an emergency, or as soon as possible: whoever reads of it needs nothing else. */
export function firstStepsIn(item: DueItem, say: Say): string[] {
  const open = item.state === 'overdue' || item.state === 'due';
  if (!isEmergency(item) && !(open && priorityOf(item) === 'asap')) return [];
  return item.work.flatMap(({ kind, text }) => (kind === 'step' ? [say(text)] : []));
}

export function nameOf(ref: Ref, line: LineRecord | undefined): Name {
  return line?.name ?? { code: 'named', name: ref };
}

/** A line by its name, with its type, its lumens, and its repairs: a repaired segment stays in the line. */
export function lineHead(care: LineCare, line: LineRecord | undefined, when: AsOf): Sentence<'line-with'> {
  return {
    code: 'line-with',
    name: nameOf(care.line, line),
    line: care.line,
    ...(line?.type ? { type: line.type } : {}),
    lumens: line?.lumens.length ?? 1,
    ...(care.plannedFor === undefined ? {} : { plannedFor: care.plannedFor }),
    repairs: (line ? repairsOn(line, when) : []).map(({ at, lumen }) => {
      const name = line?.lumens.find(({ ref }) => ref === lumen)?.name;
      return { at, ...(name ? { lumen: name } : {}) };
    }),
  };
}

/** Lines that are not in place; a plan that was carried out is told by its line, one that has care by its care. */
export function closedLines(
  cares: readonly LineCare[],
  lines: ReadonlyMap<Ref, LineRecord>,
): Sentence<'line-not-in-place'>[] {
  return cares.flatMap(({ line, inPlace, closed, items }) =>
    inPlace ||
    closed === undefined ||
    closed === 'inserted' ||
    (closed === 'not-inserted-yet' && items.length > 0)
      ? []
      : [{ code: 'line-not-in-place', name: nameOf(line, lines.get(line)), line, because: closed }],
  );
}
