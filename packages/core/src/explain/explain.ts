import { timedOf, type Citation, type Policy, type Rule } from '@dwellward/policy';
import { policyOfRule } from '../due/in-force.js';
import type { DueItem, FactUse, LumenState } from '../model/care.js';
import type { Sentence } from '../model/sentences.js';
import type { ExplainSentences } from '../model/sentences/outputs.js';

/** Why an item is due: the rule, where it comes from, the facts it used, and what would change it. */
export interface Explanation {
  /** One sentence for a Task's note. */
  readonly sentence: Sentence<'item-is-due'>;
  readonly rule: {
    readonly id: string;
    readonly title: string;
    readonly schedule: Sentence<'schedule'>;
    /** When it applies; absent where it always does. */
    readonly condition?: Sentence<'condition'>;
    /** The same in FHIRPath, as the policy has it; empty where it always applies. */
    readonly expression: string;
    readonly layer: string;
    readonly plan: string;
  };
  /** What a layer replaced by this rule, the latest last. */
  readonly replaced: readonly {
    readonly title: string;
    readonly schedule: Sentence<'schedule'>;
    readonly layer: string;
    readonly plan: string;
  }[];
  /** Rules of the same activity and target that a layer switched off. */
  readonly switchedOff: readonly {
    readonly id: string;
    readonly title: string;
    readonly schedule: Sentence<'schedule'>;
    readonly by: string;
    readonly notes: readonly string[];
  }[];
  readonly sources: readonly Citation[];
  readonly notes: readonly string[];
  readonly countedFrom: Sentence<'counted-from'>;
  readonly facts: readonly FactUse[];
  /** What its lumen is like; absent where it is not about a lumen, or the states were not given. */
  readonly lumen?: LumenState;
  /** The other rules that applied, most protective first, with the time each alone would give. */
  readonly others: readonly { readonly id: string; readonly title: string; readonly dueBy: string }[];
  readonly remarks: DueItem['remarks'];
  readonly wouldChange: readonly Sentence<keyof ExplainSentences>[];
}

/**
 * Explains an item by the policy it was computed with; of a policy over time, by its version. It decides nothing: all of
 * it is in the item already.
 * @param lumens the states of the line’s lumens at the same moment, as `LineCare` has them.
 * @example
 * ```ts
 * const words = speaker(english, new Calendar(when.zone));
 * const [item] = cares.flatMap(({ items }) => items);
 * item && words(explain(item, policy).sentence).endsWith('.'); // true
 * ```
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
      schedule: scheduleOf(rule),
      ...conditionOf(rule),
      expression: rule.applicability.meaning,
      layer: rule.origin.title,
      plan: planOf(rule),
    },
    replaced: replaced
      .filter(({ id, how }) => id === rule.id && how === 'replaced')
      .map(({ before }) => ({
        title: before.title,
        schedule: scheduleOf(before),
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
        schedule: scheduleOf(before),
        by: by.title,
        notes,
      })),
    sources: rule.citations,
    notes: rule.notes,
    countedFrom: { code: 'counted-from', ...item.countedFrom },
    facts: item.facts,
    ...(lumen ? { lumen } : {}),
    others: item.others.map(({ rule: other, dueBy }) => ({ id: other.id, title: other.title, dueBy })),
    remarks: item.remarks,
    wouldChange: wouldChange(item, policy),
  };
}

function scheduleOf(rule: Rule): Sentence<'schedule'> {
  return { code: 'schedule', schedule: timedOf(rule) };
}

/** When a rule applies, to be said. */
function conditionOf({ applicability: { meaning, description } }: Rule): {
  readonly condition?: Sentence<'condition'>;
} {
  if (meaning === '') return {};
  return { condition: { code: 'condition', meaning, ...(description === undefined ? {} : { description }) } };
}

/**
 * The canonical of the plan that a rule stands in, with its version: `url|version`.
 * @example
 * ```ts
 * planOf(policy.rules[0]!); // 'https://dwellward.example/fhir/PlanDefinition/base|0.1.0'
 * ```
 */
export function planOf(rule: Rule): string {
  return rule.origin.version ? `${rule.origin.url}|${rule.origin.version}` : rule.origin.url;
}

/**
 * The rule by url, version and action id.
 * @example
 * ```ts
 * ruleUri(policy.rules[0]!).startsWith(planOf(policy.rules[0]!)); // true
 * ```
 */
export function ruleUri(rule: Rule): string {
  return rule.origin.order ? rule.origin.order : `${planOf(rule)}#${rule.id}`;
}

function sentenceOf({ rule, countedFrom, movedBy, dueBy, remarks }: DueItem): Sentence<'item-is-due'> {
  const source = rule.citations[0]?.text;
  return {
    code: 'item-is-due',
    title: rule.title,
    schedule: timedOf(rule),
    countedFrom,
    movedBy: movedBy.filter((ref) => ref !== countedFrom.ref),
    dueBy,
    remarks,
    ...(source === undefined ? {} : { source }),
  };
}

function wouldChange(item: DueItem, policy: Policy): Explanation['wouldChange'] {
  const { rule, others, target } = item;
  const changes: Explanation['wouldChange'][number][] = [
    { code: 'done-it-is-met', activity: item.activity, target: target.name },
  ];
  const applied = new Set([rule.id, ...others.map(({ rule: other }) => other.id)]);
  const [next] = others;
  if (rule.applicability.meaning !== '' || rule.begins.kind === 'triggered') {
    changes.push({
      code: 'without-the-rule',
      title: rule.title,
      ...conditionOf(rule),
      ...(next ? { next: { title: next.rule.title, dueBy: next.dueBy } } : {}),
    });
  }
  for (const other of policy.rules) {
    if (other.activity !== item.activity || !other.scopes.includes(target.scope)) continue;
    if (other.effect === 'forbid' || other.begins.kind === 'planned' || applied.has(other.id)) continue;
    changes.push({
      code: 'would-come-in',
      title: other.title,
      ...conditionOf(other),
      schedule: timedOf(other),
    });
  }
  if (item.heldBy) changes.push({ code: 'when-the-hold-ends', title: item.heldBy.rule.title });
  return changes;
}
