// The examples in the doc comments of what the packages offer: each public function has one, and it does what it says.
import { fileURLToPath } from 'node:url';
import { transform } from 'esbuild';
import ts from 'typescript';

export interface PublicFunction {
  readonly name: string;
  readonly example: string | undefined;
}

/** Every function that the packages' public faces offer, by package, with the code of its `@example`. */
export function publicFunctions<Name extends string>(
  names: readonly Name[],
): ReadonlyMap<Name, readonly PublicFunction[]> {
  const faces = new Map(
    names.map((name) => [
      name,
      fileURLToPath(new URL(`../../packages/${name}/src/index.ts`, import.meta.url)),
    ]),
  );
  const program = ts.createProgram([...faces.values()], {
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    target: ts.ScriptTarget.ES2023,
    customConditions: ['dwellward-source'],
    noLib: true,
    noEmit: true,
    types: [],
  });
  const checker = program.getTypeChecker();
  return new Map(
    [...faces].map(([name, face]) => {
      const source = program.getSourceFile(face);
      const module = source === undefined ? undefined : checker.getSymbolAtLocation(source);
      if (module === undefined) throw new Error(`${face} offers nothing.`);
      return [name, checker.getExportsOfModule(module).flatMap((one) => functionOf(one, checker))];
    }),
  );
}

function functionOf(given: ts.Symbol, checker: ts.TypeChecker): PublicFunction[] {
  const one = given.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(given) : given;
  if (!(one.flags & ts.SymbolFlags.Function)) return [];
  const tag = one.getJsDocTags(checker).find((each) => each.name === 'example');
  const example = /```ts\n([^]*?)```/.exec(ts.displayPartsToString(tag?.text))?.[1];
  return [{ name: one.name, example }];
}

/** A statement of an example: its code, and what stands behind it as its value. */
interface Statement {
  readonly code: string;
  readonly value: string | undefined;
}

function statementsOf(example: string): Statement[] {
  const source = ts.createSourceFile('example.ts', example, ts.ScriptTarget.ES2023, true);
  return source.statements.map((statement) => {
    const [comment] = ts.getTrailingCommentRanges(example, statement.end) ?? [];
    const value =
      comment === undefined ? undefined : example.slice(comment.pos, comment.end).replace(/^\/\/ /, '');
    const isValue = ts.isExpressionStatement(statement);
    return {
      code: isValue ? statement.expression.getText() : statement.getText(),
      value: isValue ? value : undefined,
    };
  });
}

/**
 * Runs an example and holds each value against the one that stands behind it.
 * @param scope what the example can name @param hold compares a value with the one that is said
 * @returns how many values were held
 */
export async function runExample(
  example: string,
  scope: Readonly<Record<string, unknown>>,
  hold: (value: unknown, said: unknown) => void,
): Promise<number> {
  const statements = statementsOf(example);
  const code = statements
    .map(({ code: text, value }) => (value === undefined ? `${text};` : `__hold((${text}), (${value}));`))
    .join('\n');
  const { code: plain } = await transform(code, { loader: 'ts' });
  const names = Object.keys(scope);

  const run = new Function('__hold', ...names, plain) as (...given: unknown[]) => void;
  run(hold, ...names.map((name) => scope[name]));
  return statements.filter(({ value }) => value !== undefined).length;
}
