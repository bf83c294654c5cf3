// Mutation tests of a package, in parts or as a sample. Last line: `mutation score: N %`.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { mutantsOf, partOf, sampleOf } from './mutants.mjs';
import { packages, root } from './packages.mjs';
import { outcomesFile, outcomesOf, scoreOf, survivorsOf, wilson } from './results.mjs';

const usage = `npm run mutation -- --package ${Object.keys(packages).join('|')}, and one of
  --part 3/48          the third of 48 parts; a mutant that has run since its file was last changed is not run again
  --files TEXT         the mutants of the files whose path has this text
  --sample N           N random mutants of the whole package, and the score with its 95 % interval
  --survivors          the survivors of earlier runs, against the tests of today
  --report             runs nothing: what the parts, files and samples that ran say together
and, where wanted, --seed S (of the sample, default 1), --again (also what ran before), --quiet (names no survivors).
Exits with 0 where the score is what is wanted and every survivor is explained.`;

const tools = join(root, 'tests/tools');
const stryker = join(tools, 'node_modules/@stryker-mutator/core/bin/stryker.js');

/** Lets the tester run the chosen mutants; outcomes are appended as they come. False where the tester gave up. */
function run(name, chosen, places) {
  mkdirSync(join(root, 'coverage'), { recursive: true });
  const folder = mkdtempSync(join(root, 'coverage/mutants-'));
  const outcomes = outcomesFile(name);
  mkdirSync(dirname(outcomes), { recursive: true });
  const orders = join(folder, 'orders.json');
  writeFileSync(
    orders,
    JSON.stringify({ outcomes, chosen: Object.fromEntries(chosen.map(({ id, digest }) => [id, digest])) }),
  );
  const inFile = ({ start, end }) => `${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
  const config = {
    testRunner: 'in-process',
    plugins: [join(tools, 'mutation/plugins.mjs')],
    ignorers: ['wordings'],
    checkers: ['chosen'],
    reporters: ['progress-append-only', 'kept'],
    mutate: [...new Set(chosen.map(({ file, location }) => (places ? `${file}:${inFile(location)}` : file)))],
    ignorePatterns: ['dist', 'reports', 'coverage', '*.tsbuildinfo', '.git'],
    coverageAnalysis: 'perTest',
    concurrency: availableParallelism(),
    // A mutant that runs in circles is stopped by how often it is hit. The clock is the last resort, and a long one: on a
    // busy machine a short one would count slow tests as mutants found.
    timeoutMS: 180_000,
    // The first run of all tests takes longer than the five minutes that are the default, on a busy machine.
    dryRunTimeoutMinutes: 30,
    tempDirName: 'coverage/mutation',
    disableTypeChecks: false,
    allowEmpty: true,
  };
  const file = join(folder, 'stryker.json');
  writeFileSync(file, JSON.stringify(config));
  const { status } = spawnSync(process.execPath, [stryker, 'run', file], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, DWELLWARD_MUTANTS: orders, DWELLWARD_MUTATED: name },
  });
  rmSync(folder, { recursive: true });
  return status === 0;
}

const percent = (score) => (score === undefined ? 'none ran' : `${score} %`);

function printSurvivors(name, mutants, outcomes, whole) {
  const { survivors, unexplained, killedSince, gone } = survivorsOf(name, mutants, outcomes);
  for (const { file, line, mutator, original, replacement, status, reason } of survivors) {
    console.log(`${file}:${line} ${mutator}: ${original} -> ${replacement}`);
    console.log(
      `  ${reason ?? (status === 'NoCoverage' ? 'no test comes here' : 'NOT EXPLAINED in mutants.json')}`,
    );
  }
  for (const { file, original } of killedSince)
    console.log(
      `listed in mutants.json, but it did not survive (too slow for the time limit, or killed): ${file} ${original}`,
    );
  // Whether a reason has lost its mutant is seen only where all mutants are looked at.
  for (const { file, original } of whole ? gone : [])
    console.log(`listed in mutants.json, but there is no such mutant any more: ${file} ${original}`);
  console.log(`${survivors.length} survivors, ${unexplained.length} of them not explained`);
}

function printParts(name, mutants, outcomes) {
  const { parts } = packages[name];
  for (let part = 1; part <= parts; part += 1) {
    const own = partOf(mutants, part, parts);
    const { killed, counted, invalid, score } = scoreOf(own, outcomes);
    const ran = counted + invalid;
    const extent = `${own[0].file.split('/src/')[1]} to ${own.at(-1).file.split('/src/')[1]}`;
    const state =
      ran === 0 ? 'has not run' : ran === own.length ? 'ran whole' : `ran ${ran} of ${own.length}`;
    console.log(
      `part ${part}/${parts} ${state}${counted === 0 ? '' : `, ${killed} of ${counted} found, ${percent(score)}`}: ${extent}`,
    );
  }
}

const wrong = (text) => {
  console.log(`${text}\n${usage}`);
  process.exit(2);
};

async function main() {
  const { values } = parseArgs({
    options: {
      package: { type: 'string' },
      part: { type: 'string' },
      files: { type: 'string' },
      sample: { type: 'string' },
      seed: { type: 'string', default: '1' },
      survivors: { type: 'boolean', default: false },
      report: { type: 'boolean', default: false },
      again: { type: 'boolean', default: false },
      quiet: { type: 'boolean', default: false },
    },
  });
  const name = values.package;
  if (name === undefined || !(name in packages)) wrong('Which package?');
  if (!existsSync(stryker)) {
    console.log('The mutation tester is not installed: run `npm ci` in tests/tools first.');
    process.exit(1);
  }
  // The plans as modules, which may have changed since the last build.
  spawnSync(process.execPath, [join(root, 'packages/policy/scripts/embed.mjs')], { stdio: 'inherit' });
  const mutants = await mutantsOf(name);
  let chosen;
  if (values.part !== undefined) {
    const [, part, parts] = /^(\d+)\/(\d+)$/.exec(values.part) ?? wrong(`No part: ${values.part}`);
    if (Number(part) < 1 || Number(part) > Number(parts)) wrong(`No part: ${values.part}`);
    chosen = partOf(mutants, Number(part), Number(parts));
  } else if (values.files !== undefined) {
    chosen = mutants.filter(({ file }) => file.includes(values.files));
    if (chosen.length === 0) wrong(`No file of ${name} has ${values.files} in its path.`);
  } else if (values.sample !== undefined) {
    if (!/^[1-9]\d*$/.test(values.sample) || !/^\d+$/.test(values.seed)) wrong('No such sample or seed.');
    chosen = sampleOf(mutants, Number(values.sample), Number(values.seed));
  } else if (values.survivors) {
    const { survivors } = survivorsOf(name, mutants, outcomesOf(name, mutants));
    chosen = mutants.filter(({ id }) => survivors.some((survivor) => survivor.id === id));
  } else if (!values.report) wrong('What is to run?');

  let complete = true;
  if (!values.report) {
    const before = outcomesOf(name, mutants);
    const again = values.again || values.survivors;
    const left = chosen.filter(({ id }) => again || !before.has(id));
    console.log(`${chosen.length} mutants of the ${mutants.length} of ${name}, ${left.length} to run`);
    // So many places as there are survivors take the tester longer to find than their files take to be read.
    const places = values.sample !== undefined;
    if (left.length > 0) complete = run(name, left, places);
  }

  const outcomes = outcomesOf(name, mutants);
  const shown = chosen ?? mutants;
  if (!values.quiet) printSurvivors(name, shown, outcomes, values.report);
  if (values.report) printParts(name, mutants, outcomes);
  const { unexplained } = survivorsOf(name, shown, outcomes);
  const { killed, counted, invalid, score } = scoreOf(shown, outcomes);
  if (counted + invalid < shown.length)
    console.log(`${shown.length - counted - invalid} of ${shown.length} mutants have not run`);
  const timedOut = shown.filter(({ id }) => outcomes.get(id)?.status === 'Timeout').length;
  if (timedOut > 0) console.log(`${timedOut} of those found never came to an end`);
  if (invalid > 0) console.log(`${invalid} mutants could not be judged and count neither way`);
  if (counted === 0) {
    console.log(`No mutant of ${name} has run.`);
    process.exit(1);
  }
  if (values.sample !== undefined) {
    const [least, most] = wilson(killed, counted).map((each) => each.toFixed(1));
    console.log(
      `a random sample (seed ${values.seed}): ${killed} of ${counted} found; 95 % interval of the whole ${least} to ${most} %`,
    );
  }
  process.exitCode = complete && score >= packages[name].wanted && unexplained.length === 0 ? 0 : 1;
  console.log(`mutation score: ${score} %`);
}

await main();
