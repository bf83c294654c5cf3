// `npm run interop -- URL [--token FILE]`: whether the adapter works with a FHIR R4 server that is named by its base.
// Without a URL: on the embedded server, raw and wrapped. It loads a part of the invented unit, looks at what the adapter
// makes of it, and deletes everything again. A server that holds Devices is refused: the adapter would keep Tasks for them.
/* global AbortController, fetch */
import { readFile } from 'node:fs/promises';
import { setMaxListeners } from 'node:events';
import { FhirServer, loadPolicy, makePoller, readConfig, realMachine } from '@dwellward/adapter';
import { loadBundle, startDemoServer, startRawServer } from '@dwellward/demo-server';
import {
  demoInstant,
  demoPolicyLayers,
  demoUnit,
  demoUpdate,
  demoUpdateInstant,
  demoZone,
} from '@dwellward/fixtures';
import { pino } from 'pino';
import { startProxy } from '../faults/spoiling-proxy.mjs';

const base = 'https://dwellward.example/fhir';
const patients = ['hemlock-heron', 'buckthorn-bittern'];
const never = new AbortController().signal;
setMaxListeners(0, never);

/** A FHIR client without a module of ours. */
function clientOf(baseUrl, token) {
  const call = async (method, path, resource) => {
    const url = /^https?:/.test(path) ? path : `${baseUrl}/${path}`;
    const response = await fetch(url, {
      method,
      headers: {
        accept: 'application/fhir+json',
        'cache-control': 'no-cache',
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
        ...(resource === undefined ? {} : { 'content-type': 'application/fhir+json' }),
      },
      ...(resource === undefined ? {} : { body: JSON.stringify(resource) }),
    });
    const text = await response.text();
    return { status: response.status, body: text === '' ? {} : JSON.parse(text) };
  };
  const search = async (query) => {
    const found = [];
    for (let next = query; next !== undefined;) {
      const { status, body } = await call('GET', next);
      if (status !== 200) throw new Error(`GET ${next} was answered with ${status}`);
      for (const { resource } of body.entry ?? [])
        if (resource.resourceType !== 'OperationOutcome') found.push(resource);
      next = body.link?.find(({ relation }) => relation === 'next')?.url;
    }
    return found;
  };
  return { call, search };
}

async function adapterOver(baseUrl, token, asOf = demoInstant, machine = realMachine) {
  const config = readConfig({
    DWELLWARD_FHIR_URL: baseUrl,
    DWELLWARD_ZONE: demoZone,
    DWELLWARD_POLICY: demoPolicyLayers.join(','),
    DWELLWARD_FULL_EVERY: '1',
    ...(token === undefined ? {} : { DWELLWARD_FHIR_TOKEN: token }),
  });
  const policy = await loadPolicy(config.policy);
  const options = { config, policy, machine, log: pino({ level: 'silent' }), asOf: () => asOf };
  return makePoller(options, { drain: never, stop: never });
}

/** What of a bundle belongs to the patients, or to nobody. */
function only(bundle) {
  const isTheirs = ({ resourceType, id, subject, patient }) => {
    const about = subject?.reference ?? patient?.reference;
    if (resourceType === 'Patient') return patients.includes(id);
    return about === undefined || patients.some((one) => about.endsWith(`Patient/${one}`));
  };
  return { ...bundle, entry: bundle.entry.filter(({ resource }) => isTheirs(resource)) };
}

const wroteOf = ({ written }) => written.created + written.updated + written.deleted;
const endOf = (task) => Date.parse(task?.restriction?.period?.end ?? '');
const identityOf = ({ identifier }) => identifier?.find(({ system }) => system === `${base}/due-item`)?.value;
const isOpen = ({ status }) => !['completed', 'cancelled', 'rejected'].includes(status);

