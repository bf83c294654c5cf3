import { readRecords } from '@dwellward/core';
import { listen, startDemoServer } from '@dwellward/demo-server';
import { demoInstant, demoPolicyLayers, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan } from '@dwellward/policy';
import { Validator } from '@seriousme/openapi-schema-validator';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import express, { type RequestHandler } from 'express';
import type { FhirResource } from 'fhir/r4.js';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Unit } from '../board-api/index.js';
import { NotRead, type PatientCare, type PatientReader } from '../hooks/index.js';
import { readConfig } from '../config.js';
import { realMachine } from '../machine.js';
import { loadPolicy } from '../policy.js';
import { startService, type Service } from '../service.js';
import { Calendars } from './calendars.js';
import { restApi } from './index.js';
import { openApi } from './openapi.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
let service: Service;
const id = 'alder-avocet';
const line = 'alder-tunneled';
const start = async (more: Record<string, string> = {}, rest: object = {}) => {
  const config = readConfig({
    DWELLWARD_FHIR_URL: demo.baseUrl,
    DWELLWARD_ZONE: demoZone,
    DWELLWARD_POLICY:
      demoPolicyLayers.filter((name) => !['base', 'trouble'].includes(name)).join(',') || 'none',
    DWELLWARD_PORT: '0',
    DWELLWARD_INTERFACES: 'rest',
    ...more,
  });
  return startService({
    config,
    policy: await loadPolicy(config.policy),
    machine: realMachine,
    log: pino({ level: 'silent' }),
    asOf: () => demoInstant,
    ...rest,
  });
};
const patientOf = (resource: FhirResource): string | undefined => {
  const { subject, patient } = resource as {
    subject?: { reference?: string };
    patient?: { reference?: string };
  };
  return subject?.reference ?? patient?.reference;
};

let alder: string;
beforeAll(async () => {
  demo = await startDemoServer();
  const all = (demoUnit().entry ?? []).flatMap(({ resource }) => (resource ? [resource] : []));
  const device = all.find((one) => one.id === line);
  alder = (device && patientOf(device)?.slice('Patient/'.length)) ?? id;
  const kept = all.filter(
    (one) =>
      one.id === alder ||
      patientOf(one) === `Patient/${alder}` ||
      one.resourceType === 'Location' ||
      (one.resourceType === 'Device' && one.parent?.reference === `Device/${line}`),
  );
  for (const resource of kept)
    await fetch(`${demo.baseUrl}/${resource.resourceType}/${resource.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify(resource),
    });
  service = await start();
  while (service.poller.lastRound === undefined) await new Promise((done) => setTimeout(done, 20));
});
afterAll(async () => {
  await service.stop();
  await demo.close();
});

const ajv = new Ajv2020({ allErrors: true, strict: false });
addFormats.default(ajv);
ajv.addSchema(openApi, 'https://dwellward.example/openapi');
const called = new Set<string>();

type Paths = Record<
  string,
  Record<string, { responses: Record<string, { content?: Record<string, unknown> }> }>
>;
const escaped = (name: string) => name.replaceAll('~', '~0').replaceAll('/', '~1');

/** Asks a route as it is described, and holds status, type and body of the answer against its description. */
async function ask(
  method: 'get' | 'post' | 'delete',
  route: keyof typeof openApi.paths,
  given: Record<string, string> = {},
  { body, accept, query = '' }: { body?: unknown; accept?: string; query?: string } = {},
) {
  const path = route.replace(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(given[name] ?? ''));
  const response = await fetch(`${service.url}${path}${query}`, {
    method: method.toUpperCase(),
    headers: {
      ...(accept ? { accept } : {}),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  called.add(`${method} ${route} ${response.status}`);
  const described = (openApi.paths as unknown as Paths)[route]?.[method]?.responses[response.status];
  expect(described, `${method} ${path} answers ${response.status}`).toBeDefined();
  const raw = await response.text();
  const [type = ''] = (response.headers.get('content-type') ?? '').split(';');
  if (described?.content === undefined) expect(raw).toBe('');
  else {
    expect(Object.keys(described.content)).toContain(type);
    const value: unknown = type.endsWith('json') ? JSON.parse(raw) : raw;
    const pointer = ['paths', route, method, 'responses', String(response.status), 'content', type, 'schema'];
    const validate = ajv.getSchema(
      `https://dwellward.example/openapi#/${pointer.map((one) => encodeURIComponent(escaped(one))).join('/')}`,
    );
    expect(validate).toBeDefined();
    void validate?.(value);
    expect(validate?.errors ?? []).toEqual([]);
    return { status: response.status, body: value as Record<string, never>, headers: response.headers };
  }
  return { status: response.status, body: {} as Record<string, never>, headers: response.headers };
}

