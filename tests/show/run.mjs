// Runs programs and tests of the project for what shows its promises.
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * Runs a program in the root; gives what it printed and its exit code.
 * @param {string} program @param {readonly string[]} args @param {Record<string, string>} [settings]
 * @returns {Promise<{ exit: number | string, stdout: string, stderr: string }>}
 */
export function run(program, args, settings = {}) {
  return new Promise((resolve) => {
    const env = { ...process.env, NO_COLOR: '1', ...settings };
    execFile(program, args, { cwd: root, env, maxBuffer: 1e9 }, (error, stdout, stderr) =>
      resolve({ exit: error === null ? 0 : (error.code ?? 1), stdout, stderr }),
    );
  });
}

/**
 * Runs tests; gives each with its file, its title, its full name, whether it ran and passed, and the figure that it left.
 * Where DWELLWARD_TESTS names the report that `npm test` has just left there, its tests are not run again.
 * @param {readonly string[]} args of Vitest: paths, or `-t` with a pattern
 * @param {Record<string, string>} [settings] of the environment
 */
export async function tested(args, settings) {
  const left = process.env['DWELLWARD_TESTS'];
  if (left !== undefined && settings === undefined) {
    const tests = testsOf(await readFile(left, 'utf8')).filter(({ path }) =>
      args.some((arg) => path.startsWith(arg)),
    );
    if (tests.length > 0) return tests;
  }
  const work = await mkdtemp(join(tmpdir(), 'dwellward-show-'));
  try {
    const output = join(work, 'tests.json');
    const vitest = join(root, 'node_modules/vitest/vitest.mjs');
    const { stderr } = await run(
      process.execPath,
      [vitest, 'run', ...args, '--reporter=json', `--outputFile=${output}`],
      settings,
    );
    if (!existsSync(output)) throw new Error(stderr);
    return testsOf(await readFile(output, 'utf8'));
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** The tests of a report of Vitest. */
function testsOf(report) {
  return JSON.parse(report).testResults.flatMap(({ name, status, message, assertionResults }) => {
    const path = relative(root, name);
    const tests = assertionResults.map(({ title, fullName, status: state, meta }) => ({
      ...{ path, title, fullName, passed: state === 'passed', failed: state === 'failed' },
      figure: meta?.figure,
    }));
    // A file that could not be loaded holds no test and must not pass for none failed.
    const unread = status === 'failed' && tests.every(({ failed }) => !failed);
    return unread
      ? [...tests, { path, title: message, fullName: message, passed: false, failed: false }]
      : tests;
  });
}
