import { defineConfig } from 'vitest/config';
import { withoutControl } from './tests/harm/without-control.js';

// Workspace packages are tested from their sources, so no build has to run first. Without `import` and `module`: the
// list also reaches Node’s own require() in the workers, which would then load ES modules where CommonJS is expected.
const conditions = ['dwellward-source', 'node'];

/** Where a whole run leaves its report, so that what shows the promises need not run its tests again. */
const left = process.env['DWELLWARD_LEAVE_TESTS'];

export default defineConfig({
  plugins: withoutControl(),
  resolve: { conditions },
  ssr: { resolve: { conditions, externalConditions: conditions } },
  test: {
    include: ['packages/*/src/**/*.test.ts', 'services/*/src/**/*.test.ts', 'tests/**/*.test.ts'],
    exclude: ['**/node_modules/**', '**/dist/**'],
    // The modules made from the plans’ JSON, which may have changed since the last build.
    globalSetup: ['./packages/policy/scripts/embed.mjs'],
    setupFiles: ['./tests/fast-check-setup.ts'],
    // The slowest take a quarter of it on a quiet core.
    testTimeout: 180_000,
    hookTimeout: 60_000,
    pool: 'forks',
    // Loading the packages anew for every file took longer than its tests: files of one worker share them. So no test may
    // leave anything changed behind it; a mock or a stand-in is taken back where it was put.
    isolate: false,
    // One core is left free by default; on two cores that is half of them.
    maxWorkers: '100%',
    reporters: ['default', './tests/summary-reporter.ts', ...(left === undefined ? [] : ['json'])],
    outputFile: left === undefined ? {} : { json: left },
  },
});
