// Parses at build time what the bundled plans ask, so that reading them needs no FHIRPath engine: it runs this package from
// its sources over all of them and keeps what they give the parser.
import { build } from 'esbuild';
import fhirpath from 'fhirpath';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const generated = join(root, 'src/generated');
const require = createRequire(import.meta.url);

/** What the trees are made from, as one number: where it is the same, so are they. */
function fingerprint() {
  const hash = createHash('sha256').update(require('fhirpath/package.json').version);
  for (const folder of ['src', 'scripts', 'resources', '../profiles/src']) {
    for (const name of readdirSync(join(root, folder)).sort()) {
      if (!/\.(ts|mjs|json)$/.test(name) || name.endsWith('.test.ts')) continue;
      hash.update(name).update(readFileSync(join(root, folder, name)));
    }
  }
  return hash.digest('hex');
}

/** The parts of a module with the trees; undefined where it is there already, from the same sources. */
export async function treeParts() {
  const path = join(generated, 'trees.ts');
  const made = `// ${fingerprint()}`;
  if (existsSync(path) && readFileSync(path, 'utf8').includes(made)) return undefined;
  const trees = await parsedByThePlans();
  const types = [];
  const placeOf = (type) => (types.includes(type) ? types.indexOf(type) : types.push(type) - 1);
  const stored = ({ type, children, text, start, length, value, unit, ...rest }) => {
    if (Object.keys(rest).length > 0)
      throw new Error(`A tree has ${Object.keys(rest).join(', ')}: store it.`);
    const all = [children?.map(stored), text, start?.line, start?.column, length, value, unit];
    while (all.length > 0 && all.at(-1) === undefined) all.pop();
    return [placeOf(type), ...all.map((one) => one ?? null)];
  };
  const entries = [...trees]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([text, tree]) => `  ${JSON.stringify(text)}: ${JSON.stringify(JSON.stringify(stored(tree)))},`);
  return [
    made,
    '/** What a node of a tree can be. */',
    `export const treeTypes: readonly string[] = ${JSON.stringify(types)};`,
    '/** The tree of everything that the bundled plans ask, by its text. */',
    `export const treeTexts: Readonly<Record<string, string>> = {\n${entries.join('\n')}\n};`,
  ];
}

/** Every text that the parser is given while the bundled plans are read, with its tree. */
async function parsedByThePlans() {
  const trees = new Map();
  const parse = (text) => {
    const tree = fhirpath.parse(text);
    trees.set(text, tree);
    return tree;
  };
  const file = join(generated, `read-${process.pid}.mjs`);
  const contents = `
    import { bundledPlan, bundledPlanNames, defaultLayerNames } from './bundled.js';
    import { conditionParts } from './condition-parts.js';
    import { lintPlan, readPolicy } from './read-policy.js';
    export { bundledPlan, bundledPlanNames, conditionParts, defaultLayerNames, lintPlan, readPolicy };`;
  try {
    await build({
      stdin: { contents, resolveDir: join(root, 'src'), loader: 'ts' },
      ...{ bundle: true, platform: 'node', format: 'esm', outfile: file, logLevel: 'error' },
      ...{ conditions: ['dwellward-source'], packages: 'external' },
      plugins: [{ name: 'parser', setup: withParser }],
    });
    globalThis.dwellwardParse = parse;
    readAll(await import(pathToFileURL(file).href));
  } finally {
    delete globalThis.dwellwardParse;
    rmSync(file, { force: true });
  }
  return trees;
}

/** No tree is stored yet, and the engine is the one that keeps what it parses. */
function withParser({ onResolve, onLoad }) {
  onResolve({ filter: /generated\/trees\.js$/ }, () => ({ path: 'trees', namespace: 'none' }));
  onLoad({ filter: /.*/, namespace: 'none' }, () => ({
    contents: 'export const treeTexts = {}; export const treeTypes = [];',
  }));
  onResolve({ filter: /^@dwellward\// }, ({ path, resolveDir }) => ({
    path: join(resolveDir, '../..', path.replace('@dwellward/', ''), 'src/index.ts'),
  }));
  onResolve({ filter: /^#outside$/ }, () => ({ path: 'outside', namespace: 'outside' }));
  onLoad({ filter: /.*/, namespace: 'outside' }, () => ({
    resolveDir: root,
    contents: `
      import fhirpath from 'fhirpath';
      import r4 from 'fhirpath/fhir-context/r4';
      import ucumLibrary from '@lhncbc/ucum-lhc';
      import { z } from 'zod';
      export const fhirPath = () => ({ engine: { ...fhirpath, parse: globalThis.dwellwardParse }, r4 });
      export const ucum = () => ucumLibrary;
      export const zod = () => z;`,
  }));
}

/** Reads every bundled plan alone and over the default, and asks for the parts of every condition. */
function readAll({ bundledPlan, bundledPlanNames, conditionParts, defaultLayerNames, lintPlan, readPolicy }) {
  const stacks = bundledPlanNames.flatMap((name) => [[name], [...new Set([...defaultLayerNames, name])]]);
  for (const names of [bundledPlanNames.filter((name) => !name.startsWith('choice-')), ...stacks]) {
    const reading = readPolicy(names.map(bundledPlan));
    const rules = reading.ok ? reading.policy.rules : [];
    for (const { applicability, start, stop } of rules)
      for (const condition of [applicability, start, stop]) if (condition) conditionParts(condition);
  }
  for (const name of bundledPlanNames) lintPlan(bundledPlan(name));
}