describe('the description', () => {
  it('is OpenAPI 3.1 for a validator, and what is served', async () => {
    const served = (await (await fetch(`${service.url}/openapi.json`)).json()) as Record<string, unknown>;
    expect(served).toEqual(JSON.parse(JSON.stringify(openApi)));
    const result = await new Validator().validate(served);
    expect(result.errors ?? []).toEqual([]);
    expect(result.valid).toBe(true);
  });
  it('would be refused with a fault in it', async () => {
    const broken = { ...openApi, info: { title: 'x' } };
    expect(
      (await new Validator().validate(JSON.parse(JSON.stringify(broken)) as Record<string, unknown>)).valid,
    ).toBe(false);
  });
});

describe('due care of a patient', () => {
  it('as plain JSON, and as a FHIR Bundle by Accept', async () => {
    const { body } = await ask('get', '/patients/{id}/due', { id: alder });
    const lines = body['lines'] as unknown as { line: string; items: object[]; holds: object[] }[];
    expect(lines.map((one) => one.line)).toEqual([`Device/${line}`]);
    expect(lines[0]?.items.length).toBeGreaterThan(3);
    expect(lines[0]?.holds.length).toBeGreaterThan(0);
    expect(body['doubts']).toEqual([]);
    const fhir = await ask('get', '/patients/{id}/due', { id: alder }, { accept: 'application/fhir+json' });
    expect(JSON.stringify(fhir.body)).toMatch(/"resourceType":"Task"/);
    expect(fhir.headers.get('vary')).toMatch(/accept/i);
    expect(fhir.headers.get('cache-control')).toBe('no-store');
  });
  it('says why where there is none', async () => {
    const { status, body } = await ask('get', '/patients/{id}/due', { id: 'nobody' });
    expect([status, JSON.stringify(body)]).toEqual([404, expect.stringMatching(/no such patient/)]);
  });
});

it('explains a line of the patient, and no other', async () => {
  const route = '/patients/{id}/lines/{line}/explanation';
  const { body } = await ask('get', route, { id: alder, line });
  expect(body['text']).toMatch(/Blockage response/);
  expect((await ask('get', route, { id: alder, line: 'none' })).status).toBe(404);
});

it('hands over the unit for the next hours', async () => {
  const { body } = await ask('get', '/handover', {}, { query: '?hours=12' });
  expect(body['text']).toMatch(/Blockage response/);
  expect((await ask('get', '/handover', {}, { query: '?hours=0' })).status).toBe(400);
  const none = await ask('get', '/handover', {}, { query: '?unit=Nowhere' });
  expect(none.body['patients']).toEqual([]);
});

describe('a preview of a policy', () => {
  const base = bundledPlan('base') as unknown as { url: string; version: string; action: object[] };
  const route = '/policy/preview';
  it('changes nothing with the plans in use, and says what would vanish with fewer rules', async () => {
    const same = await ask('post', route, {}, { body: { plans: [base] } });
    expect(same.body).toMatchObject({ changes: [], holds: [] });
    const fewer = { ...base, action: base.action.slice(0, 1) };
    const { body } = await ask('post', route, {}, { body: { plans: [fewer] } });
    const changes = body['changes'] as unknown as { kind: string; patient: string }[];
    expect(changes.some(({ kind }) => kind === 'vanishes')).toBe(true);
    expect(new Set(changes.map(({ patient }) => patient))).toEqual(new Set([`Patient/${alder}`]));
  });
  it('refuses what is no plan, and says what is wrong with one that can’t be used', async () => {
    expect((await ask('post', route, {}, { body: { plans: [] } })).status).toBe(400);
    const odd = { resourceType: 'PlanDefinition', url: 'https://unit.example/PlanDefinition/x' };
    const { status, body } = await ask('post', route, {}, { body: { plans: [odd] } });
    expect([status, (body['problems'] as unknown as string[]).length > 0]).toEqual([422, true]);
  });
});

describe('a calendar feed', () => {
  const give = async (body: object = {}) => {
    const given = await ask('post', '/patients/{id}/calendars', { id: alder }, { body });
    return given.body as unknown as { id: string; path: string };
  };
  const feed = (path: string) => ask('get', '/calendar/{token}', { token: path.slice('/calendar/'.length) });

  it('is given by its token alone, and tells neither name nor reference where it is not asked to', async () => {
    const { path } = await give();
    expect(path).not.toMatch(/alder/i);
    const { status, body, headers } = await feed(path);
    expect(status).toBe(200);
    expect(String(body)).toMatch(/^BEGIN:VCALENDAR\r\n[^]*BEGIN:VEVENT/);
    expect(String(body)).not.toMatch(/alder/i);
    expect(headers.get('cache-control')).toBe('no-store');
    expect((await give()).path).not.toBe(path);
  });

  it('is gone once it is taken back, and only by whose it is', async () => {
    const { id: calendar, path } = await give({ tells: 'name' });
    const route = '/patients/{id}/calendars/{calendar}';
    expect((await ask('delete', route, { id: 'other', calendar })).status).toBe(404);
    expect((await feed(path)).status).toBe(200);
    expect((await ask('delete', route, { id: alder, calendar })).status).toBe(204);
    const gone = await feed(path);
    const never = await feed(`/calendar/${'A'.repeat(43)}.ics`);
    expect([gone.status, gone.body]).toEqual([404, never.body]);
  });

  it('is given of nobody who is not there, and not for what is asked wrongly', async () => {
    const route = '/patients/{id}/calendars';
    expect((await ask('post', route, { id: 'nobody' }, { body: {} })).status).toBe(404);
    expect((await ask('post', route, { id: alder }, { body: { tells: 'full' } })).status).toBe(400);
  });

  it('keeps no token, and gives out no more than it may', () => {
    const calendars = new Calendars();
    const made = calendars.create('p', 'care');
    expect(made?.token).toMatch(/^[A-Za-z0-9_-]{43}$/);
    expect(calendars.find(made?.token ?? '')?.patient).toBe('p');
    for (let count = 1; count < 10_000; count++) calendars.create('p', 'care');
    expect(calendars.create('p', 'care')).toBeUndefined();
  });
});

