// Keeps what is said twice the same: the tags in each calculator's doc comment, the public face, the catalog and
// the package's exports all come from the files and their cards. `--check` changes nothing and fails on a difference.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format, resolveConfig } from 'prettier';
import { camel, cards, packageRoot } from './calculators.mjs';

const check = process.argv.includes('--check');
const generated =
  '// Written by scripts/sync.mjs from the files beside it; run it after adding a calculator.\n';
const { calculators } = await cards();
const outOfDate = [];

for (const each of calculators) {
  if (each.card.name !== each.name) throw new Error(`${each.path}: the card is named ${each.card.name}`);
  await put(each.path, withTags(each));
}
await put(join(packageRoot, 'src/index.ts'), indexSource());
await put(join(packageRoot, 'src/catalog.ts'), catalogSource());
await put(join(packageRoot, 'package.json'), manifest());

if (outOfDate.length > 0) {
  console.log(`${check ? 'out of date' : 'written'}:\n${outOfDate.map((path) => `  ${path}`).join('\n')}`);
  process.exitCode = check ? 1 : 0;
} else {
  console.log(`${calculators.length} calculators: doc comments, index, catalog and exports agree`);
}

async function put(path, contents) {
  const options = await resolveConfig(path);
  const wanted = await format(contents, { ...options, filepath: path });
  if (wanted === readFileSync(path, { encoding: 'utf8', flag: 'a+' })) return;
  outOfDate.push(path.slice(packageRoot.length + 1));
  if (!check) writeFileSync(path, wanted);
}

function withTags({ path, name, text, card }) {
  const declaration = `export function ${camel(name)}(`;
  const at = text.indexOf(declaration);
  const end = text.lastIndexOf('*/', at);
  const start = text.lastIndexOf('/**', at);
  if (at < 0 || end < start || text.slice(end + 2, at).trim() !== '') {
    throw new Error(`${path}: no doc comment before ${declaration}`);
  }
  const written = text
    .slice(start + 3, end)
    .split('\n')
    .map((line) => line.replace(/^\s*\*? ?/, '').trimEnd());
  const firstTag = written.findIndex((line) => line.startsWith('@'));
  const prose = (firstTag < 0 ? written : written.slice(0, firstTag)).join('\n').trim();
  // The example is written by hand, and stands last.
  const example = written.indexOf('@example');
  const lines = [...prose.split('\n'), '', ...tags(card), ...(example < 0 ? [] : written.slice(example))];
  while (lines.at(-1) === '') lines.pop();
  return `${text.slice(0, start)}/**\n${lines.map((line) => ` * ${line}`.trimEnd()).join('\n')}\n */\n${text.slice(at)}`;
}

function tags(card) {
  const inputs = Object.entries(card.inputs).flatMap(([name, spec]) => flat(name, spec));
  const units = inputs
    .filter(({ spec }) => 'unit' in spec)
    .map(({ name, spec }) => `\`${name}\` ${unitText(spec.unit)}`);
  const result = `result ${card.unit === '' ? 'a word' : `in ${card.unit}`}`;
  return [
    ...wrapped(`@formula ${card.formula}`),
    ...wrapped(`@units ${[...units, result].join('; ')}`),
    '@ranges',
    ...(inputs.length === 0 ? ['- no input'] : []),
    ...inputs.flatMap(({ name, spec }) =>
      wrapped(`- \`${name}\`${spec.optional ? ' (optional)' : ''}: ${spec.accepted}; ${spec.about}`, '  '),
    ),
    ...wrapped(
      '@throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range',
    ),
    ...(card.refuses ?? []).flatMap((refusal) =>
      wrapped(`@throws {@link CalculatorError} where refused together: ${refusal}`),
    ),
    '@cautions',
    ...card.cautions.flatMap((caution) => wrapped(`- ${caution}`, '  ')),
    ...wrapped(`@source ${card.source}`),
  ];
}

function unitText(unit) {
  return unit.startsWith('in ') ? unit : `in ${unit}`;
}

function flat(name, spec) {
  if (spec.kind !== 'list') return [{ name, spec }];
  return [
    { name, spec },
    ...Object.entries(spec.of).flatMap(([inner, each]) => flat(`${name}[].${inner}`, each)),
  ];
}

function wrapped(text, indent = '  ') {
  const lines = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + word.length > 105) {
      lines.push(line);
      line = indent + word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line];
}

function indexSource() {
  const lines = calculators.map(({ name, group, text }) => {
    const types = [...text.matchAll(/export (?:type|interface) (\w+)/g)]
      .map(([, type]) => `type ${type}`)
      .sort();
    return `export { ${[camel(name), ...types].join(', ')} } from './${group}/${name}.js';`;
  });
  return `${generated}export type { Card, Result } from './lib/calculator.js';
export { CalculatorError, type CalculatorErrorCode } from './lib/error.js';
export type { DecimalInput } from './lib/input.js';
${lines.join('\n')}\n`;
}

function catalogSource() {
  const imports = calculators.map(
    ({ name, group }) => `import { ${camel(name)}, ${camel(name)}Card } from './${group}/${name}.js';`,
  );
  const entries = calculators.map(
    ({ name, group }) => `'${name}': entry('${group}', ${camel(name)}Card, ${camel(name)}),`,
  );
  return `${generated}${imports.join('\n')}
import { type CatalogEntry, entry } from './lib/catalog-entry.js';

export type { CatalogEntry } from './lib/catalog-entry.js';
export type { Result } from './lib/calculator.js';
export { CalculatorError } from './lib/error.js';
export type { Spec, Specs } from './lib/input.js';

/** Every calculator by its name, for a command or a form that offers them all; to use one, import that one. */
export const calculators = { ${entries.join('\n')} } as const satisfies Readonly<Record<string, CatalogEntry>>;

export type CalculatorName = keyof typeof calculators;\n`;
}

function manifest() {
  const path = join(packageRoot, 'package.json');
  const current = JSON.parse(readFileSync(path, 'utf8'));
  const target = (file) => ({
    'dwellward-source': `./src/${file}.ts`,
    types: `./dist/${file}.d.ts`,
    default: `./dist/${file}.js`,
  });
  const exports = { '.': target('index'), './catalog': target('catalog') };
  for (const { name, group } of calculators) exports[`./${name}`] = target(`${group}/${name}`);
  exports['./package.json'] = './package.json';
  return JSON.stringify({ ...current, exports });
}
