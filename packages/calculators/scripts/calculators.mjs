// What stands in src, for the scripts beside this file: every calculator with its file, folder and card.
import { Buffer } from 'node:buffer';
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

export const packageRoot = join(dirname(fileURLToPath(import.meta.url)), '..');
const src = join(packageRoot, 'src');

export const camel = (name) => name.replace(/-([a-z0-9])/g, (_, letter) => letter.toUpperCase());

/** Every public calculator, by its file: `{ name, group, file, text }`. */
export function sourceFiles() {
  const groups = readdirSync(src, { withFileTypes: true }).filter(
    (each) => each.isDirectory() && each.name !== 'lib',
  );
  return groups
    .flatMap(({ name: group }) =>
      readdirSync(join(src, group))
        .filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'))
        .map((file) => {
          const path = join(src, group, file);
          return { name: file.slice(0, -'.ts'.length), group, path, text: readFileSync(path, 'utf8') };
        }),
    )
    .sort((a, b) => (`${a.group}/${a.name}` < `${b.group}/${b.name}` ? -1 : 1));
}

/** Bundles TypeScript source in memory and imports it. */
export async function load(contents) {
  const result = await build({
    stdin: { contents, resolveDir: src, loader: 'ts' },
    bundle: true,
    format: 'esm',
    platform: 'neutral',
    write: false,
  });
  return import(`data:text/javascript;base64,${Buffer.from(result.outputFiles[0].text).toString('base64')}`);
}

/** The same files, each with its card. */
export async function cards() {
  const files = sourceFiles();
  const lines = files.map(({ name, group }) => `export { ${camel(name)}Card } from './${group}/${name}.js';`);
  const module = await load(`${lines.join('\n')}`);
  return {
    calculators: files.map((file) => ({ ...file, card: module[`${camel(file.name)}Card`]() })),
  };
}
