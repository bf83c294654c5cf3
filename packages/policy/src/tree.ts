import { fhirPath } from '#outside';
import { storedTree, type Tree } from './stored-trees.js';

export type { Tree } from './stored-trees.js';

/** A part of a condition that the checks and the closures know by sight. */
export type Operand =
  /** A variable with its members: `%labs.anc`, `%found.bloodReturn.brisk`, or `%began` alone with no member. */
  | {
      readonly kind: 'fact';
      readonly group: string;
      readonly member: string;
      readonly name: string;
      readonly node: Tree;
    }
  | { readonly kind: 'string'; readonly value: string }
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'boolean'; readonly value: boolean }
  | {
      readonly kind: 'quantity';
      readonly value: string;
      readonly unit: string;
      readonly calendar: boolean;
      readonly node: Tree;
    }
  | { readonly kind: 'set'; readonly values: readonly string[] }
  | { readonly kind: 'other' };

const wrappers = new Set([
  'EntireExpression',
  'TermExpression',
  'LiteralTerm',
  'InvocationTerm',
  'ParenthesizedTerm',
]);

// Parsing takes a millisecond or more, and the plans ask the same again and again; hospitals’ plans must not make it grow.
const trees = new Map<string, Tree>();
const mostTrees = 1_000;

/** Parses FHIRPath; what the bundled plans ask was parsed when they were built. Throws the reference engine’s own error where the text is not FHIRPath. */
export function parse(text: string): Tree {
  const known = trees.get(text);
  if (known !== undefined) return known;
  const tree = storedTree(text) ?? (fhirPath().engine.parse(text) as Tree);
  if (trees.size >= mostTrees) trees.clear();
  trees.set(text, tree);
  return tree;
}

/** Drops the nodes that only wrap another one, parentheses among them. */
export function strip(tree: Tree): Tree {
  let node = tree;
  while (wrappers.has(node.type) && node.children?.length === 1 && node.children[0] !== undefined) {
    node = node.children[0];
  }
  return node;
}

/** The operands of a two-sided expression. */
export function sides(node: Tree): readonly [Tree, Tree] | undefined {
  const [left, right, ...rest] = node.children ?? [];
  return left === undefined || right === undefined || rest.length > 0 ? undefined : [left, right];
}

