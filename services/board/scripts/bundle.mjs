// Bundles the page for the browser: one script and one style sheet, beside the pages that load them.
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const out = here('../dist/public');
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
await build({
  entryPoints: { board: here('../page/main.tsx'), style: here('../page/board.css') },
  outdir: out,
  bundle: true,
  minify: true,
  format: 'esm',
  target: ['es2022'],
  jsx: 'automatic',
  jsxImportSource: 'preact',
  sourcemap: 'linked',
  logLevel: 'warning',
});
cpSync(here('../page/index.html'), `${out}/index.html`);
