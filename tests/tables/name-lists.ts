import ts from 'typescript';

/** A list of names that somebody wrote down, with its place in the file. */
export interface NameList {
  readonly line: number;
  readonly names: readonly string[];
}

/** One name, with its place in the file. */
export interface Name {
  readonly line: number;
  readonly name: string;
}

function parse(text: string): ts.SourceFile {
  return ts.createSourceFile('source.ts', text, ts.ScriptTarget.Latest, true);
}

function textOf(node: ts.Node | undefined): string | undefined {
  return node !== undefined && ts.isStringLiteralLike(node) ? node.text : undefined;
}

/**
 * The text of an element, also through `as`, brackets and dots; of a tuple its first text, of an object the texts that
 * it holds, of a call what it is called with.
 */
function textsIn(node: ts.Expression): (string | undefined)[] {
  if (ts.isSpreadElement(node)) return ts.isCallExpression(node.expression) ? textsIn(node.expression) : [];
  if (ts.isCallExpression(node)) return node.arguments.map(textOf);
  if (ts.isAsExpression(node) || ts.isSatisfiesExpression(node) || ts.isParenthesizedExpression(node))
    return textsIn(node.expression);
  if (ts.isArrayLiteralExpression(node)) return [textOf(node.elements[0])];
  if (ts.isObjectLiteralExpression(node))
    return node.properties.map((one) => (ts.isPropertyAssignment(one) ? textOf(one.initializer) : undefined));
  return [textOf(node)];
}

function keyOf(name: ts.PropertyName | undefined): string | undefined {
  if (name === undefined) return undefined;
  if (ts.isComputedPropertyName(name)) return textOf(name.expression);
  return ts.isIdentifier(name) ? name.text : textOf(name);
}

const equals = new Set([
  ts.SyntaxKind.EqualsEqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsEqualsToken,
  ts.SyntaxKind.EqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsToken,
]);
const joins = new Set([
  ts.SyntaxKind.BarBarToken,
  ts.SyntaxKind.AmpersandAmpersandToken,
  ts.SyntaxKind.QuestionQuestionToken,
]);

function isChain(node: ts.Node): boolean {
  return (
    (ts.isBinaryExpression(node) && joins.has(node.operatorToken.kind)) ||
    ts.isConditionalExpression(node) ||
    ts.isParenthesizedExpression(node) ||
    ts.isPrefixUnaryExpression(node)
  );
}

/** What a chain of `||`, `&&` and `?:` compares with, one comparison after the other. */
function comparedIn(node: ts.Node): (string | undefined)[] {
  if (ts.isBinaryExpression(node) && equals.has(node.operatorToken.kind))
    return [textOf(node.left), textOf(node.right)];
  if (!isChain(node)) return [];
  const found: (string | undefined)[] = [];
  node.forEachChild((child) => {
    found.push(...comparedIn(child));
  });
  return found;
}

/** The texts that stand side by side in a node: the elements, keys, values, cases or comparisons of one list. */
function listsIn(node: ts.Node): (string | undefined)[][] {
  if (ts.isArrayLiteralExpression(node)) return [node.elements.flatMap(textsIn)];
  if (ts.isObjectLiteralExpression(node)) {
    const keys = node.properties.map((one) => keyOf(one.name));
    const values = node.properties.map((one) =>
      ts.isPropertyAssignment(one) ? textOf(one.initializer) : undefined,
    );
    return [keys, values];
  }
  if (ts.isInterfaceDeclaration(node) || ts.isTypeLiteralNode(node))
    return [node.members.map((one) => keyOf(one.name))];
  if (ts.isUnionTypeNode(node))
    return [node.types.map((one) => (ts.isLiteralTypeNode(one) ? textOf(one.literal) : undefined))];
  if (ts.isCaseBlock(node))
    return [node.clauses.map((one) => (ts.isCaseClause(one) ? textOf(one.expression) : undefined))];
  if (isChain(node) && !isChain(node.parent)) return [comparedIn(node)];
  return [];
}

function lineOf(source: ts.SourceFile, node: ts.Node): number {
  return source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
}

/** Every array, set, map, object, union, switch or chain of comparisons in a source that holds two of these names. */
export function nameLists(text: string, known: ReadonlySet<string>): NameList[] {
  const source = parse(text);
  const found: NameList[] = [];
  const visit = (node: ts.Node): void => {
    for (const list of listsIn(node)) {
      const names = [...new Set(list.filter((one) => one !== undefined && known.has(one)))] as string[];
      if (names.length > 1) found.push({ line: lineOf(source, node), names });
    }
    node.forEachChild(visit);
  };
  visit(source);
  return found;
}

/** Every string literal in a source that is one of these names. */
export function namesIn(text: string, known: ReadonlySet<string>): Name[] {
  const source = parse(text);
  const found: Name[] = [];
  const visit = (node: ts.Node): void => {
    const name = textOf(node);
    if (name !== undefined && known.has(name)) found.push({ line: lineOf(source, node), name });
    node.forEachChild(visit);
  };
  visit(source);
  return found;
}
