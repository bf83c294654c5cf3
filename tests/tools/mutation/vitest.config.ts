import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { packages } from './packages.mjs';

// The tester copies the project and mutates the copy, but shares node_modules, whose links lead to the originals: the
// packages are named here, by where the copy has them.
const root = process.cwd();
const alias = ['packages', 'services', '.'].flatMap((folder) =>
  (folder === '.' ? ['fixtures'] : readdirSync(join(root, folder))).flatMap((name) => {
    const at = join(root, folder, name);
    const { name: called, exports = {} } = JSON.parse(readFileSync(join(at, 'package.json'), 'utf8')) as {
      name: string;
      exports?: Record<string, string | Record<string, string>>;
    };
    return Object.entries(exports).flatMap(([entry, target]) => {
      const source = typeof target === 'string' ? undefined : target['dwellward-source'];
      if (source === undefined) return [];
      return [{ find: new RegExp(`^${called}${entry.slice(1)}$`), replacement: join(at, source) }];
    });
  }),
);
const { tests, withoutTests } = packages[process.env['DWELLWARD_MUTATED'] as keyof typeof packages];

// The first test that fails ends the run of a mutant: the small files come first, and those that cross packages last.
const weight = ({ moduleId }: TestSpecification): number =>
  statSync(moduleId).size + (moduleId.startsWith(join(root, 'tests')) ? 1e9 : 0);
class CheapestFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return Promise.resolve([...files].sort((a, b) => weight(a) - weight(b)));
  }
}

export default defineConfig({
  resolve: { alias },
  test: {
    include: tests,
    exclude: ['**/node_modules/**', '**/dist/**', ...withoutTests],
    setupFiles: ['./tests/fast-check-setup.ts'],
    testTimeout: 60_000,
    isolate: false,
    sequence: { sequencer: CheapestFirst },
  },
});
