import { randomUUID } from 'node:crypto';
import { request } from 'node:http';
import { startDemoServer } from '@dwellward/demo-server';
import { codeSystem, identifierSystem } from '@dwellward/profiles';
import type { Bundle, FhirResource, Procedure } from 'fhir/r4.js';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ConfigError, readConfig } from '../config.js';
import { realMachine } from '../machine.js';
import { loadPolicy } from '../policy.js';
import { startService, type Service } from '../service.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
let service: Service;
const now = '2026-11-25T12:00:00+01:00';
const patient = { reference: 'Patient/ash' };
const coded = (system: string, code: string) => ({ coding: [{ system, code }] });
const resources: FhirResource[] = [
  { resourceType: 'Patient', id: 'ash', name: [{ text: 'Ash Auk' }], birthDate: '1980-05-05' },
  {
    resourceType: 'Device',
    id: 'ash-picc',
    status: 'active',
    type: coded(codeSystem.lineType, 'picc'),
    patient,
  },
  {
    resourceType: 'Procedure',
    id: 'ash-insertion',
    status: 'completed',
    code: coded(codeSystem.lineCareActivity, 'insertion'),
    subject: patient,
    performedDateTime: '2026-11-10T10:00:00+01:00',
    focalDevice: [{ manipulated: { reference: 'Device/ash-picc' } }],
  },
];
const options = (host = '127.0.0.1') => {
  const config = readConfig({
    DWELLWARD_FHIR_URL: demo.baseUrl,
    DWELLWARD_ZONE: 'Europe/Berlin',
    DWELLWARD_PORT: '0',
    DWELLWARD_HOST: host,
  });
  return { config, machine: realMachine, log: pino({ level: 'silent' }), asOf: () => now, board: {} };
};

