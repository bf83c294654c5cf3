// Compiles the bundled plans from their FSH to resources/*.json, and the plan of the demo unit beside its FSH, offline:
// `npm run plans`. With --check it writes nothing and fails where the JSON is not what the FSH says, or where the starting
// plan does not compile by itself. The compiler is installed apart, by `npm ci` in fsh/.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { compile, differing, fail, inTemporary } from './compile-fsh.mjs';
import { embed } from './embed.mjs';
import { examplesFsh, templateFsh, withLanguage } from './template-fsh.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const resources = join(root, 'resources');
const unitPlan = join(root, '../../fixtures/policy');

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

/** What has to be written or removed, as texts by their paths; undefined for what is not to be there. */
function different(bundled, unit) {
  const beside = [...unit].filter(([name, text]) => {
    const path = join(unitPlan, name);
    return !existsSync(path) || readFileSync(path, 'utf8') !== text;
  });
  return new Map([
    ...differing(resources, bundled),
    ...beside.map(([name, text]) => [join(unitPlan, name), text]),
  ]);
}

function check(bundled, changes) {
  const names = [...changes.keys()].map((path) => relative(process.cwd(), path));
  if (names.length > 0) fail(`Not what the FSH says: ${names.join(', ')}. Run \`npm run plans\`.`);
  for (const printed of [templateFsh(), examplesFsh()]) {
    for (const [name, text] of compileAlone(printed, 'https://your-hospital.example/fhir')) {
      if (bundled.get(name) !== text) fail(`${name} is another when it is compiled by itself.`);
    }
  }
}

async function write(changes) {
  mkdirSync(resources, { recursive: true });
  for (const [path, text] of changes) {
    if (text === undefined) rmSync(path);
    else writeFileSync(path, text);
  }
  await embed();
}

const bundled = compile(join(root, 'fsh'));
const unit = compileUnit();
const changes = different(bundled, unit);
const count = `${bundled.size} resources and the plan of the demo unit`;
if (process.argv.includes('--check')) {
  check(bundled, changes);
  console.log(
    `0 errors; ${count} are what the FSH says; the starting plan and the examples compile by themselves.`,
  );
} else {
  await write(changes);
  console.log(`${count}, ${changes.size} changed.`);
}
