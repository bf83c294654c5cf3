import { policyExtension } from '@dwellward/profiles';
import type { Condition, ConditionKind } from './condition.js';
import { always, compileCondition } from './condition-compile.js';
import { elementsOf } from './json.js';
import type { NamedExpressions } from './named-expressions.js';
import type { Placed, WholeAction } from './read-group.js';
import type { Settings } from './read-settings.js';
import type { ConditionElement } from './shapes.js';

/** The conditions of a rule, by what they are for. */
export interface Conditions {
  readonly start?: Condition;
  readonly applicability: Condition;
  readonly stop?: Condition;
}

const kinds: readonly ConditionKind[] = ['applicability', 'start', 'stop'];

/** Reads the conditions of an action: those of one kind are joined by `and`. Undefined where one is wrong. */
export function readConditions(
  whole: WholeAction,
  { scopes }: Settings,
  named: NamedExpressions,
): Conditions | undefined {
  const before = whole.findings.errors;
  const read = whole.conditions.flatMap((one) => {
    const kind = kinds.find((known) => known === one.value.kind);
    if (kind === undefined) {
      one.at.error(
        'kind',
        'condition-kind',
        `${one.value.kind} can’t be kept`,
        `Use one of: ${kinds.join(', ')}.`,
      );
      return [];
    }
    const text = textOf(one);
    return text === undefined ? [] : [{ kind, text, at: one.at }];
  });
  const usable = read.map(({ text }) => named.use(text));
  if (whole.findings.errors > before || usable.includes(false)) return undefined;
  const compiled = new Map<ConditionKind, Condition>();
  for (const kind of kinds) {
    const ofKind = read.filter((one) => one.kind === kind);
    if (ofKind.length === 0) continue;
    const reading = compileCondition(
      ofKind.map(({ text }) => text),
      { kind, named: named.texts },
    );
    if (reading.ok) compiled.set(kind, reading.condition);
    else {
      for (const { expression, code, message, cure } of reading.problems)
        (ofKind[expression]?.at ?? whole.findings).error('expression.expression', code, message, cure);
    }
  }
  reportLumenFacts([...compiled.values()], scopes, whole);
  if (whole.findings.errors > before) return undefined;
  const [start, stop] = [compiled.get('start'), compiled.get('stop')];
  return {
    applicability: compiled.get('applicability') ?? always,
    ...(start === undefined ? {} : { start }),
    ...(stop === undefined ? {} : { stop }),
  };
}

/** The text of a condition; undefined where it has none that can be read, which is said. */
function textOf({ value: { expression, ...others }, at }: Placed<ConditionElement>): string | undefined {
  for (const key of elementsOf(others)) {
    if (key === 'modifierExtension')
      at.error(key, 'unknown-modifier', 'its meaning is not known', 'Leave it out.');
    else if (key !== 'kind' && key !== 'id')
      at.warning(key, 'unused-element', 'is not used', 'Leave it out.');
  }
  for (const key of elementsOf(expression ?? {})) {
    if (!['id', 'name', 'description', 'language', 'expression'].includes(key))
      at.at('expression').warning(key, 'unused-element', 'is not used', 'Leave it out.');
  }
  if (expression?.language !== 'text/fhirpath') {
    return at.error(
      'expression.language',
      'not-fhirpath',
      `${expression?.language ?? 'nothing'} can’t be read`,
      'Write the condition in text/fhirpath.',
    );
  }
  if (expression.expression === undefined) {
    return at.error(
      'expression.expression',
      'empty-condition',
      'is missing',
      'Write the condition itself, not a reference to it.',
    );
  }
  return expression.expression;
}

function reportLumenFacts(
  conditions: readonly Condition[],
  scopes: Settings['scopes'],
  { findings }: WholeAction,
): void {
  if (scopes.includes('lumen')) return;
  const facts = [...new Set(conditions.flatMap(({ uses }) => uses))].filter((name) =>
    name.startsWith('lumen.'),
  );
  if (facts.length === 0) return;
  findings.error(
    'condition',
    'lumen-fact',
    `%${facts.join(', %')} is never known of a rule whose scope is ${scopes.join(' and ')}`,
    `Give the action the extension ${policyExtension.ruleScope} with valueCode lumen.`,
  );
}
