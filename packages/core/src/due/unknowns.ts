import type { FactName } from '@dwellward/policy';
import type { LineCareActivity } from '@dwellward/profiles';
import type { DueItem } from '../model/care.js';
import type { Remark } from '../model/sentences.js';
import { compareText } from '../timeline/timeline.js';

/** What is not known of a line, said once for all the care that is read by it. */
export interface Unknown {
  readonly remark: Remark;
  readonly activities: readonly LineCareActivity[];
}

/** Whether a remark tells of something that is not known: it concerns the line, and not this item alone. */
export function isUnknown({ code }: Remark): boolean {
  return unknowns.has(code);
}

const unknowns: ReadonlySet<Remark['code']> = new Set([
  'protective-reading',
  'nothing-to-count-from',
  'counted-from-earliest-event',
]);

/** The unknowns of a line’s items, each once: the facts that are read protectively are one list. */
export function unknownsOf(items: readonly Pick<DueItem, 'activity' | 'remarks'>[]): Unknown[] {
  const found = new Map<Remark['code'], { activities: Set<LineCareActivity>; facts: Set<FactName> }>();
  for (const { activity, remarks } of items)
    for (const remark of remarks.filter(isUnknown)) {
      const known = found.get(remark.code) ?? { activities: new Set(), facts: new Set() };
      known.activities.add(activity);
      if (remark.code === 'protective-reading') for (const fact of remark.facts) known.facts.add(fact);
      found.set(remark.code, known);
    }
  const inOrder = <Value extends string>(of: ReadonlySet<Value>) => [...of].sort(compareText);
  return [...found].map(([code, { activities, facts }]) => ({
    activities: inOrder(activities),
    remark: code === 'protective-reading' ? { code, facts: inOrder(facts) } : ({ code } as Remark),
  }));
}
