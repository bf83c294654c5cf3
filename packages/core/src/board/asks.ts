// What is asked with an act that is recorded: by the tables of activities and findings, which name what tells of what.
import {
  activityRow,
  dressingTypes,
  findingRow,
  findingsWhere,
  valuesOf,
  type LineCareActivity,
  type LineFinding,
} from '@dwellward/profiles';
import type { Target } from '../model/care.js';
import type { Say } from '../words/say.js';
import type { BoardAsk, BoardChoice, Recordable } from './model.js';

/** An act on one target. */
export interface Act {
  readonly id: string;
  readonly activity: LineCareActivity;
  readonly target: Target;
}

/** Acts as they are recorded together, those of one activity after each other. */
export function recordableOf(text: string, acts: readonly Act[], say: Say): Recordable {
  const activities = [...new Set(acts.map(({ activity }) => activity))];
  const parts = activities.map((activity) => ({
    activity,
    name: say({ code: 'activity', activity }),
    putsDressingOn: activityRow(activity).putsDressingOn !== undefined,
    targets: acts
      .filter((act) => act.activity === activity)
      .map(({ id, target: { scope, ref, device, name } }) => ({
        scope,
        ref,
        device,
        name: say({ code: 'short-name', of: name }),
        id,
      })),
  }));
  return {
    text,
    parts,
    asks: asksOf(acts, say),
    dressings: parts.some(({ putsDressingOn }) => putsDressingOn) ? dressingsOf(say) : [],
  };
}

/** What may be said of one finding, seen on a target. */
export function askOf(finding: LineFinding, of: string, { name }: Pick<Target, 'name'>, say: Say): BoardAsk {
  const { kind, unit } = findingRow(finding);
  const kinds = {
    coded: 'one',
    components: 'several',
    presence: 'yes-or-no',
    boolean: 'yes-or-no',
    quantity: 'amount',
  } as const;
  return {
    finding,
    name: say({ code: 'finding', finding }),
    of,
    on: say({ code: 'short-name', of: name }),
    kind: kinds[kind],
    choices: (valuesOf(finding) ?? []).map((value) => choiceOf(finding, value, say)),
    ...(kind === 'quantity' && unit !== undefined
      ? { unitText: say({ code: 'amount', value: '', unit }) }
      : {}),
  };
}

/** One value of a finding as it is chosen. */
export function choiceOf(finding: LineFinding, value: string, say: Say): BoardChoice {
  return { value, name: say({ code: 'finding-value', finding, value }) };
}

function dressingsOf(say: Say): BoardChoice[] {
  return dressingTypes.map(([dressing]) => ({
    value: dressing,
    name: say({ code: 'dressing-is', dressing }),
  }));
}

/** What is asked with acts: of each lumen by itself, and nothing twice. */
function asksOf(acts: readonly Act[], say: Say): BoardAsk[] {
  const asked = new Set<string>();
  return acts.flatMap((act) =>
    askedWith(act).flatMap((finding): BoardAsk[] => {
      const key = `${finding} ${act.target.ref}`;
      if (asked.has(key)) return [];
      asked.add(key);
      return [askOf(finding, act.id, act.target, say)];
    }),
  );
}

/**
 * What tells whether a lumen is open is seen with every act through it. What is measured of the line is measured when the
 * dressing is off (INS 2016, 2021: external length at every dressing change, from memory), and with its own look.
 */
function askedWith({ activity, target }: Act): readonly LineFinding[] {
  const { throughLumen, putsDressingOn } = activityRow(activity);
  return findingsWhere(({ toldBy, tellsPatency, kind, scope }) => {
    if (toldBy === activity) return true;
    if (target.scope === 'lumen') return tellsPatency === true && throughLumen === true;
    return putsDressingOn === 'always' && kind === 'quantity' && scope === 'line' && toldBy !== undefined;
  });
}
