// Compiles the bundled plans from their FSH to resources/*.json, and the plan of the demo unit beside its FSH, offline:
// `npm run plans`. With --check it writes nothing and fails where the JSON is not what the FSH says, or where the starting
// plan does not compile by itself. The compiler is installed apart, by `npm ci` in fsh/.
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
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { embed } from './embed.mjs';
import { inR4Order, jsonText } from './json-text.mjs';
import { writeR4Core } from './r4-core.mjs';
import { examplesFsh, templateFsh, withLanguage } from './template-fsh.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const fsh = join(root, 'fsh');
const resources = join(root, 'resources');
const unitPlan = join(root, '../../fixtures/policy');
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

/** A plan with the words that it is written in, compiled beside nothing but a sushi-config.yaml. */
function compileAlone(text, canonical) {
  return inTemporary((folder) => {
    const input = join(folder, 'input/fsh');
    mkdirSync(input, { recursive: true });
    writeFileSync(join(input, 'plan.fsh'), text);
    const config = `canonical: ${canonical}\nfhirVersion: 4.0.1\nFSHOnly: true\n`;
    writeFileSync(join(folder, 'sushi-config.yaml'), config);
    return compile(folder);
  });
}

/** The plan of the demo unit, as a hospital would compile one. */
function compileUnit() {
  const text = readFileSync(join(unitPlan, 'lanternfern.fsh'), 'utf8');
  return compileAlone(withLanguage(text), 'https://lanternfern.example/fhir');
}

const textOf = (path) => (existsSync(path) ? readFileSync(path, 'utf8') : undefined);

/** What has to be written or removed, as texts by their paths; undefined for what is not to be there. */
function differing(bundled, unit) {
  const wanted = new Map([
    ...[...bundled].map(([name, text]) => [join(resources, name), text]),
    ...[...unit].map(([name, text]) => [join(unitPlan, name), text]),
  ]);
  const gone = (existsSync(resources) ? readdirSync(resources) : [])
    .map((name) => join(resources, name))
    .filter((path) => !wanted.has(path));
  return new Map([
    ...gone.map((path) => [path, undefined]),
    ...[...wanted].filter(([path, text]) => textOf(path) !== text),
  ]);
}

function check(bundled, different) {
  const names = [...different.keys()].map((path) => relative(process.cwd(), path));
  if (names.length > 0) fail(`Not what the FSH says: ${names.join(', ')}. Run \`npm run plans\`.`);
  for (const printed of [templateFsh(), examplesFsh()]) {
    for (const [name, text] of compileAlone(printed, 'https://your-hospital.example/fhir')) {
      if (bundled.get(name) !== text) fail(`${name} is another when it is compiled by itself.`);
    }
  }
}

function write(different) {
  mkdirSync(resources, { recursive: true });
  for (const [path, text] of different) {
    if (text === undefined) rmSync(path);
    else writeFileSync(path, text);
  }
  embed();
}

if (!existsSync(compiler))
  fail('The FSH compiler is not installed: run `npm ci` in packages/policy/fsh first.');
writeR4Core(join(home, '.fhir/packages'));
const bundled = compile(fsh);
const unit = compileUnit();
const different = differing(bundled, unit);
const count = `${bundled.size} resources and the plan of the demo unit`;
if (process.argv.includes('--check')) {
  check(bundled, different);
  console.log(
    `0 errors; ${count} are what the FSH says; the starting plan and the examples compile by themselves.`,
  );
} else {
  write(different);
  console.log(`${count}, ${different.size} changed.`);
}