beforeAll(async () => {
  demo = await startDemoServer();
  for (const resource of resources)
    await fetch(`${demo.baseUrl}/${resource.resourceType}/${resource.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify(resource),
    });
  const given = options();
  service = await startService({ ...given, policy: await loadPolicy(given.config.policy) });
  while (service.poller.lastRound === undefined) await new Promise((done) => setTimeout(done, 20));
});
afterAll(async () => {
  await service.stop();
  await demo.close();
});

const api = (path: string) => `${service.url}/board-api/${path}`;
const get = async (path: string) => {
  const response = await fetch(api(path));
  return { status: response.status, body: (await response.json()) as Record<string, never> };
};
const post = async (path: string, body: object) => {
  const response = await fetch(api(path), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  return { status: response.status, body: (await response.json()) as Record<string, never> };
};
const charted = async () => {
  const response = await fetch(`${demo.baseUrl}/Procedure?patient=ash&_count=100`);
  const { entry = [] } = (await response.json()) as Bundle<Procedure>;
  return entry.flatMap(({ resource }) =>
    resource?.identifier?.some(({ system }) => system === identifierSystem.charted) ? [resource] : [],
  );
};
const act = (more: object = {}) => ({
  id: randomUUID(),
  line: 'Device/ash-picc',
  activity: 'dressing-change',
  ...more,
});

describe('what the unit’s board asks of the adapter', () => {
  it('the unit, a line, first steps and the hand-over, in words', async () => {
    const unit = await get('unit');
    expect(unit).toMatchObject({ status: 200, body: { patients: [{ name: 'Ash Auk' }], doubts: [] } });
    expect(await get('line?line=Device/ash-picc')).toMatchObject({ body: { patient: { name: 'Ash Auk' } } });
    const { body } = await get('first-steps?line=Device/ash-picc');
    expect(JSON.stringify(body)).toMatch(/"finding":"bleeding"/);
    expect(await get('handover?hours=8')).toMatchObject({ status: 200, body: { zone: 'Europe/Berlin' } });
  });

  it.each([
    ['line?line=Device/none', 404],
    ['line', 404],
    ['first-steps?line=', 404],
    ['handover?hours=0', 400],
    ['handover?hours=soon', 400],
    ['draw?line=Device/ash-picc&tests=', 422],
  ])('%s is answered with %d and what is wrong', async (path, status) => {
    expect(await get(path)).toMatchObject({ status, body: { problems: [expect.any(String)] } });
  });

  it('charts an act once, however often it is sent, and its care follows at once', async () => {
    const one = act();
    expect((await post('charted', one)).status).toBe(201);
    expect((await post('charted', one)).status).toBe(201);
    expect(await charted()).toHaveLength(1);
    const { body } = await get('unit');
    const rows = (body as unknown as { patients: { lines: { rows: { text: string; dueBy: string }[] }[] }[] })
      .patients[0]?.lines[0]?.rows;
    const dressing = rows?.find(({ text }) => /Dressing change/.test(text));
    expect(Date.parse(dressing?.dueBy ?? '')).toBeGreaterThan(Date.parse(now));
  });

  it('asks about a second act within two minutes, and writes it after a yes', async () => {
    const second = act();
    const asked = await post('charted', second);
    expect(asked).toMatchObject({
      status: 409,
      body: { questions: [{ code: 'charts-twice', refused: false }] },
    });
    expect(await charted()).toHaveLength(1);
    expect((await post('charted', { ...second, confirmed: ['charts-twice'] })).status).toBe(201);
    expect(await charted()).toHaveLength(2);
    expect((await post('taken-back', { line: second.line, id: second.id })).status).toBe(200);
    expect((await charted()).map(({ status }) => status).sort()).toEqual(['completed', 'entered-in-error']);
  });

  it('of two who chart at once it writes one and asks the other', async () => {
    const both = await Promise.all([0, 1].map(() => post('charted', act({ activity: 'site-assessment' }))));
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
  });

  it('a yes does not lift what is refused', async () => {
    const ahead = act({ at: '2026-11-25T13:00:00+01:00', confirmed: ['charts-in-future'] });
    expect(await post('charted', ahead)).toMatchObject({
      status: 409,
      body: { questions: [{ refused: true }] },
    });
  });

  it.each([
    [{}, /id/],
    [{ id: 'no-uuid', line: 'Device/ash-picc', activity: 'flush' }, /id/],
    [{ id: randomUUID(), line: 'Device/ash-picc' }, /activity, findings/],
    [{ id: randomUUID(), line: 'Device/ash-picc', activity: 'tea' }, /activity/],
    [{ id: randomUUID(), line: 'Device/ash-picc', activity: 'flush', at: 'yesterday' }, /at/],
    [{ id: randomUUID(), line: 'Device/ash-picc', activity: 'flush', odd: 1 }, /odd/],
  ])('%j is refused with what is wrong with it', async (body, saying) => {
    const answer = await post('charted', body);
    expect(answer.status).toBe(400);
    expect(JSON.stringify(answer.body)).toMatch(saying);
  });

  it('takes back nothing that was not charted here', async () => {
    const before = await charted();
    expect((await post('taken-back', { line: 'Device/ash-picc', id: randomUUID() })).status).toBe(404);
    expect((await post('taken-back', { line: 'Device/ash-picc' })).status).toBe(400);
    expect(await charted()).toEqual(before);
  });

  it('answers nobody who asks by another name, and tells what can’t be read as a problem', async () => {
    const asked = await new Promise<number | undefined>((done) => {
      const { port } = new URL(service.url);
      request({ port, path: '/board-api/unit', headers: { host: 'board.elsewhere.example' } }, (response) => {
        response.resume();
        done(response.statusCode);
      }).end();
    });
    expect(asked).toBe(403);
    const response = await fetch(api('charted'), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{"id": Ash Auk',
    });
    expect(response.status).toBe(400);
    expect(await response.json()).toEqual({ problems: ['The request can’t be read.'] });
  });

  it('has charted what is on record, also where what follows can’t be worked out yet', async () => {
    const { poller } = service;
    const { lookAt } = poller;
    poller.lookAt = () => Promise.reject(new Error('no answer'));
    try {
      const one = act({ activity: 'necessity-review' });
      expect(await post('charted', one)).toMatchObject({ status: 201, body: { shown: false } });
      expect((await charted()).some(({ identifier }) => identifier?.[0]?.value === one.id)).toBe(true);
    } finally {
      poller.lookAt = lookAt;
    }
    expect((await post('charted', act({ activity: 'teaching' }))).body).toMatchObject({ shown: true });
  });

  it('tells of windows that have closed: what was not done, and what was kept', async () => {
    const { body } = await get('windows?line=Device/ash-picc');
    const { from, windows } = body as unknown as {
      from: string;
      windows: { outcome: string; text: string; dueBy: string }[];
    };
    expect(from).toBe('2026-11-10');
    expect(windows.map(({ outcome }) => outcome)).toContain('missed');
    expect(windows.every(({ dueBy }) => Date.parse(dueBy) < Date.parse('2026-11-25T00:00:00+01:00'))).toBe(
      true,
    );
    expect(windows.map(({ text }) => text)).toContainEqual(
      expect.stringMatching(/^Site assessment: due by .*; not done$/),
    );
  });

  it('gives the unit’s figures, says where there are none, and why they can’t be read by now', async () => {
    expect(await get('figures')).toEqual({ status: 200, body: { figures: null } });
    const given = options();
    const policy = await loadPolicy(given.config.policy);
    let file = JSON.stringify({ none: true });
    const view = { title: 'Figures from then to then' } as never;
    const board = {
      figures: () =>
        file === '' ? Promise.resolve(view) : Promise.reject(new ConfigError(['It is no file.'])),
    };
    const own = await startService({ ...given, policy, board });
    try {
      const asked = async () => {
        const response = await fetch(`${own.url}/board-api/figures`);
        return { status: response.status, body: (await response.json()) as unknown };
      };
      expect(await asked()).toEqual({ status: 422, body: { problems: ['It is no file.'] } });
      file = '';
      expect(await asked()).toEqual({ status: 200, body: { figures: view } });
    } finally {
      await own.stop();
    }
  });

  it('is not served where others can reach it', async () => {
    const given = options('0.0.0.0');
    const open = await startService({ ...given, policy: await loadPolicy(given.config.policy) });
    try {
      const url = open.url.replace('0.0.0.0', '127.0.0.1');
      expect((await fetch(`${url}/board-api/unit`)).status).toBe(404);
    } finally {
      await open.stop();
    }
  });
});
