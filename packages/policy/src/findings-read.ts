import { findingsWhere, type LineFinding } from '@dwellward/profiles';
import { factSubject, type FactName } from './facts.js';
import type { Policy, Rule } from './model.js';

/** A finding that a rule reads: any value of it, or these alone. */
export interface FindingRead {
  readonly finding: LineFinding;
  readonly values?: readonly string[];
}

/**
 * What a rule reads of findings: by what sets it going, and by its conditions.
 * @example
 * ```ts
 * const rule = defaultPolicy().rules.find(({ id }) => id === 'dressing-change-at-once');
 * rule && findingsReadBy(rule).map(({ finding }) => finding); // [ 'dressing-condition' ]
 * ```
 */
export function findingsReadBy({ begins, applicability, start, stop }: Rule): FindingRead[] {
  const triggers =
    begins.kind === 'triggered'
      ? begins.by.flatMap((one): FindingRead[] =>
          one.kind === 'finding'
            ? [{ finding: one.finding, ...(one.values.length > 0 ? { values: one.values } : {}) }]
            : [],
        )
      : [];
  const uses = [applicability, start, stop].flatMap((condition) => condition?.uses ?? []);
  return [...triggers, ...uses.flatMap(readByFact)];
}

function readByFact(name: FactName): FindingRead[] {
  const subject = factSubject(name);
  if (subject?.group === 'found')
    return [
      { finding: subject.finding, ...(subject.value === undefined ? {} : { values: [subject.value] }) },
    ];
  if (subject?.group === 'latest') return [{ finding: subject.finding }];
  return findingsWhere(({ judgedBy }) => judgedBy === name).map((finding) => ({ finding }));
}

/**
 * Whether one of the rules reads a finding with this value; a finding that has no coded value is read as a whole.
 * @example
 * ```ts
 * readsFinding(defaultPolicy().rules, 'dressing-condition', 'damp'); // true
 * ```
 */
export function readsFinding(rules: Policy['rules'], finding: LineFinding, value?: string): boolean {
  return rules.some((rule) =>
    readOnce(rule).some(
      (one) =>
        one.finding === finding &&
        (one.values === undefined || (value !== undefined && one.values.includes(value))),
    ),
  );
}

// A rule never changes, and is asked of every finding of every line.
const known = new WeakMap<Rule, readonly FindingRead[]>();

function readOnce(rule: Rule): readonly FindingRead[] {
  const found = known.get(rule) ?? findingsReadBy(rule);
  known.set(rule, found);
  return found;
}
