// Makes resources/ of packages/profiles from the FSH and the typed tables there: `npm run profiles`. With --check it writes nothing and
// fails where the JSON is not what they say. With --package FOLDER it writes the FHIR package, with the plans in it, as a
// folder and as the tarball that FHIR tooling loads. It stands here for the compiler does: `npm ci` in ../fsh.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { codeSystems, conceptMaps, valueSets } from '@dwellward/profiles';
import { compile, differing, fail, inTemporary } from './compile-fsh.mjs';
import { jsonText } from './json-text.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '../../profiles');
const resources = join(root, 'resources');
const policies = join(root, '../policy/resources');

/** Code systems, value sets and maps, by their file names: the compiler takes them for what the profiles bind to. */
const terminology = new Map(
  [...codeSystems(), ...valueSets(), ...conceptMaps()].map((one) => [
    `${one.resourceType}-${one.id}.json`,
    jsonText(one),
  ]),
);

function made() {
  return inTemporary((folder) => {
    cpSync(join(root, 'fsh'), folder, { recursive: true });
    mkdirSync(join(folder, 'input/resources'), { recursive: true });
    for (const [name, text] of terminology) writeFileSync(join(folder, 'input/resources', name), text);
    return new Map([...compile(folder), ...terminology]);
  });
}

function writeAll(changes) {
  mkdirSync(resources, { recursive: true });
  for (const [path, text] of changes) {
    if (text === undefined) rmSync(path);
    else writeFileSync(path, text);
  }
}

const isExample = ({ resourceType, url }) =>
  url === undefined || !/^https:\/\/dwellward\.example\/fhir\//.test(url) || resourceType === 'Parameters';

/** The FHIR package: https://hl7.org/fhir/packages is its description (from memory: package/, package.json, .index.json). */
function writePackage(out) {
  const { version, license } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const folder = join(out, 'package');
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(join(folder, 'example'), { recursive: true });
  for (const file of ['LICENSE', 'NOTICE']) cpSync(join(root, file), join(folder, file));
  const index = [];
  for (const from of [resources, policies]) {
    for (const filename of readdirSync(from).sort()) {
      const resource = JSON.parse(readFileSync(join(from, filename), 'utf8'));
      if (isExample(resource)) {
        cpSync(join(from, filename), join(folder, 'example', filename));
        continue;
      }
      cpSync(join(from, filename), join(folder, filename));
      const { resourceType, id, url, version: own, kind, type, derivation } = resource;
      index.push({
        filename,
        resourceType,
        id,
        url,
        ...(own === undefined ? {} : { version: own }),
        ...(kind === undefined ? {} : { kind }),
        ...(typeof type === 'string' ? { type } : {}),
        ...(derivation === undefined ? {} : { derivation }),
      });
    }
  }
  const about = {
    name: 'dwellward.fhir.r4',
    version,
    type: 'IG',
    license,
    title: 'Dwellward',
    description: 'Profiles, extensions, code systems and care policies for central venous lines.',
    canonical: 'https://dwellward.example/fhir',
    url: 'https://dwellward.example/fhir',
    fhirVersions: ['4.0.1'],
    dependencies: { 'hl7.fhir.r4.core': '4.0.1' },
  };
  writeFileSync(join(folder, 'package.json'), `${JSON.stringify(about, null, 2)}\n`);
  writeFileSync(
    join(folder, '.index.json'),
    `${JSON.stringify({ 'index-version': 2, files: index }, null, 2)}\n`,
  );
  const tarball = join(out, `${about.name}-${version}.tgz`);
  const { status, stderr } = spawnSync('tar', ['-czf', tarball, '-C', out, 'package'], { encoding: 'utf8' });
  if (status !== 0) fail(`The tarball can’t be written: ${stderr}`);
  return `${relative(process.cwd(), tarball)}: ${index.length} resources, ${readdirSync(join(folder, 'example')).length} examples.`;
}

/** Another project of FSH, which depends on the package and takes its profile of a Task further. */
function deriveFrom(version) {
  return inTemporary((folder) => {
    writePackage(folder);
    const input = join(folder, 'project/input/fsh');
    mkdirSync(input, { recursive: true });
    const config = {
      canonical: 'https://hospital.example/fhir',
      fhirVersion: '4.0.1',
      FSHOnly: true,
      dependencies: { 'dwellward.fhir.r4': version },
    };
    writeFileSync(join(folder, 'project/sushi-config.yaml'), JSON.stringify(config));
    const profile = 'Profile: WardTask\nParent: due-care-task\nId: ward-task\n* location 1..1\n';
    writeFileSync(join(input, 'ward.fsh'), profile);
    mkdirSync(join(folder, 'loaded'));
    cpSync(join(folder, 'package'), join(folder, 'loaded/package'), { recursive: true });
    const made = compile(
      join(folder, 'project'),
      new Map([[`dwellward.fhir.r4#${version}`, join(folder, 'loaded')]]),
    );
    const { baseDefinition, snapshot } = JSON.parse(made.get('StructureDefinition-ward-task.json') ?? '{}');
    if (baseDefinition !== 'https://dwellward.example/fhir/StructureDefinition/due-care-task' || !snapshot)
      fail('FSH of others can’t take a profile of the package further.');
  });
}

const at = process.argv.indexOf('--package');
if (at >= 0) {
  if (process.argv[at + 1] === undefined) fail('--package wants the folder to write to.');
  console.log(writePackage(resolve(process.argv[at + 1])));
} else {
  const all = made();
  const changes = differing(resources, all);
  if (process.argv.includes('--check')) {
    const names = [...changes.keys()].map((path) => relative(process.cwd(), path));
    if (names.length > 0)
      fail(`Not what the FSH and the tables say: ${names.join(', ')}. Run \`npm run profiles\`.`);
    deriveFrom(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version);
    console.log(
      `0 errors; ${all.size} resources are what the FSH and the tables say; the package is loaded by the FSH compiler, and a profile taken further.`,
    );
  } else {
    writeAll(changes);
    console.log(`${all.size} resources, ${changes.size} changed.`);
  }
}
