// The tests of a package with its sources, as one script that can be evaluated again and again in a process.
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/** Where each package's entries have their source: the tester mutates a copy, whose node_modules lead to the originals. */
export function sourcesOfPackages(root) {
  const folders = ['packages', 'services'].flatMap((folder) =>
    readdirSync(join(root, folder)).map((name) => join(root, folder, name)),
  );
  return new Map(
    [...folders, join(root, 'fixtures')].flatMap((at) => {
      const { name, exports = {} } = JSON.parse(readFileSync(join(at, 'package.json'), 'utf8'));
      return Object.entries(exports).flatMap(([entry, target]) => {
        const source = typeof target === 'string' ? undefined : target['dwellward-source'];
        return source === undefined ? [] : [[`${name}${entry.slice(1)}`, join(at, source)]];
      });
    }),
  );
}

// The first test that fails ends the run of a mutant: the small files come first, and those that cross packages last.
const weight = (root, file) => statSync(join(root, file)).size + (file.startsWith('tests') ? 1e9 : 0);

/** The files in the order in which a mutant is to meet them. */
export const cheapestFirst = (root, files) => [...files].sort((a, b) => weight(root, a) - weight(root, b));

/**
 * A script in CommonJS whose exports are `files`: for each test file, by its path from the root, what loads it. Vitest is
 * what stands in `globalThis[host]`.
 */
export async function bundleOf(root, files, host) {
  const sources = sourcesOfPackages(root);
  const load = (file) => `${JSON.stringify(file)}: () => import(${JSON.stringify(`./${file}`)})`;
  const plugin = {
    name: 'tests',
    setup({ onResolve, onLoad }) {
      onResolve({ filter: /^vitest$/ }, () => ({ path: 'vitest', namespace: 'host' }));
      onLoad({ filter: /.*/, namespace: 'host' }, () => ({
        contents: `module.exports = globalThis[${JSON.stringify(host)}]`,
      }));
      onResolve({ filter: /^@dwellward\// }, ({ path }) => {
        const source = sources.get(path);
        return source === undefined ? undefined : { path: source };
      });
      onLoad({ filter: /\.[cm]?[jt]s$/ }, ({ path }) => {
        const contents = readFileSync(path, 'utf8');
        if (!contents.includes('import.meta.url')) return undefined;
        const url = JSON.stringify(pathToFileURL(path).href);
        return {
          contents: contents.replaceAll('import.meta.url', url),
          loader: path.endsWith('ts') ? 'ts' : 'js',
        };
      });
    },
  };
  const { outputFiles } = await build({
    stdin: {
      contents: `import './tests/fast-check-setup.ts';\nexport const files = {${files.map(load).join(',\n')}};`,
      resolveDir: root,
      loader: 'ts',
    },
    absWorkingDir: root,
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    conditions: ['dwellward-source', 'node'],
    // They find their files by where they themselves are.
    external: ['@medplum/*', 'fhir'],
    plugins: [plugin],
    logLevel: 'error',
  });
  return outputFiles[0].text;
}

/** The files of a folder and below that one of the patterns names: `**` any folders, `*` any part of a name. */
export function filesLike(root, patterns, without = []) {
  const regex = (pattern) =>
    new RegExp(
      `^${pattern
        .replaceAll(/[.+^${}()|[\]\\]/g, String.raw`\$&`)
        .replaceAll('**/', '(?:.*/)?')
        .replaceAll('**', '.*')
        .replaceAll(/(?<!\.)\*/g, '[^/]*')}$`,
    );
  const wanted = patterns.map(regex);
  const unwanted = without.map(regex);
  const tops = new Set(patterns.map((pattern) => pattern.split(/\/[^/]*\*/)[0]));
  return [...tops].flatMap((top) => {
    const at = join(root, top);
    const below = statSync(at).isDirectory()
      ? readdirSync(at, { recursive: true }).map((name) => join(at, name))
      : [at];
    return below
      .map((path) => relative(root, path))
      .filter((path) => !path.includes('node_modules') && wanted.some((one) => one.test(path)))
      .filter((path) => !unwanted.some((one) => one.test(path)));
  });
}
