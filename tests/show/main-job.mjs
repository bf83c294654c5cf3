// Shows that the main job is done: a line with its figure for each promise, non-zero where one falls short.
// `--quick` leaves out the fresh clone and the 200 MB file, and says so.
import { execFile, spawn } from 'node:child_process';
import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify, stripVTControlCharacters } from 'node:util';
import { dueBundle, dueCare, readRecords, renderTable } from '@dwellward/core';
import { demoInstant, demoPolicyLayers, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { dueCareBy, FhirServer, loadPolicy, Poller, realMachine } from '@dwellward/adapter';
import { loadBundle, startDemoServer, startRawServer } from '@dwellward/demo-server';
import { pino } from 'pino';
import { Show } from './check.mjs';
import { faultsOf } from './validators.mjs';

const run = promisify(execFile);
const root = fileURLToPath(new URL('../..', import.meta.url));
const bin = join(root, 'packages/cli/bin/dwellward.js');
const unitFile = join(root, 'fixtures/lanternfern-unit.json');
const demoArgs = [
  '--at',
  demoInstant,
  '--zone',
  demoZone,
  ...demoPolicyLayers.slice(1).flatMap((name) => ['--policy', name]),
];
const quick = process.argv.includes('--quick');
const work = await mkdtemp(join(tmpdir(), 'dwellward-show-'));
const show = new Show();

/** Runs the command and gives what it printed and its exit code. */
function dwellward(...args) {
  return new Promise((resolve) => {
    const started = Date.now();
    const child = spawn(process.execPath, [bin, ...args], { cwd: root });
    let out = 0;
    let head = '';
    let err = '';
    child.stdout.on('data', (chunk) => {
      out += chunk.length;
      if (head.length < 50_000_000) head += chunk;
    });
    child.stderr.on('data', (chunk) => (err += chunk));
    child.on('close', (exit) =>
      resolve({ exit, out: head, outBytes: out, err, seconds: (Date.now() - started) / 1000 }),
    );
  });
}

const readPolicyOf = (...names) => {
  const reading = readPolicy(names.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
};

async function megabytes(folder) {
  let sum = 0;
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) sum += await megabytes(path);
    else if (entry.isFile()) sum += (await stat(path)).size / 1e6;
  }
  return sum;
}

async function freshClone() {
  const clone = join(work, 'clone');
  await run('git', ['clone', '--quiet', root, clone]);
  const env = { ...process.env, npm_config_cache: join(work, 'npm-cache'), NO_COLOR: '1' };
  const timed = async (command, args) => {
    const started = Date.now();
    const { stdout } = await run(command, args, { cwd: clone, env, maxBuffer: 1e8 });
    return { stdout, seconds: (Date.now() - started) / 1000 };
  };
  const install = await timed('npm', ['ci', '--silent']);
  const size = await megabytes(join(clone, 'node_modules'));
  const demo = await timed('npm', ['run', '--silent', 'demo']);
  const shown = demo.stdout.match(/Line care due at .*\n(.*)\n/)?.[1] ?? 'nothing';
  await show.line(
    'npm ci from an empty cache stays below 350 MB and 3 minutes, build included',
    async () => ({
      ok: size < 350 && install.seconds < 180,
      figure: `${size.toFixed(0)} MB, ${install.seconds.toFixed(0)} s`,
    }),
  );
  await show.line(
    'the README’s first command ends with the demo unit’s due care, below 5 minutes',
    async () => ({
      ok: install.seconds + demo.seconds < 300 && /overdue/.test(shown),
      figure: `${(install.seconds + demo.seconds).toFixed(0)} s; ${shown}`,
    }),
  );
  await show.line(
    'the README’s second command passes all tests, below 5 minutes with the set-up',
    async () => {
      const test = await timed('npm', ['test', '--silent']).catch((error) => ({
        failed: error.stdout?.slice(-2000) ?? error.message,
      }));
      if ('failed' in test) return { ok: false, figure: test.failed };
      const plain = stripVTControlCharacters(test.stdout);
      const summary = plain.match(/Tests +(.*)/)?.[1] ?? 'no summary';
      return {
        ok: install.seconds + test.seconds < 300 && !/failed/.test(summary),
        figure: `${(install.seconds + test.seconds).toFixed(0)} s; ${summary}`,
      };
    },
  );
}

if (quick) console.log('left out: the fresh clone and the 200 MB file (--quick)');
else await freshClone();