/** The checks in their order; each goes on from what the one before left. */
function checksOf({ baseUrl, token, client }) {
  const { call, search } = client;
  const round = async (asOf) => (await adapterOver(baseUrl, token, asOf)).round();
  const tasksOf = (patient, more = '') => search(`Task?patient=Patient/${patient}${more}`);
  const allTasks = async () => (await Promise.all(patients.map((one) => tasksOf(one)))).flat();
  const dressingOf = async (patient, focus) =>
    (await tasksOf(patient, `&code=${base}/CodeSystem/line-care-activity|dressing-change`)).filter(
      (task) => isOpen(task) && (focus === undefined || task.focus.reference.endsWith(focus)),
    );
  const undoubled = async () => {
    const open = (await allTasks()).filter(isOpen).map(identityOf);
    return open.filter((value, at) => open.indexOf(value) !== at);
  };
  const expect = (holds, what) => {
    if (!holds) throw new Error(what);
  };
  const same = async (asOf) => {
    const again = await round(asOf);
    expect(again.failed === 0, `${again.failed} patients failed`);
    expect(wroteOf(again) === 0, `a run with nothing to do wrote ${wroteOf(again)} resources`);
  };
  let before;
  let met;
  return {
    'the first run fills, the second writes nothing': async () => {
      const first = await round();
      expect(first.failed === 0, `${first.failed} patients failed`);
      const open = (await allTasks()).filter(isOpen);
      expect(open.length > 10, `only ${open.length} open Tasks`);
      await same();
    },
    'a lab moves a Task, and charting completes one and opens the next': async () => {
      [before] = await dressingOf('hemlock-heron');
      [met] = await dressingOf('buckthorn-bittern', 'Device/buckthorn-jugular');
      await loadBundle(new FhirServer({ baseUrl, bearerToken: token }), only(demoUpdate()));
      expect((await round(demoUpdateInstant)).failed === 0, 'a patient failed');
      const [moved] = await dressingOf('hemlock-heron');
      expect(moved?.id === before.id && endOf(moved) < endOf(before), 'the Task was not moved');
      const { body } = await call('GET', `Task/${met.id}`);
      expect(body.status === 'completed', `the Task that was done is ${body.status}`);
      const next = await dressingOf('buckthorn-bittern', 'Device/buckthorn-jugular');
      expect(next.length === 1 && endOf(next[0]) > endOf(met), 'the next was not opened');
      await same(demoUpdateInstant);
    },
    'a person’s word stands': async () => {
      const [task] = (await tasksOf('hemlock-heron', '&status=requested')).filter(
        ({ id }) => id !== before.id,
      );
      const note = [...(task.note ?? []), { authorString: 'a nurse', text: 'I do this one' }];
      const put = await call('PUT', `Task/${task.id}`, { ...task, status: 'accepted', note });
      expect(put.status === 200, `the nurse’s update was answered with ${put.status}`);
      await round(demoUpdateInstant);
      const { body } = await call('GET', `Task/${task.id}`);
      expect(body.status === 'accepted', `the Task is ${body.status}`);
      expect(JSON.stringify(body.note).includes('I do this one'), 'the note is gone');
      await same(demoUpdateInstant);
    },
    'what is deleted counts no more': async () => {
      const [now] = await dressingOf('hemlock-heron');
      const { status } = await call('DELETE', 'Observation/hemlock-heron-751-8-1125-0740');
      expect(status < 300, `the server answers a DELETE of an Observation with ${status}`);
      expect((await round(demoUpdateInstant)).failed === 0, 'a patient failed');
      const [back] = await dressingOf('hemlock-heron');
      expect(back?.id === before.id && endOf(back) > endOf(now), 'the Task was not moved back');
      await same(demoUpdateInstant);
    },
    'two replicas at once leave each Task once': async () => {
      await loadBundle(new FhirServer({ baseUrl, bearerToken: token }), only(demoUpdate()));
      const pair = await Promise.all([round(demoUpdateInstant), round(demoUpdateInstant)]);
      expect(
        pair.every(({ failed }) => failed === 0),
        'a patient failed',
      );
      expect((await undoubled()).length === 0, 'a Task stands twice');
      await same(demoUpdateInstant);
    },
    'small faults leave nothing behind': async () => {
      await call('DELETE', 'Observation/hemlock-heron-751-8-1125-0740');
      let nth = 0;
      const faults = [
        async () => ({ status: 429, headers: { 'retry-after': '1' }, body: '' }),
        async () => ({ status: 503, headers: {}, body: '' }),
        async () => 'cut',
        async ({ forward }) => (await forward(), 'cut'),
        async () => ({ status: 412, headers: {}, body: '' }),
      ];
      const proxy = await startProxy(baseUrl, (passing) => {
        nth += 1;
        const fault = nth % 3 === 0 ? faults[(nth / 3) % faults.length] : undefined;
        return (fault ?? (({ forward }) => forward()))(passing);
      });
      let aheadMs = 0;
      const sleep = async (milliseconds) => void (aheadMs += milliseconds);
      const clock = { ...realMachine, now: () => Date.now() + aheadMs, sleep };
      const poller = await adapterOver(proxy.baseUrl, token, demoUpdateInstant, clock);
      for (let at = 0; at < 5; at++) await poller.round().catch(() => (aheadMs += 60_000));
      await proxy.close();
      expect(nth > 10, `only ${nth} requests went through the faults`);
      expect((await round(demoUpdateInstant)).failed === 0, 'a patient failed');
      expect((await undoubled()).length === 0, 'a Task stands twice');
      await same(demoUpdateInstant);
    },
  };
}

