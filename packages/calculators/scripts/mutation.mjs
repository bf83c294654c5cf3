// Runs the mutation tests, or with `--report` only reads the last run, and holds the survivors against the list of
// those that are explained. Last line: `mutation score: N %`.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packageRoot } from './calculators.mjs';

export const wantedScore = 95;
const stryker = join(packageRoot, '../../tests/tools/node_modules/@stryker-mutator/core/bin/stryker.js');
const report = join(packageRoot, 'reports/mutation.json');

const key = ({ file, mutator, original, replacement }) =>
  [file, mutator, original, replacement].join('\u0000');

function spanOf(source, { start, end }) {
  const lines = source.split('\n').slice(start.line - 1, end.line);
  lines[lines.length - 1] = lines[lines.length - 1].slice(0, end.column - 1);
  lines[0] = lines[0].slice(start.column - 1);
  return lines.map((line) => line.trim()).join(' ');
}

/** The last run: score, its date, survivors, and the survivors nobody has explained. Undefined where none ran. */
export function lastRun() {
  if (!existsSync(report)) return undefined;
  const { files } = JSON.parse(readFileSync(report, 'utf8'));
  const explained = JSON.parse(readFileSync(join(packageRoot, 'mutants.json'), 'utf8')).survivors;
  const reasons = new Map(explained.map((each) => [key(each), each.reason]));
  const counts = { Killed: 0, Timeout: 0, Survived: 0, NoCoverage: 0 };
  const survivors = [];
  for (const [file, { source, mutants }] of Object.entries(files)) {
    for (const { status, mutatorName, replacement, location } of mutants) {
      if (status in counts) counts[status] += 1;
      if (status !== 'Survived' && status !== 'NoCoverage') continue;
      const survivor = { file, mutator: mutatorName, original: spanOf(source, location), replacement };
      survivors.push({ ...survivor, line: location.start.line, reason: reasons.get(key(survivor)) });
    }
  }
  const detected = counts.Killed + counts.Timeout;
  const all = detected + counts.Survived + counts.NoCoverage;
  const seen = new Set(survivors.map(key));
  return {
    score: Math.floor((detected / all) * 10000) / 100,
    mutants: all,
    date: statSync(report).mtime.toISOString().slice(0, 10),
    survivors,
    unexplained: survivors.filter(({ reason }) => reason === undefined),
    killedSince: explained.filter((each) => !seen.has(key(each))),
  };
}

function main() {
  if (!process.argv.includes('--report')) {
    if (!existsSync(stryker)) {
      console.log('The mutation tester is not installed: run `npm ci` in tests/tools first.');
      process.exitCode = 1;
      return;
    }
    const { status } = spawnSync(process.execPath, [stryker, 'run'], { cwd: packageRoot, stdio: 'inherit' });
    if (status !== 0) {
      process.exitCode = 1;
      return;
    }
  }
  const run = lastRun();
  if (run === undefined) {
    console.log('No mutation run yet.');
    process.exitCode = 1;
    return;
  }
  const { score, mutants, survivors, unexplained, killedSince } = run;
  for (const { file, line, mutator, original, replacement, reason } of survivors) {
    console.log(
      `${file}:${line} ${mutator}: ${original} -> ${replacement}\n  ${reason ?? 'NOT EXPLAINED in mutants.json'}`,
    );
  }
  for (const each of killedSince)
    console.log(
      `listed in mutants.json, but it did not survive this run (too slow for the time limit, or killed): ${each.file} ${each.original}`,
    );
  console.log(
    `${mutants} mutants, ${survivors.length} survivors, ${unexplained.length} of them not explained`,
  );
  process.exitCode = score >= wantedScore && unexplained.length === 0 ? 0 : 1;
  console.log(`mutation score: ${score} %`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main();