await show.line('dwellward due --format fhir prints what two independent validators accept', async () => {
  const { out, exit } = await dwellward('due', unitFile, ...demoArgs, '--format', 'fhir');
  const bundle = JSON.parse(out);
  const faults = [...faultsOf(bundle), ...bundle.entry.flatMap(({ resource }) => faultsOf(resource))];
  return {
    ok: exit === 0 && faults.length === 0,
    figure: `${bundle.entry.length} resources, ${faults.length} errors${faults.length ? `: ${faults[0]}` : ''}`,
  };
});

await show.line('shuffling the input changes not one byte', async () => {
  const policy = readPolicyOf(...demoPolicyLayers);
  const when = { asOf: demoInstant, zone: demoZone };
  const entries = demoUnit().entry.map(({ fullUrl, resource }) => ({ fullUrl, resource }));
  const answer = (list) => {
    const records = readRecords(list);
    const cares = records.lines.map((line) => dueCare(line, policy, when));
    return (
      JSON.stringify(dueBundle(records, cares, policy, when)) +
      renderTable(records, cares, when, { colour: false, columns: 0 })
    );
  };
  const wanted = answer(entries);
  const rounds = 100;
  let different = 0;
  for (let i = 0; i < rounds; i++) {
    const shuffled = entries
      .map((entry) => [Math.random(), entry])
      .sort(([a], [b]) => a - b)
      .map(([, entry]) => entry);
    if (answer(shuffled) !== wanted) different += 1;
  }
  return {
    ok: different === 0,
    figure: `${rounds} shuffles of ${entries.length} resources, ${different} different (the property is in tests/properties)`,
  };
});

const clockChanges = [
  ['Europe/Berlin', '2026-03-28T12:00:00+01:00', '2026-03-29T12:00:00+02:00', '2026-03-29T13:00:00+02:00'],
  ['Europe/Berlin', '2026-10-24T12:00:00+02:00', '2026-10-25T12:00:00+01:00', '2026-10-25T11:00:00+01:00'],
  ['America/New_York', '2026-03-07T12:00:00-05:00', '2026-03-08T12:00:00-04:00', '2026-03-08T13:00:00-04:00'],
  ['America/New_York', '2026-10-31T12:00:00-04:00', '2026-11-01T12:00:00-05:00', '2026-11-01T11:00:00-05:00'],
  [
    'Australia/Lord_Howe',
    '2026-04-04T12:00:00+11:00',
    '2026-04-05T12:00:00+10:30',
    '2026-04-05T11:30:00+10:30',
  ],
  [
    'Australia/Lord_Howe',
    '2026-10-03T12:00:00+10:30',
    '2026-10-04T12:00:00+11:00',
    '2026-10-04T12:30:00+11:00',
  ],
];