/** Deletes what was loaded and what was written. @returns how many could not be deleted. */
async function cleanUp({ client: { call, search } }) {
  const written = [];
  for (const type of ['Task', 'Flag', 'DetectedIssue'])
    for (const patient of patients) written.push(...(await search(`${type}?patient=Patient/${patient}`)));
  const ours = written.map(({ resourceType, id }) => `${resourceType}/${id}`);
  const provenances = [];
  for (const name of ours) provenances.push(...(await search(`Provenance?target=${name}`)));
  const loaded = [...only(demoUnit()).entry, ...only(demoUpdate()).entry].map(
    ({ resource: { resourceType, id } }) => `${resourceType}/${id}`,
  );
  let left = new Set([...provenances.map(({ id }) => `Provenance/${id}`), ...ours, ...loaded.reverse()]);
  // What refers to each other goes in the order that the server allows.
  for (let pass = 0; pass < 4 && left.size > 0; pass++) {
    for (const name of left) {
      const { status } = await call('DELETE', name);
      if (status < 300 || status === 404 || status === 410) left.delete(name);
    }
  }
  return left.size;
}

/** @returns how many checks failed. */
async function suite(name, baseUrl, token) {
  const at = { baseUrl, token, client: clientOf(baseUrl, token) };
  const { status, body } = await at.client.call('GET', 'Device?_count=1');
  if (status !== 200) throw new Error(`${baseUrl} answers a search for Devices with ${status}.`);
  if ((body.entry ?? []).some(({ resource }) => resource?.resourceType === 'Device'))
    throw new Error(
      `${baseUrl} holds Devices: the adapter would keep Tasks for their patients. Name an empty server.`,
    );
  console.log(`${name}, ${baseUrl}`);
  let failed = 0;
  let passed = 0;
  try {
    await loadBundle(new FhirServer({ baseUrl, bearerToken: token }), only(demoUnit()));
    for (const [what, check] of Object.entries(checksOf(at))) {
      const error = await check().then(
        () => undefined,
        (thrown) => thrown,
      );
      if (error === undefined) passed += 1;
      else failed += 1;
      console.log(error === undefined ? `  ok    ${what}` : `  FAILS ${what}: ${error.message}`);
    }
  } finally {
    const left = await cleanUp(at);
    if (left > 0) failed += 1;
    console.log(
      `  ${left === 0 ? 'ok    everything is deleted again' : `FAILS ${left} resources could not be deleted`}`,
    );
  }
  console.log(`interop, ${name}: ${passed} of ${passed + failed} checks pass`);
  return failed;
}

const args = process.argv.slice(2);
const tokenAt = args.indexOf('--token');
const token = tokenAt < 0 ? undefined : (await readFile(args[tokenAt + 1], 'utf8')).trim();
const url = args.find((arg, at) => !arg.startsWith('--') && at !== tokenAt + (tokenAt < 0 ? -1 : 1));
if (url !== undefined) {
  process.exitCode = (await suite('the server', url.replace(/\/+$/, ''), token)) === 0 ? 0 : 1;
} else {
  let failed = 0;
  for (const [name, start] of [
    ['embedded server, raw', startRawServer],
    ['embedded server, wrapped', startDemoServer],
  ]) {
    const running = await start();
    failed += await suite(name, running.baseUrl, undefined);
    await running.close();
  }
  process.exitCode = failed === 0 ? 0 : 1;
}
