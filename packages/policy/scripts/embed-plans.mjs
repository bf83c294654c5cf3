// Writes src/plans/*.ts from plans/*.json. The package reads no file when it runs, and Node 20 still warns of JSON
// imports, so the plans are embedded as modules; the JSON is what people edit. A test keeps the two in step.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';

const plans = new URL('../plans/', import.meta.url);
for (const file of readdirSync(plans).filter((name) => name.endsWith('.json'))) {
  const target = new URL(`../src/plans/${file.replace('.json', '.ts')}`, import.meta.url);
  const plan = JSON.stringify(JSON.parse(readFileSync(new URL(file, plans), 'utf8')));
  const options = await resolveConfig(target.pathname);
  const body = await format(`export const plan: unknown = ${plan};`, { ...options, parser: 'typescript' });
  const note = `// Made from plans/${file} by scripts/embed-plans.mjs: change that file, not this one.`;
  writeFileSync(target, `${note}\n\n${body}`);
}
