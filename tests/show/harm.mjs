// Shows that no harm and no silence is left where one was found: a line with its check for every finding and for every
// hazard, non-zero where one falls short. A hazard holds when its test passes, and fails with the control taken out.
// `--quick` leaves out the runs without controls; `-- ID ...` looks at these rows or hazards alone.
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { readHazards, rowsByTable } from '../harm/hazards.mjs';
import { Show } from './check.mjs';
import { run, tested } from './run.mjs';

const quick = process.argv.includes('--quick');
const only = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const asked = ({ id, rows = [] }) => only.length === 0 || [id, ...rows].some((name) => only.includes(name));
const hazards = readHazards().filter(asked);
const show = new Show();

/** A title as a pattern: what a table fills in (`%s`, `$name`) stands for anything. */
const patternOf = (title) =>
  `${title
    .split(/%[sdifjo]|\$[a-zA-Z]\w*/)
    .map((part) => part.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`))
    .join('.*')}$`;

/** The tests of a hazard, by their titles or their whole names: one, or all that a table makes of it. */
const testsOf = (tests, { test }) => {
  const pattern = new RegExp(`^${patternOf(test.name)}`);
  return tests.filter(
    ({ path, title, fullName }) => path === test.file && (pattern.test(title) || pattern.test(fullName)),
  );
};

/** What the test of a hazard says with its control taken out. */
async function without(hazard) {
  const work = await mkdtemp(join(tmpdir(), 'dwellward-harm-'));
  try {
    const switches = join(work, 'switches.json');
    await writeFile(switches, JSON.stringify(hazard.without));
    const { file, name } = hazard.test;
    const tests = await tested([file, '-t', patternOf(name)], { DWELLWARD_WITHOUT: switches });
    const found = testsOf(tests, hazard);
    if (found.some(({ failed }) => failed)) return { ok: true };
    return {
      ok: false,
      why:
        found.length === 0
          ? 'its test did not run without its control'
          : 'its test passes without its control',
    };
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** So many at a time as there are cores. */
async function each(list, work) {
  const results = new Map();
  const left = [...list];
  const worker = async () => {
    for (let next = left.shift(); next !== undefined; next = left.shift())
      results.set(next, await work(next));
  };
  await Promise.all(Array.from({ length: availableParallelism() }, worker));
  return results;
}

const files = [...new Set(hazards.map(({ test }) => test.file))];
const tests = await tested(files);
const spoiled = quick ? new Map() : await each(hazards, without);

function judged(hazard) {
  const found = testsOf(tests, hazard);
  if (found.length === 0) return { ok: false, why: 'its test did not run' };
  if (!found.every(({ passed }) => passed)) return { ok: false, why: 'its test fails' };
  return spoiled.get(hazard) ?? { ok: true };
}

for (const [table, rows] of Object.entries(rowsByTable)) {
  const shown = only.length === 0 ? rows : rows.filter((row) => only.includes(row));
  let closed = 0;
  for (const row of shown) {
    const those = hazards.filter((hazard) => hazard.rows?.includes(row));
    const short = those.map((hazard) => [hazard, judged(hazard)]).filter(([, { ok }]) => !ok);
    const ok = those.length > 0 && short.length === 0;
    if (ok) closed += 1;
    await show.line(row, async () => ({
      ok,
      figure:
        those.length === 0
          ? 'no hazard stands for it'
          : [
              ...those.map(({ test }) => test.name),
              ...short.map(([{ id }, { why }]) => `falls short: ${id}: ${why}`),
            ].join('; '),
    }));
  }
  if (shown.length > 0) console.log(`${table}: ${closed} of ${shown.length}`);
}
// Asked for by its name a hazard has a line of its own, also where it stands for a row.
for (const hazard of hazards.filter(({ id, rows = [] }) => rows.length === 0 || only.includes(id)))
  await show.line(hazard.id, async () => {
    const { ok, why } = judged(hazard);
    return { ok, figure: ok ? hazard.test.name : why };
  });

/** A promise that tests of a path hold, those with a title like this alone where one is given. */
const held = (what, path, like = /./) =>
  show.line(what, async () => {
    const of = (await tested([path])).filter(({ title }) => like.test(title));
    const failed = of.filter(({ passed }) => !passed);
    const figures = of.flatMap(({ figure }) => figure ?? []);
    return {
      ok: of.length > 0 && failed.length === 0,
      figure: [
        `${of.length - failed.length} of ${of.length} tests pass`,
        ...figures,
        ...failed.map(({ fullName }) => `fails: ${fullName}`),
      ].join('; '),
    };
  });

for (const name of only)
  if (!hazards.some(({ id, rows = [] }) => id === name || rows.includes(name)))
    await show.line(name, async () => ({ ok: false, figure: 'there is no such row and no such hazard' }));

if (only.length === 0) {
  const tried = quick ? 'not tried without their controls (--quick)' : 'each test fails without its control';
  await held(`docs/hazards.md, ${hazards.length} hazards, ${tried}`, 'tests/harm/hazards.test.ts');
  await held('what a careful nurse does next, of 34 patients', 'tests/harm/scenarios');
  await held('no two demands that can’t both be followed', 'tests/harm/contradictions.test.ts');
  await held('hostile names in every output', 'tests/harm/hostile-names.test.ts');
  await held('alarm burden', 'tests/harm/burden.test.ts');
  await show.line('spoiled input (`npm run fuzz` has the whole of it)', async () => {
    const { exit, stdout } = await run(process.execPath, ['tests/fuzz/fuzz.mjs', '--quick']);
    return { ok: exit === 0, figure: stdout.trim().split('\n').join('; ') };
  });
}
show.end();
