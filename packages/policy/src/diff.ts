import type { Policy, ReplacedRule, Rule, Span } from './model.js';

/** What differs between two rules of one id, each as the name of what it is about. */
export type RuleDifference =
  | 'title'
  | 'effect'
  | 'activity'
  | 'scope'
  | 'beginning'
  | 'start'
  | 'condition'
  | 'stop'
  | 'length'
  | 'reading of unknown facts'
  | 'lead'
  | 'minimum spacing'
  | 'priority'
  | 'participants'
  | 'sources'
  | 'notes'
  | 'work';

/** A rule that stands in both policies, and not the same. */
export interface ChangedRule {
  readonly id: string;
  readonly before: Rule;
  readonly after: Rule;
  readonly differences: readonly RuleDifference[];
}

/** What has to be done to the first policy to get the second. All lists are in the order of the rules’ ids. */
export interface PolicyDiff {
  readonly added: readonly Rule[];
  /** Not in the second, and no layer of the second switches it off. */
  readonly removed: readonly Rule[];
  readonly switchedOff: readonly { readonly rule: Rule; readonly by: ReplacedRule }[];
  readonly changed: readonly ChangedRule[];
  /** How many rules ask for the same in both. */
  readonly same: number;
  /** When a laboratory result is stale, where that differs. */
  readonly labStaleAfter?: { readonly before: Span; readonly after: Span };
}

const parts: readonly (readonly [RuleDifference, (rule: Rule) => unknown])[] = [
  ['title', ({ title }) => title],
  ['effect', ({ effect }) => effect],
  ['activity', ({ activity }) => activity],
  ['scope', ({ scopes }) => [...scopes].sort()],
  ['beginning', ({ begins }) => begins],
  ['start', ({ start }) => start?.meaning],
  ['condition', ({ applicability }) => applicability.meaning],
  ['stop', ({ stop }) => stop?.meaning],
  ['length', ({ lasts }) => lasts],
  ['reading of unknown facts', ({ whenUnknown }) => whenUnknown],
  ['lead', ({ lead }) => lead],
  ['minimum spacing', ({ minimumSpacing }) => minimumSpacing],
  ['priority', ({ priority }) => priority],
  ['participants', ({ participants }) => participants],
  ['sources', ({ citations }) => citations],
  ['notes', ({ notes }) => notes],
  ['work', ({ work }) => work],
];

/**
 * What differs between two rules, in a fixed order; where they were written is no difference.
 * @example
 * ```ts
 * const [rule] = defaultPolicy().rules;
 * rule && ruleDifferences(rule, { ...rule, title: 'Another title' }); // [ 'title' ]
 * ```
 */
export function ruleDifferences(before: Rule, after: Rule): readonly RuleDifference[] {
  return parts.flatMap(([name, part]) => (said(part(before)) === said(part(after)) ? [] : [name]));
}

const inWords: ReadonlySet<RuleDifference> = new Set<RuleDifference>([
  'title',
  'participants',
  'sources',
  'notes',
  'work',
]);

/**
 * Whether two rules ask for the same activity, or forbid it, at the same times; who does it, words, sources and supplies may differ.
 * @example
 * ```ts
 * const [rule] = defaultPolicy().rules;
 * rule && asksTheSame(rule, { ...rule }); // true
 * ```
 */
export function asksTheSame(a: Rule, b: Rule): boolean {
  return ruleDifferences(a, b).every((name) => inWords.has(name));
}

/** A value as text that is the same for the same value, whatever the order of its members. */
function said(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(said).join()}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'undefined';
  const members = Object.entries(value)
    .filter(([, member]) => member !== undefined)
    .map(([name, member]) => `${JSON.stringify(name)}:${said(member)}`);
  return `{${members.sort().join()}}`;
}

/**
 * Compares two policies rule by rule, by the rules’ ids. Where a rule was written (its layer) is no difference; of a
 * policy over time the stretch that its newest version opens is compared.
 * @example
 * ```ts
 * const wider = readPolicy([...defaultPlans(), bundledPlan('neutropenia')]);
 * wider.ok && diffPolicies(defaultPolicy(), wider.policy).added.length > 0; // true
 * ```
 */
export function diffPolicies(a: Policy, b: Policy): PolicyDiff {
  const [before, after] = [byId(a), byId(b)];
  const offs = new Map(
    (b.replaced ?? []).filter(({ how }) => how === 'switched-off').map((one) => [one.id, one]),
  );
  const gone = a.rules.filter(({ id }) => !after.has(id));
  const changed = a.rules.flatMap((rule): ChangedRule[] => {
    const other = after.get(rule.id);
    const differences = other === undefined ? [] : ruleDifferences(rule, other);
    return other === undefined || differences.length === 0
      ? []
      : [{ id: rule.id, before: rule, after: other, differences }];
  });
  const stale = said(a.labStaleAfter) !== said(b.labStaleAfter);
  return {
    added: b.rules.filter(({ id }) => !before.has(id)),
    removed: gone.filter(({ id }) => !offs.has(id)),
    switchedOff: gone.flatMap((rule) => {
      const by = offs.get(rule.id);
      return by === undefined ? [] : [{ rule, by }];
    }),
    changed,
    same: a.rules.length - gone.length - changed.length,
    ...(stale ? { labStaleAfter: { before: a.labStaleAfter, after: b.labStaleAfter } } : {}),
  };
}

function byId({ rules }: Policy): ReadonlyMap<string, Rule> {
  return new Map(rules.map((rule) => [rule.id, rule]));
}
