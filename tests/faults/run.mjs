// What kills and faults leave behind: `npm run faults:ci` (small), `npm run faults` (full), `-- --seed N`.
//
// Kills: two replicas keep one unit in step, each is killed (SIGKILL) after a random number of its requests, again and
// again. Storm: every request may be refused, cut, delayed beyond its time limit or answered wrongly. In the end one
// undisturbed run has to leave the Tasks that a run leaves that nothing ever disturbed, each once, and a second has to
// write nothing.
/* global AbortController, fetch, performance */
import { fork } from 'node:child_process';
import { setMaxListeners } from 'node:events';
import { FhirServer, loadPolicy, makePoller, readConfig, realMachine } from '@dwellward/adapter';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import { demoInstant, demoPolicyLayers, demoUnit, demoZone } from '@dwellward/fixtures';
import { pino } from 'pino';
import { startProxy } from './spoiling-proxy.mjs';

const dueItem = 'https://dwellward.example/fhir/due-item';
const log = pino({ level: 'silent' });
const never = new AbortController().signal;
// Every adapter of this process listens to it.
setMaxListeners(0, never);
const args = process.argv.slice(2);
const numberOf = (name, preset) => (args.includes(name) ? Number(args[args.indexOf(name) + 1]) : preset);

/** One adapter over a server, at the unit’s instant. @param machine its clock and its sleep. */
async function adapterOver(baseUrl, machine = realMachine) {
  const config = readConfig({
    DWELLWARD_FHIR_URL: baseUrl,
    DWELLWARD_ZONE: demoZone,
    DWELLWARD_POLICY: demoPolicyLayers.join(','),
    DWELLWARD_CALL_SECONDS: '2',
    DWELLWARD_FULL_EVERY: '1',
  });
  const policy = await loadPolicy(config.policy);
  const options = { config, policy, machine, log, asOf: () => demoInstant };
  return makePoller(options, { drain: never, stop: never });
}

if (args[0] === '--replica') {
  const { failed } = await (await adapterOver(args[1])).round();
  process.exit(failed > 0 ? 1 : 0);
}

/** Numbers from 0 to below 1 that are the same for the same seed (mulberry32, public domain). */
function randomFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Every Task by its identity, with its status. */
async function tasksOn({ baseUrl }) {
  const { entry = [], link = [] } = await (await fetch(`${baseUrl}/Task?_count=1000`)).json();
  if (link.some(({ relation }) => relation === 'next')) throw new Error('more Tasks than one page holds');
  return entry.map(({ resource: { identifier, status } }) => ({
    id: identifier.find(({ system }) => system === dueItem).value,
    status,
  }));
}

const isOpen = ({ status }) => !['completed', 'cancelled', 'rejected'].includes(status);

/** Compares what is open with what should be. @returns how many are lost, doubled, left over and still to be written. */
async function judge(server, expected) {
  const last = await (await adapterOver(server.baseUrl)).round();
  const again = await (await adapterOver(server.baseUrl)).round();
  const open = (await tasksOn(server)).filter(isOpen).map(({ id }) => id);
  const { created, updated, deleted } = again.written;
  return {
    lost: expected.filter((id) => !open.includes(id)).length,
    doubled: open.filter((id, at) => open.indexOf(id) !== at).length,
    'left over': open.filter((id) => !expected.includes(id)).length,
    stuck: last.failed + again.failed + again.held,
    'written by a second run': created + updated + deleted,
  };
}

async function unitServer() {
  const server = await startDemoServer({ validate: false });
  await loadBundle(new FhirServer({ baseUrl: server.baseUrl }), demoUnit());
  return server;
}

/** One replica until it ends by itself or has made so many requests. @returns whether it was killed. */
async function replica(server, requests) {
  let child;
  let made = 0;
  const proxy = await startProxy(server.baseUrl, ({ forward }) => {
    made += 1;
    if (made === requests) child.kill('SIGKILL');
    return forward();
  });
  child = fork(new URL(import.meta.url).pathname, ['--replica', proxy.baseUrl], { stdio: 'ignore' });
  const signal = await new Promise((resolve) => child.on('exit', (_, by) => resolve(by)));
  await proxy.close();
  return signal === 'SIGKILL';
}

async function kills(wanted, random, expected) {
  let killed = 0;
  let atWrites = 0;
  let total = { lost: 0, doubled: 0, 'left over': 0, stuck: 0, 'written by a second run': 0 };
  while (killed < wanted) {
    // A fresh unit each time: most kills then hit the first fill, in which all writes are.
    const server = await unitServer();
    const most = 8 + 3 * 16;
    const pair = [1, 2].map(() => replica(server, 1 + Math.floor(random() * most)));
    const ended = (await Promise.all(pair)).filter(Boolean).length;
    const left = (await tasksOn(server)).length;
    if (left > 0 && left < expected.length) atWrites += 1;
    killed += ended;
    const verdict = await judge(server, expected);
    total = Object.fromEntries(Object.entries(total).map(([key, value]) => [key, value + verdict[key]]));
    await server.close();
  }
  return { killed, 'units half written': atWrites, ...total };
}