await show.line(
  'a daily item keeps its wall-clock time over both clock changes of 2026, a 24-hour item moves',
  async () => {
    const plan = (periodUnit, period) => ({
      resourceType: 'PlanDefinition',
      url: 'https://clock.example/PlanDefinition/clock',
      version: '1',
      title: 'Clock',
      status: 'active',
      action: [
        {
          id: 'flush-daily',
          title: 'Flush',
          extension: [
            { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'line' },
          ],
          code: [
            {
              coding: [
                { system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity', code: 'flush' },
              ],
            },
          ],
          documentation: [{ type: 'citation', citation: 'common practice, no source' }],
          timingTiming: { repeat: { frequency: 1, period, periodUnit } },
        },
      ],
    });
    const policyOf = (one) => {
      const reading = readPolicy([one]);
      if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
      return reading.policy;
    };
    const [daily, hourly] = [policyOf(plan('d', 1)), policyOf(plan('h', 24))];
    const right = clockChanges.filter(([zone, done, sameClock, later]) => {
      const { lines } = readRecords([
        { resource: { resourceType: 'Patient', id: 'p' } },
        {
          resource: {
            resourceType: 'Device',
            id: 'd',
            patient: { reference: 'Patient/p' },
            type: {
              coding: [{ system: 'https://dwellward.example/fhir/CodeSystem/line-type', code: 'picc' }],
            },
          },
        },
        {
          resource: {
            resourceType: 'Procedure',
            id: 'f',
            status: 'completed',
            subject: { reference: 'Patient/p' },
            performedDateTime: done,
            code: {
              coding: [
                { system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity', code: 'flush' },
              ],
            },
            focalDevice: [{ manipulated: { reference: 'Device/d' } }],
          },
        },
      ]);
      const due = (policy) =>
        dueCare(lines[0], policy, { asOf: '2026-12-01T00:00:00Z', zone }).items[0]?.dueBy;
      return due(daily) === sameClock && due(hourly) === later;
    });
    return {
      ok: right.length === clockChanges.length,
      figure: `${right.length} of ${clockChanges.length} changes right (Berlin, New York, Lord Howe)`,
    };
  },
);

const quiet = { ...realMachine, sleep: async () => undefined };
async function adapterOver(baseUrl) {
  const policy = await loadPolicy([...demoPolicyLayers]);
  return new Poller({
    server: new FhirServer({ baseUrl, machine: quiet }),
    care: dueCareBy(policy, demoZone),
    machine: quiet,
    log: pino({ level: 'silent' }),
    asOf: () => demoInstant,
    fullEvery: 1,
    overlapMs: 60_000,
    patientsAtOnce: 2,
    maxEntries: 500,
  });
}
const wrote = ({ written }) => written.created + written.updated + written.deleted;

for (const [name, start, some] of [
  ['an embedded FHIR server', startDemoServer, undefined],
  ['the raw independent router', startRawServer, ['hemlock-heron', 'buckthorn-bittern', 'hornbeam-curlew']],
]) {
  await show.line(
    `on ${name}, a second run writes nothing and two adapters at once leave no duplicate Task`,
    async () => {
      const server = await start();
      try {
        const unit = demoUnit();
        const theirs = ({ resource }) => {
          const about = resource.subject?.reference ?? resource.patient?.reference;
          return !some || about === undefined
            ? !some || resource.resourceType !== 'Patient' || some.includes(resource.id)
            : some.some((id) => about.endsWith(id));
        };
        await loadBundle(new FhirServer({ baseUrl: server.baseUrl }), {
          ...unit,
          entry: unit.entry.filter(theirs),
        });
        const pair = [await adapterOver(server.baseUrl), await adapterOver(server.baseUrl)];
        const first = await Promise.all(pair.map((adapter) => adapter.round()));
        const second = wrote(await (await adapterOver(server.baseUrl)).round());
        const found = [];
        for await (const { resource } of new FhirServer({ baseUrl: server.baseUrl }).searchAll('Task', {}))
          found.push(resource);
        const identities = found.map((task) => task.identifier[0].value);
        const doubled = identities.length - new Set(identities).size;
        return {
          ok: found.length > 0 && second === 0 && doubled === 0 && first.every(({ failed }) => failed === 0),
          figure: `${found.length} Tasks read back by search, ${doubled} doubled; the run after wrote ${second}`,
        };
      } finally {
        await server.close();
      }
    },
  );
}

const bad = [
  ['fixtures/bad/not-json.json', 3, /not JSON/],
  ['fixtures/bad/not-fhir.json', 3, /no resourceType/],
  ['fixtures/bad/wrong-resource-type.json', 3, /resourceType is/],
  ['fixtures/bad/not-a-bundle.json', 3, /resourceType is/],
  [
    'fixtures/bad/bad-among-good.json',
    5,
    /Procedure\/maple-picc-dressing-number, Procedure\.performedDateTime/,
  ],
  ['fixtures/bad/truncated-ndjson', 5, /Procedure\.ndjson, line/],
];
await show.line('malformed input is refused or computed as documented, with resource and path', async () => {
  const right = [];
  for (const [path, exit, message] of bad) {
    const answer = await dwellward('due', path, ...demoArgs);
    const computed = exit === 5 ? answer.out.includes('Line care due') : answer.out === '';
    if (answer.exit === exit && message.test(answer.err) && computed) right.push(path);
  }
  return { ok: right.length === bad.length, figure: `${right.length} of ${bad.length} files` };
});

if (!quick) {
  await show.line('a 200 MB Bundle is computed to the end', async () => {
    const large = join(work, 'large.json');
    await run(process.execPath, [join(root, 'fixtures/scripts/make-large.mjs'), large, '200']);
    const { exit, out, seconds } = await dwellward('due', large, ...demoArgs);
    const { size } = await stat(large);
    const head = out.split('\n')[1] ?? '';
    return {
      ok: exit === 0 && /lines in place/.test(head),
      figure: `${(size / 1e6).toFixed(0)} MB in ${seconds.toFixed(0)} s; ${head}`,
    };
  });
}

await rm(work, { recursive: true, force: true });
show.end();
