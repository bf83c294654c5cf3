// `npm run release`: what has to hold before a release, a software bill of materials of each package in `reports/sbom`, the FHIR
// package in `reports/fhir`, and a publication that is only rehearsed. `-- --publish` publishes, with provenance, where a build service vouches for it.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../show/run.mjs';
import { folders } from './published.mjs';

const publish = process.argv.includes('--publish');

function call(program, args, cwd = root) {
  const { status, stdout } = spawnSync(program, args, {
    cwd,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (status !== 0) {
    console.error(`${program} ${args.join(' ')} ends with ${status}: nothing is released.`);
    process.exit(1);
  }
  return stdout;
}

const dirty = call('git', ['status', '--porcelain']).trim();
if (dirty !== '' && publish) {
  console.error(`Not committed:\n${dirty}\nNothing is released.`);
  process.exit(1);
}
const { repository } = JSON.parse(readFileSync(join(root, folders[0], 'package.json'), 'utf8'));
if (publish && new URL(repository.url.replace(/^git\+/, '')).hostname.endsWith('.example')) {
  console.error(
    'The repository of the packages is a placeholder: set it first, provenance is held against it.',
  );
  process.exit(1);
}
call('npm', ['run', 'build']);
console.log(call(process.execPath, ['tests/pack/check.mjs']));

const bills = join(root, 'reports/sbom');
mkdirSync(bills, { recursive: true });
for (const folder of folders) {
  const bill = call('npm', ['sbom', '--omit=dev', '--sbom-format', 'cyclonedx', '--workspace', folder]);
  const file = join(bills, `${folder.split('/')[1]}.cdx.json`);
  writeFileSync(file, bill);
  console.log(`${file}: ${JSON.parse(bill).components.length} components`);
}
console.log(call(process.execPath, ['packages/policy/scripts/profiles.mjs', '--package', 'reports/fhir']));
for (const folder of folders) {
  call('npm', [
    'publish',
    '--workspace',
    folder,
    ...(publish ? ['--provenance'] : ['--dry-run', '--provenance=false']),
  ]);
  console.log(`${folder}: ${publish ? 'published' : 'would be published'}`);
}
