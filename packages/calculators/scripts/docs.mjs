// Builds the API pages and fails where a public calculator's page lacks formula, units, ranges, errors, cautions or
// source, or where its doc comment no longer says what its card says.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Application } from 'typedoc';
import { packageRoot, sourceFiles } from './calculators.mjs';

export const neededTags = ['@formula', '@units', '@ranges', '@throws', '@cautions', '@source'];
const pages = join(packageRoot, '../../reports/api/calculators');

/** What each documented function lacks: `name: @tag`, for a typedoc project as JSON. */
export function missingTags(project) {
  const functionKind = 64;
  return project.children
    .filter(({ kind }) => kind === functionKind)
    .flatMap(({ name, signatures }) => {
      const comment = signatures[0].comment ?? {};
      const text = (parts) =>
        (parts ?? [])
          .map((part) => part.text)
          .join('')
          .trim();
      const tags = new Map((comment.blockTags ?? []).map(({ tag, content }) => [tag, text(content)]));
      const lacks = neededTags.filter((tag) => (tags.get(tag) ?? '') === '');
      if (text(comment.summary) === '') lacks.push('summary');
      return lacks.map((tag) => `${name}: ${tag}`);
    });
}

/** Builds the pages and reports `{ functions, problems }`. */
export async function buildDocs() {
  const app = await Application.bootstrapWithPlugins({
    options: join(packageRoot, 'typedoc.json'),
    logLevel: 'Warn',
  });
  const project = await app.convert();
  if (project === undefined || app.logger.hasErrors())
    return { functions: 0, problems: ['typedoc reports errors'] };
  app.validate(project);
  await app.generateOutputs(project);
  const json = JSON.parse(readFileSync(`${pages}.json`, 'utf8'));
  const problems = missingTags(json);
  if (app.logger.hasErrors() || app.logger.hasWarnings()) problems.push('typedoc reports warnings');
  const functions = json.children.filter(({ kind }) => kind === 64).map(({ name }) => name);
  for (const name of functions) {
    const html = readFileSync(join(pages, `functions/${name}.html`), 'utf8');
    // The headings a reader sees, not only the data behind them.
    for (const heading of ['Formula', 'Units', 'Ranges', 'Throws', 'Cautions', 'Source']) {
      if (!html.includes(`${heading}<a`)) problems.push(`${name}: no heading ${heading} on its page`);
    }
  }
  const expected = sourceFiles().length;
  if (functions.length !== expected)
    problems.push(`${functions.length} functions documented, ${expected} exist`);
  return { functions: functions.length, problems };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { functions, problems } = await buildDocs();
  if (problems.length > 0) console.log(problems.join('\n'));
  console.log(
    `${functions} functions with formula, units, ranges, errors, cautions and source: reports/api/calculators`,
  );
  process.exitCode = problems.length === 0 ? 0 : 1;
}