/** What may become of a request in the storm. */
const faults = {
  429: async () => ({ status: 429, headers: { 'retry-after': '1' }, body: '' }),
  503: async () => ({ status: 503, headers: {}, body: '' }),
  500: async () => ({ status: 500, headers: {}, body: '<html>' }),
  409: async () => ({ status: 409, headers: {}, body: '' }),
  412: async () => ({ status: 412, headers: {}, body: '' }),
  cut: async () => 'cut',
  'done and cut': async ({ forward }) => (await forward(), 'cut'),
  'time-out': async () => 'silence',
  'outcome with 200': async () => changed('{"resourceType":"OperationOutcome","issue":[]}'),
  'half a page': async ({ forward }) =>
    pages(await forward(), (bundle) => bundle.entry.splice(bundle.entry.length / 2)),
  'empty page': async ({ forward }) => pages(await forward(), (bundle) => (bundle.entry = [])),
  'endless next': async ({ forward, url }) =>
    pages(
      await forward(),
      (bundle) => (bundle.link = [{ relation: 'next', url: url.replace(/^\/fhir\//, '') }]),
    ),
};

const changed = (body) => ({ status: 200, headers: { 'content-type': 'application/fhir+json' }, body });

/** Spoils a search, or the searches of a batch; leaves everything else as it is. */
function pages(got, spoil) {
  const bundle = JSON.parse(got.body || '{}');
  const all = bundle.type === 'batch-response' ? bundle.entry.map(({ resource }) => resource) : [bundle];
  for (const one of all) if (one?.type === 'searchset' && one.entry?.length > 0) spoil(one);
  return { ...got, body: JSON.stringify(bundle) };
}

async function storm(requests, random, expected) {
  const server = await unitServer();
  const met = {};
  let seen = 0;
  const proxy = await startProxy(server.baseUrl, (passing) => {
    seen += 1;
    if (random() > 0.25) return passing.forward();
    const names = Object.keys(faults);
    // The one that takes real time is drawn less often.
    const drawn = names[Math.floor(random() * names.length)];
    const name = drawn === 'time-out' && random() > 0.2 ? 'cut' : drawn;
    met[name] = (met[name] ?? 0) + 1;
    return faults[name](passing);
  });
  let aheadMs = 0;
  const sleep = async (milliseconds) => void (aheadMs += milliseconds);
  const clock = { ...realMachine, now: () => Date.now() + aheadMs, sleep };
  const poller = await adapterOver(proxy.baseUrl, clock);
  for (let round = 0; seen < requests && round < 1000; round++) {
    await poller.round().catch(() => undefined);
    aheadMs += 60_000;
  }
  await proxy.close();
  const verdict = await judge(server, expected);
  await server.close();
  return { requests: seen, faults: Object.values(met).reduce((a, b) => a + b, 0), kinds: met, ...verdict };
}

/** The first fill of the unit and a round in which nothing has changed: calls a patient, and the wall time beside a bare client’s. */
async function calls() {
  const server = await unitServer();
  const made = [];
  const proxy = await startProxy(server.baseUrl, (passing) => {
    made.push(passing);
    return passing.forward();
  });
  const poller = await adapterOver(proxy.baseUrl);
  const startedMs = performance.now();
  const first = await poller.round();
  const fillMs = performance.now() - startedMs;
  const fill = made.splice(0);
  const second = await poller.round();
  await proxy.close();
  await server.close();
  // The same requests to a server in the same state, one after another, and nothing worked out between them.
  const other = await unitServer();
  const bare = await startProxy(other.baseUrl, ({ forward }) => forward());
  const bareMs = performance.now();
  for (const { method, url, body } of fill) {
    const sent = body === '' ? {} : { body, headers: { 'content-type': 'application/fhir+json' } };
    await (await fetch(new URL(url, bare.baseUrl), { method, ...sent })).text();
  }
  const ratio = fillMs / (performance.now() - bareMs);
  await bare.close();
  await other.close();
  const each = (count, { patients }) => (count / patients).toFixed(2);
  return [
    `first fill of ${first.patients} patients: ${each(fill.length, first)} calls a patient, ${ratio.toFixed(2)} x the time of a bare client`,
    `full round with nothing new: ${each(made.length, second)} calls a patient`,
  ].join('\n');
}

const full = args.includes('--full');
const seed = numberOf('--seed', 1);
const random = randomFrom(seed);
const calm = await unitServer();
await (await adapterOver(calm.baseUrl)).round();
const expected = (await tasksOn(calm)).filter(isOpen).map(({ id }) => id);
await calm.close();
if (expected.length < 100) throw new Error(`only ${expected.length} Tasks in the undisturbed run`);
console.log(`seed ${seed}; the undisturbed run leaves ${expected.length} open Tasks`);

console.log(await calls());
let bad = 0;
for (const [name, result] of [
  ['kills, two replicas', await kills(numberOf('--kills', full ? 200 : 10), random, expected)],
  ['storm', await storm(numberOf('--requests', full ? 20_000 : 1000), random, expected)],
]) {
  const { lost, doubled, stuck } = result;
  bad += lost + doubled + stuck + result['left over'] + result['written by a second run'];
  const figures = Object.entries(result).filter(([key]) => key !== 'kinds');
  console.log(`${name}: ${figures.map(([key, value]) => `${value} ${key}`).join(', ')}`);
  if (result.kinds)
    console.log(
      `  ${Object.entries(result.kinds)
        .map((pair) => pair.join(': '))
        .join(', ')}`,
    );
}
process.exitCode = bad === 0 ? 0 : 1;
