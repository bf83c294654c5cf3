import { Decimal } from 'decimal.js';
import { timeOf } from './condition-times.js';
import { factKind, isFactName, type FactName } from './facts.js';
import type { Answer, Decide, ExactValue } from './condition-values.js';
import { operandOf, sides, strip, type Operand, type Tree } from './tree.js';
import { convertUnit } from './units.js';

const flipped: Readonly<Record<string, string>> = {
  '<': '>',
  '<=': '>=',
  '>': '<',
  '>=': '<=',
  '=': '=',
  '!=': '!=',
};

function merged(a: readonly FactName[], b: readonly FactName[]): readonly FactName[] {
  return [...new Set([...a, ...b])];
}

/** True and false decide on their own side; an unknown asks the other one. */
function decidedBy(decisive: boolean, left: Decide, right: Decide): Decide {
  return (values) => {
    const a = left(values);
    if (a === decisive) return decisive;
    const b = right(values);
    if (b === decisive) return decisive;
    if (typeof a === 'boolean') return b;
    return typeof b === 'boolean' ? a : merged(a, b);
  };
}

function mapped(of: Decide, answer: (known: boolean) => Answer): Decide {
  return (values) => {
    const known = of(values);
    return typeof known === 'boolean' ? answer(known) : known;
  };
}

function negated(of: Decide): Decide {
  return mapped(of, (known) => !known);
}

function onFact(name: FactName, answer: (value: ExactValue) => Answer): Decide {
  const missing: Answer = [name];
  return (values) => {
    const value = values.get(name);
    return value === undefined ? missing : answer(value);
  };
}

function ordered(operator: string, order: number): boolean {
  switch (operator) {
    case '<':
      return order < 0;
    case '<=':
      return order <= 0;
    case '>':
      return order > 0;
    case '>=':
      return order >= 0;
    case '=':
      return order === 0;
    default:
      return order !== 0;
  }
}

function comparison(operator: string, fact: Operand, literal: Operand): Decide | undefined {
  if (fact.kind !== 'fact' || !isFactName(fact.name) || flipped[operator] === undefined) return undefined;
  const name = fact.name;
  const kind = factKind(name)?.kind;
  if (literal.kind === 'quantity') {
    const unit = unitOf(name);
    if (unit === undefined) return undefined;
    const converted = convertUnit(literal.value, literal.unit, unit);
    if (!converted.ok) return undefined;
    const threshold = new Decimal(converted.value);
    return onFact(name, (value) =>
      ordered(operator, value instanceof Decimal ? value.comparedTo(threshold) : Number.NaN),
    );
  }
  if (literal.kind === 'number' && kind === 'integer') {
    return onFact(name, (value) => ordered(operator, Number(value) - literal.value));
  }
  const equality = operator === '=' || operator === '!=';
  const same =
    (literal.kind === 'string' && kind === 'code') || (literal.kind === 'boolean' && kind === 'boolean');
  if (!equality || !same) return undefined;
  return onFact(name, (value) => (value === literal.value) === (operator === '='));
}

function unitOf(name: FactName): string | undefined {
  const kind = factKind(name);
  return kind?.kind === 'quantity' ? kind.unit : undefined;
}

/** A comparison of two times, each a fact that may be moved by minutes or hours. */
function timeComparison(operator: string, left: Tree, right: Tree): Decide | undefined {
  const [a, b] = [timeOf(left), timeOf(right)];
  if (a?.ok !== true || b?.ok !== true || flipped[operator] === undefined) return undefined;
  const [first, second] = [a.term, b.term];
  return (values) => {
    const [x, y] = [values.get(first.fact), values.get(second.fact)];
    if (typeof x === 'number' && typeof y === 'number')
      return ordered(operator, x + first.offsetMs - (y + second.offsetMs));
    return merged(x === undefined ? [first.fact] : [], y === undefined ? [second.fact] : []);
  };
}

function membership(fact: Operand, list: Operand): Decide | undefined {
  if (fact.kind !== 'fact' || !isFactName(fact.name) || factKind(fact.name)?.kind !== 'code')
    return undefined;
  const values = list.kind === 'set' ? list.values : list.kind === 'string' ? [list.value] : undefined;
  if (values === undefined) return undefined;
  const set = new Set<ExactValue>(values);
  return onFact(fact.name, (value) => set.has(value));
}

function invocation(node: Tree): Decide | undefined {
  const pair = sides(node);
  const call = pair?.[1];
  if (pair === undefined || call?.type !== 'FunctionInvocation') return undefined;
  if (call.children?.[0]?.children?.length !== 1) return undefined;
  if (call.text === 'not') {
    const of = closureOf(pair[0]);
    return of === undefined ? undefined : negated(of);
  }
  const subject = operandOf(pair[0]);
  if (subject.kind !== 'fact' || !isFactName(subject.name)) return undefined;
  const name = subject.name;
  if (call.text === 'exists') return (values) => values.has(name);
  if (call.text === 'empty') return (values) => !values.has(name);
  return undefined;
}

/** A plain closure for a condition made of common shapes only; undefined where the reference engine has to decide. */
export function closureOf(tree: Tree): Decide | undefined {
  const node = strip(tree);
  const pair = sides(node);
  switch (node.type) {
    case 'BooleanLiteral': {
      const value = node.text === 'true';
      return () => value;
    }
    case 'AndExpression':
    case 'OrExpression':
    case 'ImpliesExpression': {
      const left = pair === undefined ? undefined : closureOf(pair[0]);
      const right = pair === undefined ? undefined : closureOf(pair[1]);
      if (left === undefined || right === undefined) return undefined;
      if (node.text === 'xor') {
        return (values) => {
          const [a, b] = [left(values), right(values)];
          if (typeof a === 'boolean') return typeof b === 'boolean' ? a !== b : b;
          return typeof b === 'boolean' ? a : merged(a, b);
        };
      }
      if (node.type === 'ImpliesExpression') return decidedBy(true, negated(left), right);
      return decidedBy(node.type === 'OrExpression', left, right);
    }
    case 'EqualityExpression':
    case 'InequalityExpression': {
      if (pair === undefined) return undefined;
      const [left, right] = pair.map(operandOf) as [Operand, Operand];
      const operator = node.text ?? '';
      const times = timeComparison(operator, pair[0], pair[1]);
      if (times !== undefined) return times;
      return left.kind === 'fact'
        ? comparison(operator, left, right)
        : comparison(flipped[operator] ?? '', right, left);
    }
    case 'MembershipExpression': {
      if (pair === undefined) return undefined;
      const [left, right] = pair.map(operandOf) as [Operand, Operand];
      return node.text === 'in' ? membership(left, right) : membership(right, left);
    }
    case 'InvocationExpression': {
      const fact = operandOf(node);
      if (fact.kind === 'fact' && isFactName(fact.name) && factKind(fact.name)?.kind === 'boolean') {
        return onFact(fact.name, (value) => value === true);
      }
      return invocation(node);
    }
    default:
      return undefined;
  }
}
