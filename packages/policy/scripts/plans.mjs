// Compiles the bundled plans from their FSH to resources/*.json, offline: `npm run plans`. With --check it writes
// nothing and fails where the JSON is not what the FSH says. The compiler is installed apart, by `npm ci` in fsh/.
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { embed } from './embed.mjs';
import { inR4Order, jsonText } from './json-text.mjs';
import { writeR4Core } from './r4-core.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const fsh = join(root, 'fsh');
const resources = join(root, 'resources');
const compiler = join(fsh, 'node_modules/fsh-sushi/dist/app.js');
const home = join(fsh, 'home');

// The compiler offers packages that no plan needs; without a network it can’t have them, and says so.
const expected = /^warn\s+Failed to load automatically-provided /;

/** Compiles the FSH; gives every resource as JSON text by its file name. Ends the process where it says anything. */
function compile() {
  if (!existsSync(compiler)) {
    console.error('The FSH compiler is not installed: run `npm ci` in packages/policy/fsh first.');
    process.exit(1);
  }
  writeR4Core(join(home, '.fhir/packages'));
  const output = mkdtempSync(join(tmpdir(), 'dwellward-fsh-'));
  try {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [compiler, 'build', fsh, '--snapshot', '--out', output],
      {
        encoding: 'utf8',
        maxBuffer: 1e8,
        // Packages come from the folder above alone: the same answer with and without a network.
        env: { ...process.env, HOME: home, USERPROFILE: home, FPL_REGISTRY: 'http://127.0.0.1:9' },
      },
    );
    const said = `${stdout}\n${stderr}`.split('\n').filter((line) => /^(error|warn)\s/.test(line));
    const wrong = said.filter((line) => !expected.test(line));
    if (status !== 0 || wrong.length > 0) {
      console.error(wrong.length > 0 ? stdout : `${stdout}\n${stderr}`);
      process.exit(1);
    }
    const made = join(output, 'fsh-generated/resources');
    const read = (name) => JSON.parse(readFileSync(join(made, name), 'utf8'));
    return new Map(readdirSync(made).map((name) => [name, jsonText(inR4Order(read(name)))]));
  } finally {
    rmSync(output, { recursive: true, force: true });
  }
}

/** The files that are not as they should be. */
function differing(files) {
  const there = existsSync(resources) ? readdirSync(resources) : [];
  const gone = there.filter((name) => !files.has(name));
  const changed = [...files].filter(
    ([name, text]) => !there.includes(name) || readFileSync(join(resources, name), 'utf8') !== text,
  );
  return [...gone, ...changed.map(([name]) => name)].sort();
}

const files = compile();
const different = differing(files);
if (process.argv.includes('--check')) {
  if (different.length > 0) {
    console.error(`Not what the FSH says: ${different.join(', ')}. Run \`npm run plans\`.`);
    process.exit(1);
  }
  console.log(`${files.size} resources are what the FSH says.`);
} else {
  mkdirSync(resources, { recursive: true });
  for (const name of different) rmSync(join(resources, name), { force: true });
  for (const name of different.filter((one) => files.has(one)))
    writeFileSync(join(resources, name), files.get(name));
  embed();
  console.log(`${files.size} resources, ${different.length} changed.`);
}
