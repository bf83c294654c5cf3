// Compiles the bundled plans from their FSH to resources/*.json, offline: `npm run plans`. With --check it writes
// nothing and fails where the JSON is not what the FSH says, or where the starting plan does not compile by itself. The
// compiler is installed apart, by `npm ci` in fsh/.
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
import { templateFsh } from './template-fsh.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const fsh = join(root, 'fsh');
const resources = join(root, 'resources');
const compiler = join(fsh, 'node_modules/fsh-sushi/dist/app.js');
const home = join(fsh, 'home');

// The compiler offers packages that no plan needs; it is kept from looking for them, and says so.
const expected = /^warn\s+Failed to load automatically-provided /;

function fail(message) {
  console.error(message);
  process.exit(1);
}

/** Runs with a folder that is gone afterwards. */
function inTemporary(use) {
  const folder = mkdtempSync(join(tmpdir(), 'dwellward-fsh-'));
  try {
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Compiles the FSH of a folder; gives every resource as JSON text by its file name. Fails where it says anything. */
function compile(folder) {
  return inTemporary((output) => {
    const run = spawnSync(process.execPath, [compiler, 'build', folder, '--snapshot', '--out', output], {
      encoding: 'utf8',
      maxBuffer: 1e8,
      // Packages come from this folder alone: the same answer with and without a network.
      env: { ...process.env, HOME: home, USERPROFILE: home, FPL_REGISTRY: 'http://127.0.0.1:9' },
    });
    const said = `${run.stdout}\n${run.stderr}`;
    const wrong = said.split('\n').filter((line) => /^(error|warn)\s/.test(line) && !expected.test(line));
    if (run.status !== 0 || wrong.length > 0) fail(said);
    const made = join(output, 'fsh-generated/resources');
    const read = (name) => JSON.parse(readFileSync(join(made, name), 'utf8'));
    return new Map(readdirSync(made).map((name) => [name, jsonText(inR4Order(read(name)))]));
  });
}

/** The starting plan as `policy new` prints it, compiled beside nothing but a sushi-config.yaml. */
function compileTemplate() {
  return inTemporary((folder) => {
    const input = join(folder, 'input/fsh');
    mkdirSync(input, { recursive: true });
    writeFileSync(join(input, 'our-unit.fsh'), templateFsh());
    const config = 'canonical: https://your-hospital.example/fhir\nfhirVersion: 4.0.1\nFSHOnly: true\n';
    writeFileSync(join(folder, 'sushi-config.yaml'), config);
    return compile(folder);
  });
}

/** The names of the files that are not as they should be. */
function differing(files) {
  const there = existsSync(resources) ? readdirSync(resources) : [];
  const changed = [...files].filter(
    ([name, text]) => !there.includes(name) || readFileSync(join(resources, name), 'utf8') !== text,
  );
  return [...there.filter((name) => !files.has(name)), ...changed.map(([name]) => name)].sort();
}

function check(files, different) {
  if (different.length > 0) fail(`Not what the FSH says: ${different.join(', ')}. Run \`npm run plans\`.`);
  for (const [name, text] of compileTemplate()) {
    if (files.get(name) !== text) fail(`${name} is another when the starting plan is compiled by itself.`);
  }
  console.log(`${files.size} resources are what the FSH says; the starting plan compiles by itself.`);
}

function write(files, different) {
  mkdirSync(resources, { recursive: true });
  for (const name of different) {
    if (files.has(name)) writeFileSync(join(resources, name), files.get(name));
    else rmSync(join(resources, name));
  }
  embed();
  console.log(`${files.size} resources, ${different.length} changed.`);
}

if (!existsSync(compiler))
  fail('The FSH compiler is not installed: run `npm ci` in packages/policy/fsh first.');
writeR4Core(join(home, '.fhir/packages'));
const compiled = compile(fsh);
(process.argv.includes('--check') ? check : write)(compiled, differing(compiled));
