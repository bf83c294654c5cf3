// The FSH compiler, offline: what of R4 it checks against comes from the registry’s definitions, and a warning is a fault.
import { cpSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { inR4Order, jsonText } from './json-text.mjs';
import { writeR4Core } from './r4-core.mjs';

const fsh = join(dirname(fileURLToPath(import.meta.url)), '../fsh');
const compiler = join(fsh, 'node_modules/fsh-sushi/dist/app.js');
const home = join(fsh, 'home');

// The compiler offers packages that nothing here needs; it is kept from looking for them, and says so.
const expected = /^warn\s+Failed to load automatically-provided /;

/** Ends the script with what went wrong. */
export function fail(message) {
  console.error(message);
  process.exit(1);
}

/** Runs with a folder that is gone afterwards. */
export function inTemporary(use) {
  const folder = mkdtempSync(join(tmpdir(), 'dwellward-fsh-'));
  try {
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Compiles the FSH of a folder; gives every resource as JSON text by its file name. Fails where it says anything.
 * @param packages folders of FHIR packages besides that of R4, by name and version as in `name#1.0.0`.
 */
export function compile(folder, packages = new Map()) {
  if (!existsSync(compiler))
    fail('The FSH compiler is not installed: run `npm ci` in packages/policy/fsh first.');
  writeR4Core(join(home, '.fhir/packages'));
  return inTemporary((output) => {
    const place = packages.size === 0 ? home : join(output, 'home');
    if (place !== home) cpSync(home, place, { recursive: true });
    for (const [name, from] of packages)
      cpSync(from, join(place, '.fhir/packages', name), { recursive: true });
    const run = spawnSync(process.execPath, [compiler, 'build', folder, '--snapshot', '--out', output], {
      encoding: 'utf8',
      maxBuffer: 1e8,
      // Packages come from this folder alone: the same answer with and without a network.
      env: { ...process.env, HOME: place, USERPROFILE: place, FPL_REGISTRY: 'http://127.0.0.1:9' },
    });
    const said = `${run.stdout}\n${run.stderr}`;
    const wrong = said.split('\n').filter((line) => /^(error|warn)\s/.test(line) && !expected.test(line));
    if (run.status !== 0 || wrong.length > 0) fail(said);
    const made = join(output, 'fsh-generated/resources');
    const read = (name) => JSON.parse(readFileSync(join(made, name), 'utf8'));
    return new Map(readdirSync(made).map((name) => [name, jsonText(inR4Order(read(name)))]));
  });
}

const textOf = (path) => (existsSync(path) ? readFileSync(path, 'utf8') : undefined);

/** What of a folder has to be written or removed so that it holds these texts by their names; undefined for what is not to be there. */
export function differing(folder, texts) {
  const wanted = new Map([...texts].map(([name, text]) => [join(folder, name), text]));
  const gone = (existsSync(folder) ? readdirSync(folder) : [])
    .map((name) => join(folder, name))
    .filter((path) => !wanted.has(path));
  return new Map([
    ...gone.map((path) => [path, undefined]),
    ...[...wanted].filter(([path, text]) => textOf(path) !== text),
  ]);
}
