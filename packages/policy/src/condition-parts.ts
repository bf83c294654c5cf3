import type { Condition } from './condition.js';
import { timeOf } from './condition-times.js';
import { factKind, isFactName, type FactName } from './facts.js';
import { operandOf, parse, sides, strip, type Operand, type Tree } from './tree.js';

/** How two values are compared. */
export type Comparison = '<' | '<=' | '>' | '>=' | '=' | '!=';

/** A time of a condition: a fact, moved by so many milliseconds. */
export interface ComparedTime {
  readonly fact: FactName;
  readonly offsetMs: number;
}

/** What a condition asks, as data that a language can put into words. */
export type ConditionPart =
  | { readonly kind: 'all' | 'any'; readonly of: readonly ConditionPart[] }
  | { readonly kind: 'not'; readonly of: ConditionPart }
  | { readonly kind: 'always' | 'never' }
  /** A fact that is a yes or a no. */
  | { readonly kind: 'yes'; readonly fact: FactName }
  /** Whether a fact is known at all. */
  | { readonly kind: 'known'; readonly fact: FactName }
  | { readonly kind: 'one-of'; readonly fact: FactName; readonly codes: readonly string[] }
  | {
      readonly kind: 'compared';
      readonly fact: FactName;
      readonly by: Comparison;
      readonly value: string;
      /** UCUM; absent of a plain number. */
      readonly unit?: string;
    }
  | {
      readonly kind: 'times';
      readonly left: ComparedTime;
      readonly by: Comparison;
      readonly right: ComparedTime;
    };

const comparisons: ReadonlySet<string> = new Set<Comparison>(['<', '<=', '>', '>=', '=', '!=']);
const turned: Readonly<Record<Comparison, Comparison>> = {
  '<': '>',
  '<=': '>=',
  '>': '<',
  '>=': '<=',
  '=': '=',
  '!=': '!=',
};

/**
 * What a condition asks, part by part; undefined where it is written in a way that has no parts of these kinds: such a
 * condition can only be shown as it is written.
 * @example
 * ```ts
 * const reading = compileCondition(['%patient.ageDays < 28']);
 * reading.ok && conditionParts(reading.condition) !== undefined; // true
 * ```
 */
export function conditionParts({ meaning }: Pick<Condition, 'meaning'>): ConditionPart | undefined {
  if (meaning.trim() === '') return { kind: 'always' };
  try {
    return partOf(parse(meaning));
  } catch {
    return undefined;
  }
}

function partOf(tree: Tree): ConditionPart | undefined {
  const node = strip(tree);
  switch (node.type) {
    case 'AndExpression':
      return joined('all', node, 'and');
    case 'OrExpression':
      return joined('any', node, 'or');
    case 'EqualityExpression':
    case 'InequalityExpression':
    case 'MembershipExpression':
      return compared(node);
    case 'InvocationExpression':
      return called(node) ?? bare(node);
    default:
      return bare(node);
  }
}

function joined(kind: 'all' | 'any', node: Tree, word: string): ConditionPart | undefined {
  if (node.text !== word) return undefined;
  const parts = (node.children ?? []).map(partOf);
  const of = parts.flatMap((part) =>
    part === undefined ? [] : part.kind === kind ? (part as { of: readonly ConditionPart[] }).of : [part],
  );
  return parts.includes(undefined) ? undefined : { kind, of };
}

function bare(node: Tree): ConditionPart | undefined {
  const operand = operandOf(node);
  if (operand.kind === 'boolean') return { kind: operand.value ? 'always' : 'never' };
  if (operand.kind !== 'fact' || !isFactName(operand.name)) return undefined;
  return factKind(operand.name)?.kind === 'boolean' ? { kind: 'yes', fact: operand.name } : undefined;
}

/** `.not()`, `.exists()` and `.empty()`. */
function called(node: Tree): ConditionPart | undefined {
  const [subject, call] = sides(node) ?? [];
  if (subject === undefined || call?.type !== 'FunctionInvocation') return undefined;
  const name = call.text ?? '';
  if (name === 'not') {
    const of = partOf(subject);
    return of === undefined ? undefined : { kind: 'not', of };
  }
  const operand = operandOf(subject);
  if (operand.kind !== 'fact' || !isFactName(operand.name)) return undefined;
  const known: ConditionPart = { kind: 'known', fact: operand.name };
  if (name === 'exists') return known;
  return name === 'empty' ? { kind: 'not', of: known } : undefined;
}

function compared(node: Tree): ConditionPart | undefined {
  const pair = sides(node);
  if (pair === undefined) return undefined;
  const operator = node.text ?? '';
  const [left, right] = [timeOf(pair[0]), timeOf(pair[1])];
  if (left?.ok && right?.ok && isComparison(operator))
    return { kind: 'times', left: left.term, by: operator, right: right.term };
  const [one, other] = [operandOf(pair[0]), operandOf(pair[1])];
  if (one.kind === 'fact') return valued(one, operator, other);
  return other.kind === 'fact' && isComparison(operator) ? valued(other, turned[operator], one) : undefined;
}

function valued({ name }: Operand & { kind: 'fact' }, by: string, value: Operand): ConditionPart | undefined {
  if (!isFactName(name)) return undefined;
  if (by === 'in' && value.kind === 'set') return { kind: 'one-of', fact: name, codes: value.values };
  if (!isComparison(by)) return undefined;
  switch (value.kind) {
    case 'string': {
      const is: ConditionPart = { kind: 'one-of', fact: name, codes: [value.value] };
      return by === '=' ? is : by === '!=' ? { kind: 'not', of: is } : undefined;
    }
    case 'boolean': {
      const yes: ConditionPart = { kind: 'yes', fact: name };
      return (by === '=') === value.value ? yes : { kind: 'not', of: yes };
    }
    case 'number':
      return { kind: 'compared', fact: name, by, value: String(value.value) };
    case 'quantity':
      return { kind: 'compared', fact: name, by, value: value.value, unit: value.unit };
    default:
      return undefined;
  }
}

function isComparison(text: string): text is Comparison {
  return comparisons.has(text);
}
