import { remarkTexts } from '../words/interim.js';
import { scheduleText, type Citation, type Policy, type Rule } from '@dwellward/policy';
import { displayOf } from '@dwellward/profiles';
import { policyOfRule } from '../due/in-force.js';
import type { CountedFrom, DueItem, FactUse, LumenState } from '../model/care.js';

/** Why an item is due: the rule, where it comes from, the facts it used, and what would change it. */
export interface Explanation {
  /** One sentence for a Task's note. */
  readonly sentence: string;
  readonly rule: {
    readonly id: string;
    readonly title: string;
    readonly schedule: string;
    /** FHIRPath; empty where it always holds. */
    readonly condition: string;
    readonly layer: string;
    readonly plan: string;
  };
  /** What a layer replaced by this rule, the latest last. */
  readonly replaced: readonly {
    readonly title: string;
    readonly schedule: string;
    readonly layer: string;
    readonly plan: string;
  }[];
  /** Rules of the same activity and target that a layer switched off. */
  readonly switchedOff: readonly {
    readonly id: string;
    readonly title: string;
    readonly schedule: string;
    readonly by: string;
    readonly notes: readonly string[];
  }[];
  readonly sources: readonly Citation[];
  readonly notes: readonly string[];
  readonly countedFrom: string;
  readonly facts: readonly FactUse[];
  /** What its lumen is like; absent where it is not about a lumen, or the states were not given. */
  readonly lumen?: LumenState;
  /** The other rules that held, most protective first, with the time each alone would give. */
  readonly others: readonly { readonly id: string; readonly title: string; readonly dueBy: string }[];
  readonly remarks: readonly string[];
  readonly wouldChange: readonly string[];
}

/**
 * Explains an item by the policy it was computed with; of a policy over time, by its version. It decides nothing: all of
 * it is in the item already.
 * @param lumens the states of the line’s lumens at the same moment, as `LineCare` has them.
 */
export function explain(item: DueItem, given: Policy, lumens: readonly LumenState[] = []): Explanation {
  const lumen =
    item.target.scope === 'lumen' ? lumens.find((one) => one.lumen === item.target.ref) : undefined;
  const { rule } = item;
  const policy = policyOfRule(given, rule);
  const replaced = policy.replaced ?? [];
  return {
    sentence: sentenceOf(item),
    rule: {
      id: rule.id,
      title: rule.title,
      schedule: scheduleText(rule),
      condition: rule.applicability.text,
      layer: rule.origin.title,
      plan: planOf(rule),
    },
    replaced: replaced
      .filter(({ id, how }) => id === rule.id && how === 'replaced')
      .map(({ before }) => ({
        title: before.title,
        schedule: scheduleText(before),
        layer: before.origin.title,
        plan: planOf(before),
      })),
    switchedOff: replaced
      .filter(
        ({ how, id, before }) =>
          how === 'switched-off' &&
          before.activity === item.activity &&
          before.scopes.includes(item.target.scope) &&
          !policy.rules.some((other) => other.id === id),
      )
      .map(({ id, before, by, notes }) => ({
        id,
        title: before.title,
        schedule: scheduleText(before),
        by: by.title,
        notes,
      })),
    sources: rule.citations,
    notes: rule.notes,
    countedFrom: countedFromText(item.countedFrom),
    facts: item.facts,
    ...(lumen ? { lumen } : {}),
    others: item.others.map(({ rule: other, dueBy }) => ({ id: other.id, title: other.title, dueBy })),
    remarks: remarkTexts(item.remarks),
    wouldChange: wouldChange(item, policy),
  };
}

/** The canonical of the plan that a rule stands in, with its version: `url|version`. */
export function planOf(rule: Rule): string {
  return rule.origin.version ? `${rule.origin.url}|${rule.origin.version}` : rule.origin.url;
}

/** The rule by url, version and action id. */
export function ruleUri(rule: Rule): string {
  return rule.origin.order ? rule.origin.order : `${planOf(rule)}#${rule.id}`;
}

function sentenceOf(item: DueItem): string {
  const { rule } = item;
  const source = rule.citations[0];
  const movers = item.movedBy.filter((ref) => ref !== item.countedFrom.ref);
  const moved = movers.length > 0 ? `, moved by ${movers.join(', ')}` : '';
  const remarks = item.remarks.length > 0 ? ` ${remarkTexts(item.remarks).join(' ')}` : '';
  const cited = source ? ` Source: ${source.text.replace(/\.$/, '')}.` : '';
  // With nothing to count from it is due whenever it is looked at; a time here would change at every look.
  const due = item.countedFrom.basis === 'nothing' ? 'due now' : `due by ${item.dueBy}`;
  return `${rule.title} (${scheduleText(rule)}), ${countedFromText(item.countedFrom)}${moved}: ${due}.${remarks}${cited}`;
}

const basisTexts: Readonly<Record<CountedFrom['basis'], string>> = {
  event: 'counted from the last time',
  insertion: 'counted from the insertion',
  'earliest-event': 'counted from the earliest event on record',
  finding: 'since the finding',
  'chain-event': 'counted from the event before it',
  condition: 'since the rule has applied',
  plan: 'counted back from the planned time',
  nothing: 'with nothing on record to count from',
};

function countedFromText({ basis, ref, at, imprecise }: CountedFrom): string {
  const when = imprecise ? `${imprecise.text}, no exact time` : at;
  return `${basisTexts[basis]}${when ? ` on ${when}` : ''}${ref ? ` (${ref})` : ''}`;
}

function wouldChange(item: DueItem, policy: Policy): string[] {
  const { rule, others } = item;
  const changes: string[] = [];
  const activity = displayOf('lineCareActivity', item.activity);
  changes.push(
    `${activity} charted as completed on ${item.target.name}: this item is met and the next one counts from there.`,
  );
  const applied = new Set([rule.id, ...others.map(({ rule: other }) => other.id)]);
  const [next] = others;
  if (rule.applicability.text !== '' || rule.begins.kind === 'triggered') {
    const otherwise = next
      ? `“${next.rule.title}” would have it due by ${next.dueBy}`
      : 'no other rule would ask for it now';
    changes.push(
      `Without “${rule.title}”${rule.applicability.text ? ` (applies while ${rule.applicability.text})` : ''}: ${otherwise}.`,
    );
  }
  for (const other of policy.rules) {
    if (other.activity !== item.activity || !other.scopes.includes(item.target.scope)) continue;
    if (other.effect === 'forbid' || other.begins.kind === 'planned' || applied.has(other.id)) continue;
    const when = other.applicability.text ? `if ${other.applicability.text}: ` : '';
    changes.push(`“${other.title}” would come in ${when}${scheduleText(other)}.`);
  }
  if (item.heldBy) changes.push(`When the hold “${item.heldBy.rule.title}” ends, it may be done.`);
  return changes;
}
