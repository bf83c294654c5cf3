import ts from 'typescript';

/** A place where a program reads words: a regular expression, or a comparison with a text. */
export interface Reading {
  readonly line: number;
  readonly what: string;
}

const methods = new Set([
  'startsWith',
  'endsWith',
  'includes',
  'indexOf',
  'lastIndexOf',
  'replace',
  'replaceAll',
  'split',
  'match',
  'matchAll',
  'search',
]);

const equals = new Set([
  ts.SyntaxKind.EqualsEqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsEqualsToken,
  ts.SyntaxKind.EqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsToken,
]);

/** A text that people would read: a word beside a blank. */
function isProse(text: string): boolean {
  return /\p{L}{2,} | \p{L}{2,}/u.test(text);
}

/** What a regular expression asks for literally, without its classes, escapes and names of groups. */
function literalsOf(pattern: string): string {
  return pattern
    .replace(/\(\?<[A-Za-z]+>/g, '(')
    .replace(/\[(?:\\.|[^\]\\])*\]/g, '')
    .replace(/\\p\{[^}]*\}/g, '')
    .replace(/\\(?:u[0-9A-Fa-f]{4}|.)/g, '');
}

/** A regular expression that asks for a word: of four letters or more, or beside a blank. */
function asksForWords(pattern: string): boolean {
  const literal = literalsOf(pattern);
  return /\p{L}{4,}/u.test(literal) || isProse(literal);
}

/** The texts that a file gives names to. */
type Named = ReadonlyMap<string, ts.Expression>;

function namedIn(file: ts.SourceFile): Named {
  const named = new Map<string, ts.Expression>();
  const visit = (node: ts.Node): void => {
    if (ts.isVariableDeclaration(node) && ts.isIdentifier(node.name) && node.initializer)
      named.set(node.name.text, node.initializer);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return named;
}

/** The text of a literal, or of the parts of a template that stand in the source; of a name, what it was given. */
function textOf(node: ts.Node | undefined, named: Named): string | undefined {
  if (node === undefined) return undefined;
  if (ts.isIdentifier(node)) {
    const given = named.get(node.text);
    return given && !ts.isIdentifier(given) ? textOf(given, named) : undefined;
  }
  if (ts.isStringLiteralLike(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return undefined;
  return [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('x');
}

function patternOf(node: ts.Node, named: Named): string | undefined {
  if (ts.isRegularExpressionLiteral(node)) return node.text.slice(1, node.text.lastIndexOf('/'));
  const makes = ts.isNewExpression(node) || ts.isCallExpression(node);
  return makes && ts.isIdentifier(node.expression) && node.expression.text === 'RegExp'
    ? textOf(node.arguments?.[0], named)
    : undefined;
}

/** The texts that a node compares something with. */
function comparedWith(node: ts.Node, named: Named): readonly (string | undefined)[] {
  if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression))
    return methods.has(node.expression.name.text) ? [textOf(node.arguments[0], named)] : [];
  if (ts.isBinaryExpression(node))
    return equals.has(node.operatorToken.kind) ? [textOf(node.left, named), textOf(node.right, named)] : [];
  if (ts.isCaseClause(node)) return [textOf(node.expression, named)];
  // A set of texts is there to be asked.
  if (ts.isNewExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === 'Set') {
    const [list] = node.arguments ?? [];
    return list && ts.isArrayLiteralExpression(list) ? list.elements.map((one) => textOf(one, named)) : [];
  }
  return [];
}

/** Every place in a source that reads words back. */
export function readingsIn(source: string): Reading[] {
  const file = ts.createSourceFile('source.ts', source, ts.ScriptTarget.Latest, true);
  const named = namedIn(file);
  const found: Reading[] = [];
  const add = (node: ts.Node, what: string) =>
    found.push({ line: file.getLineAndCharacterOfPosition(node.getStart()).line + 1, what });
  const visit = (node: ts.Node): void => {
    const pattern = patternOf(node, named);
    if (pattern !== undefined && asksForWords(pattern)) add(node, pattern);
    for (const text of comparedWith(node, named)) if (text !== undefined && isProse(text)) add(node, text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}