/** The name of `%name`, whichever way it is quoted. */
export function variableName(node: Tree): string {
  return (node.text ?? node.delimitedText ?? '').replace(/^['`]|['`]$/g, '');
}

/** A FHIRPath string literal’s value. */
export function unquoted(literal: string): string {
  return literal.slice(1, -1).replace(/\\(u[0-9a-fA-F]{4}|.)/gs, (_, escape: string) => {
    if (escape.startsWith('u') && escape.length === 5)
      return String.fromCharCode(parseInt(escape.slice(1), 16));
    const plain: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t', f: '\f' };
    return plain[escape] ?? escape;
  });
}

/** The string that an expression consists of, or undefined where it is anything else. */
export function stringLiteral(text: string): string | undefined {
  try {
    const operand = operandOf(parse(text));
    return operand.kind === 'string' ? operand.value : undefined;
  } catch {
    return undefined;
  }
}

function setOf(node: Tree): readonly string[] | undefined {
  const inner = strip(node);
  if (inner.type === 'StringLiteral') return [unquoted(inner.text ?? "''")];
  const pair = inner.type === 'UnionExpression' ? sides(inner) : undefined;
  if (pair === undefined) return undefined;
  const left = setOf(pair[0]);
  const right = setOf(pair[1]);
  return left === undefined || right === undefined ? undefined : [...left, ...right];
}

/** What a part of a condition is. */
export function operandOf(tree: Tree): Operand {
  const node = strip(tree);
  switch (node.type) {
    case 'StringLiteral':
      return { kind: 'string', value: unquoted(node.text ?? "''") };
    case 'NumberLiteral':
      return { kind: 'number', value: Number(node.text) };
    case 'BooleanLiteral':
      return { kind: 'boolean', value: node.text === 'true' };
    case 'QuantityLiteral': {
      const unit = node.unit ?? '';
      const calendar = !unit.startsWith("'");
      return {
        kind: 'quantity',
        value: node.value ?? '',
        unit: calendar ? unit : unquoted(unit),
        calendar,
        node,
      };
    }
    case 'PolarityExpression': {
      const of = node.children?.[0];
      const inner = of === undefined ? undefined : operandOf(of);
      if (inner?.kind !== 'number') return { kind: 'other' };
      return { kind: 'number', value: node.text === '-' ? -inner.value : inner.value };
    }
    case 'UnionExpression': {
      const values = setOf(node);
      return values === undefined ? { kind: 'other' } : { kind: 'set', values };
    }
    case 'ExternalConstantTerm':
    case 'InvocationExpression': {
      const path = pathOf(node);
      if (path === undefined) return { kind: 'other' };
      const [group = '', ...members] = path;
      return { kind: 'fact', group, member: members.join('.'), name: path.join('.'), node };
    }
    default:
      return { kind: 'other' };
  }
}

/** The names of `%group.member.member`, the first without its sign; undefined where the expression is more than that. */
function pathOf(node: Tree): readonly string[] | undefined {
  if (node.type === 'ExternalConstantTerm') return [variableName(node)];
  const pair = node.type === 'InvocationExpression' ? sides(node) : undefined;
  if (pair?.[1].type !== 'MemberInvocation') return undefined;
  const before = pathOf(strip(pair[0]));
  return before === undefined ? undefined : [...before, (pair[1].text ?? '').replace(/^`|`$/g, '')];
}

/** A stretch of a text. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const plainVariable = /^%(`[^`]*`|\w+)(\s*\.\s*(`[^`]*`|\w+))*$/;

/** Finds places of the tree in the text that it was made from. */
export class Places {
  private readonly lineStarts = [0];

  constructor(readonly text: string) {
    for (let at = 0; at < text.length; at += 1) if (text[at] === '\n') this.lineStarts.push(at + 1);
  }

  /** Where a node begins; undefined where the tree does not say. */
  startOf({ start }: Tree): number | undefined {
    if (start === undefined) return undefined;
    const line = this.lineStarts[start.line - 1];
    return line === undefined ? undefined : line + start.column - 1;
  }

  /** The stretch of a variable with its members; undefined where it does not stand there as it is named. */
  ofVariable(node: Tree): Stretch | undefined {
    const names: Tree[] = [];
    let root = node;
    while (root.type === 'InvocationExpression') {
      const [left, right] = root.children ?? [];
      if (left === undefined || right === undefined) return undefined;
      names.push(right);
      root = strip(left);
    }
    const from = this.startOf(root);
    const last = names[0] ?? root.children?.[0]?.children?.[0];
    const end = last === undefined ? undefined : this.startOf(last);
    if (from === undefined || end === undefined || last?.length === undefined) return undefined;
    const to = end + last.length;
    // With a parenthesis in between it is no stretch of its own.
    return plainVariable.test(this.text.slice(from, to)) ? { from, to } : undefined;
  }
}

/** A text with other words put in at some stretches, which do not overlap. */
export function edited(text: string, edits: readonly (Stretch & { readonly by: string })[]): string {
  return [...edits]
    .sort((a, b) => b.from - a.from)
    .reduce((done, { from, to, by }) => done.slice(0, from) + by + done.slice(to), text);
}

/** Every variable in an expression, with its members. */
export function variablesIn(tree: Tree): readonly Extract<Operand, { kind: 'fact' }>[] {
  const operand = operandOf(tree);
  if (operand.kind === 'fact') return [operand];
  return (strip(tree).children ?? []).flatMap(variablesIn);
}
