// Puts the command and what it reaches of this project's packages into few files: looking for several hundred takes longer
// than to work out what is due. What others wrote stays outside, and is loaded from where it is installed.
import { readFileSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'dist');
const ours = /^@dwellward\//;
const outside = new Set();

/** Leaves outside whatever is not of this project, and notes what that is. */
const leftOutside = {
  name: 'left-outside',
  setup: ({ onResolve }) =>
    onResolve({ filter: /^[^.#/]/ }, ({ path, kind }) => {
      if (kind === 'entry-point' || ours.test(path)) return undefined;
      if (!path.startsWith('node:')) outside.add(/^(@[^/]+\/)?[^/]+/.exec(path)[0]);
      return { path, external: true };
    }),
};

const dependenciesOf = (folder) =>
  JSON.parse(readFileSync(join(root, '..', folder, 'package.json'), 'utf8')).dependencies ?? {};

/** The command must be installed with just the versions that the packages in it would have. */
function checkVersions() {
  const own = dependenciesOf('cli');
  const inPackages = readdirSync(join(root, '..')).flatMap((folder) =>
    Object.entries(dependenciesOf(folder)),
  );
  for (const [name, version] of inPackages) {
    if (ours.test(name) || (!outside.has(name) && !loadedLater.includes(name))) continue;
    if (own[name] !== version)
      throw new Error(`packages/cli/package.json has ${name} ${own[name]}; the command wants ${version}.`);
  }
}

// What packages/policy/src/outside/later.ts loads by name.
const loadedLater = ['fhirpath', '@lhncbc/ucum-lhc', 'zod'];

rmSync(join(dist, 'parts'), { recursive: true, force: true });
await build({
  entryPoints: { command: join(dist, 'index.js') },
  outdir: dist,
  chunkNames: 'parts/[name]-[hash]',
  ...{ bundle: true, splitting: true, format: 'esm', platform: 'node', target: 'node20' },
  // Without `module`, as Node itself resolves: so the libraries that are loaded later stay so.
  conditions: [],
  plugins: [leftOutside],
  legalComments: 'none',
  logLevel: 'warning',
});
checkVersions();
