// Holds the speed to its bars: a line for each ratio, of processor time, the best of three; non-zero where one falls short.
// Ratios, because a machine is what it is: to an empty run of Node, to JSON.parse of the same bytes, to a quarter of the input.
// `npm run bench:bars` has the collector in the thread that works: several that wait for each other count as work, too.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { dueCareOfEach, readRecords } from '@dwellward/core';
import { bundledPlan, readPolicy, unitLayerNames } from '@dwellward/policy';
import { Show } from '../show/check.mjs';
import * as invented from './patients.mjs';

setFlagsFromString('--expose-gc');
const sweep = runInNewContext('gc');
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const times = 3;
const show = new Show();

/** One bar: what was measured must be at most so much. */
const bar = (what, most, unit, measure) =>
  show.line(what, async () => {
    const { value, how } = await measure();
    return { ok: value <= most, figure: `${value.toFixed(2)}${unit} of at most ${most}${unit} (${how})` };
  });

const best = (measure) => Math.min(...Array.from({ length: times }, measure));

/** Processor time of a piece of work in this process, in seconds, once it is warm. */
const seconds = (work) => {
  for (let i = 0; i < times; i++) work();
  return best(() => {
    // What others left behind is not swept up at its cost.
    sweep({ type: 'minor' });
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  });
};

/** Processor time of a process, in seconds. */
const secondsOf = (...args) =>
  best(() => {
    const { output, status, stderr } = spawnSync(
      process.execPath,
      ['--import', here('cpu-at-exit.mjs'), ...args],
      { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe', 'pipe'] },
    );
    if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}: ${stderr}`);
    return Number(output[3]) / 1e6;
  });

const policyOf = (...names) => {
  const reading = readPolicy(names.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
};
const base = policyOf('base');
const allLayers = policyOf('base', ...unitLayerNames);

/** From parsed resources to due items; the number of these, so that nothing is measured that does nothing. */
function itemsOf(entries, policy) {
  const cares = dueCareOfEach(readRecords(entries).lines, policy, invented.benchMoment);
  const items = cares.reduce((sum, care) => sum + care.items.length, 0);
  if (items === 0) throw new Error('Nothing is due of what was made to be measured.');
  return items;
}

await bar('the command for one patient, over an empty run of Node', 0.25, ' s', () => {
  const work = mkdtempSync(join(tmpdir(), 'dwellward-bench-'));
  try {
    const file = join(work, 'one.json');
    const entry = invented.inventedPatients(1);
    writeFileSync(file, JSON.stringify({ resourceType: 'Bundle', type: 'collection', entry }));
    const { asOf, zone } = invented.benchMoment;
    const whole = secondsOf(
      here('../../packages/cli/bin/dwellward.js'),
      'due',
      file,
      '--at',
      asOf,
      '--zone',
      zone,
    );
    const empty = secondsOf('-e', '0');
    return { value: whole - empty, how: `${whole.toFixed(3)} s less ${empty.toFixed(3)} s` };
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
});

for (const [what, most, policy] of [
  ['the base policy', 3, base],
  ['all layers', 6, allLayers],
]) {
  await bar(`parsed resources to due items by ${what}, over JSON.parse of the same bytes`, most, ' x', () => {
    const entries = invented.inventedPatients(500);
    const text = JSON.stringify(entries);
    const parse = seconds(() => JSON.parse(text));
    const whole = seconds(() => itemsOf(entries, policy));
    const each = (total) => `${Math.round((total / 500) * 1e6)} us`;
    return { value: whole / parse, how: `${each(whole)} a patient, ${each(parse)}` };
  });
}

await bar(
  'NDJSON of which nothing reads 95 %, to Tasks, over JSON.parse of the same bytes',
  0.5,
  ' x',
  () => {
    const work = mkdtempSync(join(tmpdir(), 'dwellward-bench-'));
    try {
      const lines = invented.mostlyUnread(200).map((resource) => JSON.stringify(resource));
      writeFileSync(join(work, 'all.ndjson'), lines.join('\n'));
      const { asOf, zone } = invented.benchMoment;
      const command = here('../../packages/cli/bin/dwellward.js');
      const whole = secondsOf(command, 'due', work, '--format', 'ndjson', '--at', asOf, '--zone', zone);
      const parse = seconds(() => lines.forEach((line) => JSON.parse(line)));
      return {
        value: (whole - secondsOf('-e', '0')) / parse,
        how: `${lines.length} lines, ${whole.toFixed(2)} s`,
      };
    } finally {
      rmSync(work, { recursive: true, force: true });
    }
  },
);

await bar('one patient with two years of daily differentials', 0.2, ' s', () => {
  const entries = invented.withDifferentials(730);
  const value = seconds(() => itemsOf(entries, base));
  return { value, how: `${entries.length} resources` };
});

// The exponent of growth: 1 where twice as much takes twice as long, 2 where it takes four times as long.
const steps = 4;
for (const [what, make, size] of [
  ['results of a patient', invented.withDifferentials, 1000],
  ['infusions of a line', invented.withInfusions, 3000],
  ['lines whose Device names no patient', invented.linesWithoutPatient, 400],
  ['events of a line', invented.withEvents, 4000],
  ['patients', invented.inventedPatients, 250],
]) {
  await bar(`growth by ${what}`, 1.1, '', () => {
    const [few, many] = [size, steps * size].map((count) => {
      const entries = make(count);
      return seconds(() => itemsOf(entries, base));
    });
    const how = `${size}: ${few.toFixed(2)} s, ${steps * size}: ${many.toFixed(2)} s`;
    return { value: Math.log(many / few) / Math.log(steps), how };
  });
}

show.end();
