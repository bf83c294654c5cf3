// Bundles demo.ts beside itself, so that the packages are those that were built, and runs it.
import { rm } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const file = (name) => fileURLToPath(new URL(name, import.meta.url));
const made = file('./demo.made.mjs');
try {
  await build({
    ...{ entryPoints: [file('./demo.ts')], outfile: made, bundle: true },
    ...{ packages: 'external', platform: 'node', format: 'esm' },
  });
  const { demo } = await import(made);
  process.exitCode = await demo((text) => process.stdout.write(text));
} finally {
  await rm(made, { force: true });
}
