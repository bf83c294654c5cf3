// Makes src/generated/ from resources/*.json, for the package reads no file when it runs. The build and the tests run
// it; what it makes is not committed.
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { examplesFsh, templateFsh } from './template-fsh.mjs';
import { treeParts } from './trees.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const resources = join(root, 'resources');
const generated = join(root, 'src/generated');
const template = 'our-unit';
const examples = 'our-unit-examples';
const note =
  '// Made from resources/*.json by scripts/embed.mjs: change the FSH and run `npm run plans`.\n\n';

/** Writes src/generated/ anew, where it is not as it should be. */
export async function embed() {
  const texts = readdirSync(resources)
    .sort()
    .map((name) => JSON.parse(readFileSync(join(resources, name), 'utf8')));
  const of = (type) => texts.filter(({ resourceType }) => resourceType === type);
  const plans = of('PlanDefinition').filter(({ id }) => id !== template && id !== examples);
  const named = (id) => of('PlanDefinition').find((plan) => plan.id === id);
  write('plans.ts', [
    `export type PlanName = ${plans.map(({ id }) => quoted(id)).join(' | ')};`,
    '/** The JSON of every bundled plan. */',
    `export const planTexts: Readonly<Record<PlanName, string>> = {\n${plans.map(entry).join('\n')}\n};`,
  ]);
  write('activities.ts', [
    '/** The JSON of every bundled ActivityDefinition. */',
    `export const activityTexts: readonly string[] = [\n${of('ActivityDefinition').map(text).join(',\n')},\n];`,
  ]);
  write('template.ts', [
    '/** The starting plan and the examples as JSON, and the FSH of each with the words that it is written in. */',
    `export const templateJson = ${text(named(template))};`,
    `export const templateFsh = ${quoted(templateFsh())};`,
    `export const examplesJson = ${text(named(examples))};`,
    `export const examplesFsh = ${quoted(examplesFsh())};`,
  ]);
  // Last: they are made from the plans.
  const trees = await treeParts();
  if (trees !== undefined) write('trees.ts', trees);
}

const quoted = (value) => JSON.stringify(value);
const text = (resource) => quoted(JSON.stringify(resource));
const entry = (resource) => `  ${quoted(resource.id)}: ${text(resource)},`;

function write(name, parts) {
  const path = join(generated, name);
  const content = `${note}${parts.join('\n')}\n`;
  if (existsSync(path) && readFileSync(path, 'utf8') === content) return;
  mkdirSync(generated, { recursive: true });
  writeFileSync(path, content);
}

/** For Vitest, which runs it once before all tests. */
export default embed;

if (process.argv[1] === fileURLToPath(import.meta.url)) await embed();
