import type { Ending } from './condition.js';
import { timeOf, type TimeTerm } from './condition-times.js';
import { factSubject } from './facts.js';
import { operandOf, sides, strip, type Tree } from './tree.js';

/**
 * What ends a rule, where its stop condition is nothing but a list of it joined by `or`: a finding or an act since
 * `%began`, or that what was found was answered. Undefined of every other condition.
 */
export function endsOf(tree: Tree): readonly Ending[] | undefined {
  const node = strip(tree);
  const pair = sides(node);
  if (node.type === 'OrExpression' && node.text === 'or' && pair !== undefined) {
    const [left, right] = [endsOf(pair[0]), endsOf(pair[1])];
    return left === undefined || right === undefined ? undefined : [...left, ...right];
  }
  const ending = isAnswered(node) ? ({ answered: true } as const) : sinceBegan(node);
  return ending === undefined ? undefined : [ending];
}

function isAnswered(node: Tree): boolean {
  const pair = node.type === 'InvocationExpression' ? sides(node) : undefined;
  const call = pair?.[1];
  const subject = pair === undefined ? undefined : operandOf(pair[0]);
  return (
    call?.type === 'FunctionInvocation' &&
    call.text === 'exists' &&
    call.children?.[0]?.children?.length === 1 &&
    subject?.kind === 'fact' &&
    subject.name === 'answered'
  );
}

function sinceBegan(node: Tree): Ending | undefined {
  const pair = node.type === 'InequalityExpression' ? sides(node) : undefined;
  if (pair === undefined) return undefined;
  const [left, right] = [timeOf(pair[0]), timeOf(pair[1])];
  if (left?.ok !== true || right?.ok !== true) return undefined;
  switch (node.text) {
    case '>':
    case '>=':
      return endingOf(left.term, right.term);
    case '<':
    case '<=':
      return endingOf(right.term, left.term);
    default:
      return undefined;
  }
}

function endingOf(later: TimeTerm, began: TimeTerm): Ending | undefined {
  if (began.fact !== 'began' || began.offsetMs !== 0 || later.offsetMs !== 0) return undefined;
  const subject = factSubject(later.fact);
  if (subject?.group === 'last') return { done: subject.activity };
  if (subject?.group !== 'found') return undefined;
  const { finding, value } = subject;
  return value === undefined ? { found: finding } : { found: finding, value };
}