describe('who may ask', () => {
  it('nobody beyond a loopback address without a guard; with one, a calendar’s token still lets in', async () => {
    const guard: RequestHandler = (_request, response) => void response.status(418).json({});
    for (const [rest, due, calendar] of [
      [{}, 404, undefined],
      [{ guards: { rest: guard } }, 418, 'calendar'],
    ] as const) {
      const open = await start({ DWELLWARD_HOST: '0.0.0.0' }, rest);
      try {
        const url = open.url.replace('0.0.0.0', '127.0.0.1');
        expect((await fetch(`${url}/patients/${alder}/due`)).status).toBe(due);
        expect((await fetch(`${url}/handover`)).status).toBe(due);
        expect((await fetch(`${url}/policy/preview`, { method: 'POST' })).status).toBe(due);
        const body = await (await fetch(`${url}/calendar/x.ics`)).text();
        expect(/calendar: there is none/.test(body)).toBe(calendar === 'calendar');
      } finally {
        await open.stop();
      }
    }
  });
});

describe('a record that could not be read, or not as a whole', () => {
  const care: PatientCare = {
    patient: 'Patient/p',
    records: readRecords([]),
    cares: [],
    when: { asOf: demoInstant, zone: demoZone },
    doubts: ['Two pages are missing.'],
    entries: [],
    readOptions: {},
    recordable: () => true,
  };
  const served = async (read: () => Promise<PatientCare>) => {
    const calendars = new Calendars();
    const token = calendars.create('p', 'care')?.token ?? '';
    const policy = await loadPolicy([]);
    const api = restApi({
      reader: { read, policy, when: care.when } as unknown as PatientReader,
      unit: new Unit(policy, demoZone, () => demoInstant),
      calendars,
      log: pino({ level: 'silent' }),
      doubts: () => ['No round has been completed yet.'],
      plans: async () => [],
    });
    const running = await listen(express().use(api), 0);
    const { origin } = new URL(running.baseUrl);
    const get = async (path: string, accept = 'application/json') => {
      const response = await fetch(origin + path, { headers: { accept } });
      return { status: response.status, body: await response.text() };
    };
    return { get, token, close: () => running.close() };
  };

  it('says what may be missing, and sends no calendar that may lack care', async () => {
    const { get, token, close } = await served(async () => care);
    try {
      expect((await get('/patients/p/due')).body).toMatch(/"doubts":\["Two pages are missing\."\]/);
      const fhir = (await get('/patients/p/due', 'application/fhir+json')).body;
      expect(fhir).toMatch(/"resourceType":"OperationOutcome".*Two pages are missing/);
      expect(await get(`/calendar/${token}.ics`)).toMatchObject({ status: 503 });
      expect((await get('/handover')).body).toMatch(/No round has been completed yet/);
    } finally {
      await close();
    }
  });

  it.each<[Error, number]>([
    [new NotRead('no-answer'), 503],
    [new NotRead('refused'), 502],
    [new NotRead('several-patients'), 502],
    [new Error('Maple Magpie'), 500],
  ])('%s is answered with %d and why, never with an empty list', async (error, status) => {
    const { get, close } = await served(() => Promise.reject(error));
    try {
      for (const path of ['/patients/p/due', '/patients/p/lines/l/explanation']) {
        const answer = await get(path);
        expect(answer).toMatchObject({ status, body: expect.stringMatching(/could not be read/) });
        expect(answer.body).not.toMatch(/Magpie/);
      }
    } finally {
      await close();
    }
  });
});

it('every route that is described was called, and gave what it is for', () => {
  const routes = Object.entries(openApi.paths as unknown as Paths).flatMap(([route, methods]) =>
    Object.entries(methods).map(([method, { responses }]) => {
      const [good] = Object.keys(responses).filter((status) => status.startsWith('2'));
      return `${method} ${route} ${good}`;
    }),
  );
  expect(routes.filter((one) => !called.has(one))).toEqual([]);
});
