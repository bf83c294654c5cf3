// Prints every figure that the package promises, and fails where one falls short.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bundles, limitBytes } from './bundles.mjs';
import { packageRoot, sourceFiles } from './calculators.mjs';
import { buildDocs, missingTags, neededTags } from './docs.mjs';

const root = join(packageRoot, '../..');
const shortfalls = [];
const million = 1_000_000;

function line(holds, text) {
  console.log(`${holds ? '  ok ' : 'FAIL '} ${text}`);
  if (!holds) shortfalls.push(text);
}

function run(args, options = {}) {
  return spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28, ...options });
}

/** Runs tests and gives `{ passed, failed, files }`; a run that never reported counts as one failure. */
function tests(paths, env = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'calculators-'));
  const outputFile = join(folder, 'tests.json');
  const vitest = join(root, 'node_modules/vitest/vitest.mjs');
  const { stdout } = run(
    [vitest, 'run', ...paths, '--reporter=json', `--outputFile=${outputFile}`, '--testTimeout=3600000'],
    {
      env: { ...process.env, ...env },
    },
  );
  const report = existsSync(outputFile) ? JSON.parse(readFileSync(outputFile, 'utf8')) : undefined;
  rmSync(folder, { recursive: true });
  if (report === undefined) return { passed: 0, failed: 1, names: [stdout.slice(-500)] };
  const all = report.testResults.flatMap(({ assertionResults }) => assertionResults);
  const failed = all.filter(({ status }) => status !== 'passed').map(({ fullName }) => fullName);
  return {
    passed: all.length - failed.length,
    failed: report.success ? failed.length : Math.max(1, failed.length),
    names: failed,
    inGroup: (group) =>
      all.filter(({ fullName, status }) => status === 'passed' && fullName.startsWith(group)).length,
  };
}

const files = sourceFiles();
console.log(`${files.length} calculators in ${new Set(files.map(({ group }) => group)).size} folders`);

const sync = run([join(packageRoot, 'scripts/sync.mjs'), '--check']);
line(sync.status === 0, `doc comments, public face, catalog and exports agree with the calculators' cards`);

const docs = await buildDocs();
line(
  docs.problems.length === 0,
  `API pages: ${docs.functions} of ${files.length} functions show formula, units, ranges, errors, cautions and source${docs.problems.map((each) => `\n       ${each}`).join('')}`,
);
const doctored = (tag) => ({
  children: [
    {
      kind: 64,
      name: 'x',
      signatures: [
        {
          comment: {
            summary: [{ text: 'x' }],
            blockTags: neededTags
              .filter((each) => each !== tag)
              .map((each) => ({ tag: each, content: [{ text: 'x' }] })),
          },
        },
      ],
    },
  ],
});
const noticed = neededTags.filter((tag) => missingTags(doctored(tag)).join() === `x: ${tag}`).length;
line(
  noticed === neededTags.length,
  `that check notices each of the ${neededTags.length} tags when it is taken away: ${noticed}`,
);

const publishedFolder = join(root, 'fixtures/published');
const rows = readdirSync(publishedFolder)
  .filter((name) => name.startsWith('calculators-'))
  .flatMap((name) => JSON.parse(readFileSync(join(publishedFolder, name), 'utf8')).rows);
const by = (seen) => rows.filter((row) => row.seen === seen).length;
const marks = ['seen', 'secondary', 'from memory', 'computed', 'common practice, no source'];
line(
  by('seen') >= 40,
  `published rows: ${marks.map((mark) => `${by(mark)} ${mark}`).join(', ')} (wanted: 40 seen)`,
);
const outside = tests(['tests/published/calculators']);
line(
  outside.failed === 0,
  `tests against published rows, UCUM and decimal.js: ${outside.passed} passed, ${outside.failed} failed`,
);

const mathjs = join(root, 'tests/tools/node_modules/mathjs');
if (existsSync(mathjs)) {
  const { status, stdout } = run([join(root, 'tests/tools/units.mjs')]);
  line(
    status === 0,
    `volumes, flows and pressures against mathjs, which carries the units: ${stdout.trim().split('\n').at(-1)}`,
  );
} else {
  console.log('  --  volumes, flows and pressures against mathjs: not run (npm ci in tests/tools)');
}

const perProperty = Math.ceil(million / (files.length * 2));
const started = Date.now();
const random = tests(['packages/calculators/src/properties.test.ts'], { PROPERTY_RUNS: String(perProperty) });
const inputs = perProperty * files.length * 2;
line(
  random.failed === 0 && inputs >= million,
  `${inputs.toLocaleString('en')} random inputs in ${Math.round((Date.now() - started) / 1000)} s: no NaN, nothing negative, no error but CalculatorError; ${random.passed} properties passed, ${random.failed} failed${random.names.map((each) => `\n       ${each}`).join('')}`,
);
if (random.inGroup) {
  line(random.inGroup('monotone') > 0, `monotone: ${random.inGroup('monotone')} properties`);
  line(
    random.inGroup('unit-invariant') > 0,
    `unit-invariant: ${random.inGroup('unit-invariant')} properties; the same however a number is written: ${random.inGroup('the way a number')}`,
  );
}

const sizes = await bundles();
const largest = sizes.reduce((a, b) => (b.bytes > a.bytes ? b : a));
line(
  largest.bytes < limitBytes,
  `largest bundle of one calculator: ${largest.bytes} bytes minified (${largest.name} from ${largest.from}), limit ${limitBytes}`,
);
const foreign = sizes.filter((each) => each.foreign.length > 0);
line(
  foreign.length === 0,
  `files outside its own and lib in any of ${sizes.length} bundles: ${foreign.map(({ name, foreign: drawn }) => `${name}: ${drawn.join(', ')}`).join('; ') || 'none'}`,
);
const { dependencies = {} } = JSON.parse(readFileSync(join(packageRoot, 'package.json'), 'utf8'));
line(Object.keys(dependencies).length === 0, `run-time dependencies: ${Object.keys(dependencies).length}`);

// The tool is not installed by default: it is there where a run has left its outcomes.
if (existsSync(join(packageRoot, 'reports/mutants.ndjson'))) {
  const mutation = ['tests/tools/mutation/mutation.mjs', '--package', 'calculators', '--report'];
  const { status, stdout } = run(mutation);
  const figures = stdout.split('\n').filter((each) => /survivors, |have not run$|^mutation score/.test(each));
  line(status === 0, figures.reverse().join('; '));
} else {
  console.log(
    '  --  mutation score: not run (npm ci in tests/tools, then npm run mutation -- --package calculators)',
  );
}

console.log(shortfalls.length === 0 ? 'nothing falls short' : `${shortfalls.length} figures fall short`);
process.exitCode = shortfalls.length === 0 ? 0 : 1;
