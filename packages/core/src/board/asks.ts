// What is asked with an act that is recorded: by the tables of activities and findings, which name what tells of what.
import {
  activityRow,
  dressingTypes,
  findingRow,
  findingsWhere,
  valuesOf,
  type LineFinding,
} from '@dwellward/profiles';
import type { DueItem } from '../model/care.js';
import type { Say } from '../words/say.js';
import type { BoardAsk, BoardChoice } from './model.js';

/** One value of a finding as it is chosen. */
export function choiceOf(finding: LineFinding, value: string, say: Say): BoardChoice {
  return { value, name: say({ code: 'finding-value', finding, value }) };
}

/** What may have been put on. */
export function dressingsOf(say: Say): BoardChoice[] {
  return dressingTypes.map(([dressing]) => ({
    value: dressing,
    name: say({ code: 'dressing-is', dressing }),
  }));
}

/** What is asked with the acts of a row: of each lumen by itself, and nothing twice. */
export function asksOf(items: readonly DueItem[], say: Say): BoardAsk[] {
  const asked = new Set<string>();
  return items.flatMap((item) =>
    askedWith(item).flatMap((finding): BoardAsk[] => {
      const key = `${finding} ${item.target.ref}`;
      if (asked.has(key)) return [];
      asked.add(key);
      const { kind, unit } = findingRow(finding);
      return [
        {
          finding,
          name: say({ code: 'finding', finding }),
          of: item.id,
          on: say({ code: 'short-name', of: item.target.name }),
          several: kind === 'components',
          choices: (valuesOf(finding) ?? []).map((value) => choiceOf(finding, value, say)),
          ...(kind === 'quantity' && unit !== undefined ? { unit } : {}),
        },
      ];
    }),
  );
}

/**
 * What tells whether a lumen is open is seen with every act through it. What is measured of the line is measured when the
 * dressing is off (INS 2016, 2021: external length at every dressing change, from memory), and with its own look.
 */
function askedWith({ activity, target }: DueItem): readonly LineFinding[] {
  const { namesLumen, throughLumen, putsDressingOn } = activityRow(activity);
  return findingsWhere(({ toldBy, tellsPatency, kind, scope }) => {
    if (toldBy === activity) return true;
    if (target.scope === 'lumen')
      return tellsPatency === true && namesLumen === true && throughLumen === true;
    return putsDressingOn === 'always' && kind === 'quantity' && scope === 'line' && toldBy !== undefined;
  });
}
