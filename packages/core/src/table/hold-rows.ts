import type { LineCareActivity, LineFinding } from '@dwellward/profiles';
import type { Hold, InstantText } from '../model/care.js';
import { actOfHold, holdEnds } from '../model/hold-ends.js';
import type { Name, Sentence } from '../model/sentences.js';
import { compareText } from '../timeline/timeline.js';
import { nameKey } from '../words/keys.js';

interface HoldRow {
  readonly on?: Name;
  readonly until?: InstantText;
  readonly after?: LineCareActivity;
  readonly findings: Set<LineFinding>;
  readonly activities: Set<LineCareActivity>;
  readonly titles: Set<string>;
}

const inOrder = <Value extends string>(of: ReadonlySet<Value>) => [...of].sort(compareText);

/**
 * Holds of one target and one end as one sentence, in an order of their own.
 * @param several whether the line has several lumens: then a hold says on which.
 */
export function holdRows(holds: readonly Hold[], several: boolean): readonly Sentence<'holds-together'>[] {
  const rows = new Map<string, HoldRow>();
  for (const { activity, until, rule, target } of holds) {
    const after = actOfHold(rule);
    const findings = until === undefined ? holdEnds(rule).findings : [];
    const on = several || target.scope !== 'lumen' ? target.name : undefined;
    const key = [on ? nameKey(on) : '', until ?? '', after ?? ''].join('\u0000');
    const row = rows.get(key) ?? {
      ...(on ? { on } : {}),
      ...(until ? { until } : {}),
      ...(after ? { after } : {}),
      findings: new Set(),
      activities: new Set(),
      titles: new Set(),
    };
    for (const finding of findings) row.findings.add(finding);
    row.activities.add(activity);
    row.titles.add(rule.title);
    rows.set(key, row);
  }
  return [...rows]
    .map(([key, { activities, titles, findings, ...row }]) => ({
      key: [inOrder(activities).join(), key].join('\u0000'),
      sentence: {
        code: 'holds-together',
        ...row,
        activities: inOrder(activities),
        findings: inOrder(findings),
        titles: inOrder(titles),
      } as const,
    }))
    .sort((a, b) => compareText(a.key, b.key))
    .map(({ sentence }) => sentence);
}
