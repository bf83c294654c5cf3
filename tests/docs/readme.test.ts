import { execFile } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { transform } from 'esbuild';
import ts from 'typescript';
import { expect, it } from 'vitest';

const run = promisify(execFile);
const root = fileURLToPath(new URL('../..', import.meta.url));
const readme = readFileSync(`${root}/README.md`, 'utf8');

/** Runs an example in TypeScript as it stands, where `unit.json` is the demo unit. */
async function runs(code: string): Promise<string> {
  const work = mkdtempSync(join(tmpdir(), 'readme-'));
  const file = fileURLToPath(new URL('./readme-example.tmp.mjs', import.meta.url));
  try {
    cpSync(`${root}/fixtures/lanternfern-unit.json`, join(work, 'unit.json'));
    writeFileSync(file, (await transform(code, { loader: 'ts', format: 'esm' })).code);
    return (await run(process.execPath, [file], { cwd: work, maxBuffer: 1e8 })).stdout;
  } finally {
    rmSync(file, { force: true });
    rmSync(work, { recursive: true });
  }
}

const exampleOf = (text: string) => /```ts\n([^]*?)```/.exec(text)?.[1] ?? '';

it('the library example of the README runs as it stands', async () => {
  const code = exampleOf(readme);
  const { statements } = ts.createSourceFile('readme.ts', code, ts.ScriptTarget.ES2023);
  expect(statements.filter((one) => !ts.isImportDeclaration(one)).length).toBeLessThanOrEqual(10);
  const said = await runs(code);
  expect(said).toContain('Line care due at Wed 25 Nov 07:30 (Europe/Berlin)');
  // One sentence a line, in words: no object has slipped in between.
  expect(said).toMatch(/^Alder Nuthatch.*\n/m);
  expect(said).not.toMatch(/\[object|code: '/);
  expect(said).toMatch(/\d+ FHIR resources\n$/);
});

it('the example of one calculator runs as it stands', async () => {
  expect(await runs(exampleOf(readFileSync(`${root}/docs/library.md`, 'utf8')))).toMatch(/^\d+\.\d mL \[/);
});

it('the commands of the README on the demo unit run as they stand', async () => {
  const commands = [...readme.matchAll(/^npx dwellward (due|explain) fixtures([^]*?[^\\])$/gm)].map(
    ([text]) => text.replace(/\\\n/g, ' '),
  );
  expect(commands).toHaveLength(2);
  for (const command of commands) {
    const args = command.split(/\s+/).slice(2);
    const { stdout } = await run(process.execPath, [`${root}/packages/cli/bin/dwellward.js`, ...args], {
      cwd: root,
    });
    expect(stdout).toContain('Device/spindle-picc');
  }
});

it('opens with the job in one paragraph of sentences that can be read aloud, and fits two pages', () => {
  for (const sentence of (readme.split('\n\n')[1] ?? '').split(/(?<=[.])\s/))
    expect(sentence.split(/\s+/).length, sentence).toBeLessThanOrEqual(90);
  const prose = readme.replace(/```[^]*?```/g, '').replace(/^\|.*$/gm, '');
  expect(prose.split(/\s+/).length).toBeLessThanOrEqual(900);
});

it('every page that the README and the pages of docs name is there', () => {
  const pages = ['README.md', 'DEVELOPERS.md', ...readdirSync(`${root}/docs`).map((name) => `docs/${name}`)];
  const missing = pages
    .filter((page) => page.endsWith('.md'))
    .flatMap((page) =>
      [...readFileSync(`${root}/${page}`, 'utf8').matchAll(/\]\(([^)#:]+)(?:#[^)]*)?\)/g)].map(
        ([, to = '']) => [page, to] as const,
      ),
    )
    .filter(([page, to]) => !existsSync(join(root, dirname(page), to)));
  expect(missing).toEqual([]);
});
