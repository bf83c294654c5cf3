import type { Priority, Rule } from '@dwellward/policy';
import type { DueItem } from '../model/care.js';

/** Whether one of the rules that apply is an emergency: a routine rule that is due earlier doesn’t make it any less of one. */
export function isEmergency(rules: readonly Pick<Rule, 'priority'>[]): boolean {
  return rules.some(({ priority }) => priority === 'stat');
}

/**
 * The priority of an item: the most pressing of its rule and the others that apply.
 * @example
 * ```ts
 * cares.flatMap((care) => care.items).every((item) => ['routine', 'urgent', 'asap', 'stat'].includes(priorityOf(item))); // true
 * ```
 */
export function priorityOf({ rule, others }: Pick<DueItem, 'rule' | 'others'>): Priority {
  return others
    .map((other) => other.rule.priority)
    .reduce((most, one) => (pressing[one] < pressing[most] ? one : most), rule.priority);
}

/** How pressing a priority is: FHIR’s request-priority, the most pressing first. */
export const pressing: Readonly<Record<Priority, number>> = { stat: 0, asap: 1, urgent: 2, routine: 3 };
