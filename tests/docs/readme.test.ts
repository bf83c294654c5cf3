import { execFile } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';

const run = promisify(execFile);
const root = fileURLToPath(new URL('../..', import.meta.url));
const readme = readFileSync(`${root}/README.md`, 'utf8');

it('the library example of the README runs as it stands', async () => {
  const [, code] = /```js\n([^]*?)```/.exec(readme) ?? [];
  expect(
    code?.split('\n').filter((line) => line !== '' && !line.startsWith('import')).length,
  ).toBeLessThanOrEqual(10);
  const file = fileURLToPath(new URL('./readme-example.tmp.mjs', import.meta.url));
  writeFileSync(file, code ?? '');
  try {
    const { stdout } = await run(process.execPath, [file], { maxBuffer: 1e8 });
    expect(stdout).toContain('Change a gauze dressing daily while neutrophils are very low');
    expect(stdout).toMatch(/\d+ FHIR resources\n$/);
  } finally {
    rmSync(file);
  }
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
