import { randomUUID } from 'node:crypto';
import {
  FhirServer,
  loadPolicy,
  readConfig,
  realMachine,
  startService,
  type Service,
} from '@dwellward/adapter';
import { startBoard, type RunningBoard } from '@dwellward/board';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { pino } from 'pino';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { startRecordSystem, systemToken, type RecordSystem } from './record-system.js';

// Users who sign in with the record system. What is asked of the client, and what it must not do, is that of HL7 SMART App
// Launch 2.2 (from memory: authorization code flow with PKCE, launch from a record and from elsewhere).

let demo: Awaited<ReturnType<typeof startDemoServer>>;
let system: RecordSystem;
let service: Service;
let board: RunningBoard;
let nowMs = Date.now();

beforeAll(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), demoUnit());
  system = await startRecordSystem(demo.baseUrl);
  const config = readConfig({
    DWELLWARD_FHIR_URL: system.base,
    DWELLWARD_FHIR_TOKEN: systemToken,
    DWELLWARD_ZONE: demoZone,
    DWELLWARD_PORT: '0',
  });
  service = await startService({
    ...{ config, policy: await loadPolicy(config.policy), machine: { ...realMachine, now: () => nowMs } },
    ...{ log: pino({ level: 'silent' }), asOf: () => demoInstant, board: { signIn: true } },
  });
  while (service.poller.lastRound === undefined) await new Promise((done) => setTimeout(done, 20));
  board = await startBoard({
    adapterUrl: service.url,
    signIn: {
      fhirBases: [system.base],
      client: { id: 'the-board' },
      publicUrl: 'http://127.0.0.1:1/',
      now: () => nowMs,
    },
  });
});
afterAll(async () => {
  await board.close();
  await service.stop();
  await system.close();
  await demo.close();
});
beforeEach(() => {
  system.behave({
    ...{ readable: undefined, expiresIn: 3600, refreshes: true, takesTokens: true },
    ...{ pkce: ['S256'], patient: undefined, takesCodesTwice: false },
  });
});

/** A browser as far as it matters: it keeps cookies, and follows where it is sent. */
function browser() {
  const cookies = new Map<string, string>();
  const told: string[] = [];
  const ask = async (path: string, init: RequestInit = {}) => {
    const url = path.startsWith('http') ? path : new URL(path, board.url).href;
    const response = await fetch(url, {
      ...init,
      redirect: 'manual',
      headers: {
        ...(init.headers as Record<string, string>),
        ...(cookies.size > 0 ? { cookie: [...cookies].map((pair) => pair.join('=')).join('; ') } : {}),
      },
    });
    for (const line of response.headers.getSetCookie()) {
      const [name = '', value = ''] = line.split(';')[0]?.split('=') ?? [];
      if (value === '') cookies.delete(name);
      else cookies.set(name, value);
    }
    const body = await response.text();
    told.push(body, [...response.headers].join('\n'));
    return { status: response.status, location: response.headers.get('location') ?? '', body, response };
  };
  return {
    told,
    cookies,
    ask,
    /** From the launch to the board; `callback` is where the record system sends back to. */
    async launch(query = '') {
      const begun = await ask(`/launch${query}`);
      const sent = await ask(begun.location);
      const callback = sent.location.replace('http://127.0.0.1:1/', board.url);
      return { begun, callback };
    },
    async signIn(query = '') {
      const { callback } = await this.launch(query);
      return this.ask(callback);
    },
    async unit() {
      const { status, body } = await ask('/api/unit');
      const { patients = [] } = JSON.parse(body) as { patients?: { patient: string }[] };
      return { status, patients: patients.map(({ patient }) => patient).sort() };
    },
    record: (act: object) =>
      ask('/api/charted', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ id: randomUUID(), ...act }),
      }),
  };
}

describe('a board whose users sign in', () => {
  it('shows nothing before', async () => {
    const user = browser();
    expect((await user.unit()).status).toBe(401);
    expect((await user.ask('/api/line?line=Device/spindle-picc')).status).toBe(401);
    expect((await user.record({ line: 'Device/spindle-picc', activity: 'flush' })).status).toBe(401);
    expect((await fetch(`${service.url}/board-api/unit`)).status).toBe(401);
    expect(
      (await fetch(`${service.url}/board-api/unit`, { headers: { 'x-fhir-authorization': 'Bearer x' } }))
        .status,
    ).toBe(401);
  });

  it('asks as the specification has it, and has a cookie that no script reads and no token', async () => {
    const user = browser();
    const back = await user.signIn();
    expect([back.status, back.location]).toEqual([303, '/']);
    const asked = Object.fromEntries(system.seen.authorize.at(-1) ?? []);
    expect(asked).toMatchObject({
      ...{ response_type: 'code', client_id: 'the-board', aud: system.base, code_challenge_method: 'S256' },
      ...{ redirect_uri: 'http://127.0.0.1:1/callback', scope: expect.not.stringMatching(/launch/) },
    });
    expect(asked['state']?.length).toBeGreaterThan(20);
    expect(asked['code_challenge']?.length).toBeGreaterThanOrEqual(43);
    const [session] = back.response.headers.getSetCookie().filter((line) => line.startsWith('session='));
    expect(session).toMatch(/HttpOnly/i);
    expect(session).toMatch(/SameSite=Lax/i);
    expect((await user.unit()).patients.length).toBeGreaterThan(10);
    expect(user.told.join('\n')).not.toMatch(/user-[0-9a-f]{8}|refresh-[0-9a-f]{8}/);
  });

  it('launched from a record it says so to the record system, and knows whose record it was', async () => {
    system.behave({ patient: 'spindle-wagtail' });
    const user = browser();
    await user.signIn(`?iss=${encodeURIComponent(system.base)}&launch=abc`);
    expect(Object.fromEntries(system.seen.authorize.at(-1) ?? [])).toMatchObject({
      launch: 'abc',
      scope: expect.stringMatching(/^launch /),
    });
    expect(JSON.parse((await user.ask('/api/me')).body)).toEqual({
      signsIn: true,
      patient: 'Patient/spindle-wagtail',
    });
  });

  it('shows the patients whom the record system gives the user, in no path any other', async () => {
    system.behave({ readable: ['spindle-wagtail'] });
    const user = browser();
    await user.signIn();
    expect((await user.unit()).patients).toEqual(['Patient/spindle-wagtail']);
    expect((await user.ask('/api/line?line=Device/spindle-picc')).status).toBe(200);
    for (const path of ['line', 'windows', 'other-care', 'first-steps', 'draw', 'repair'])
      expect((await user.ask(`/api/${path}?line=Device/alder-tunneled`)).status).toBe(404);
    expect((await user.ask('/api/handover')).body).not.toMatch(/Alder/);
    expect((await user.record({ line: 'Device/alder-tunneled', activity: 'site-assessment' })).status).toBe(
      404,
    );
  });

  it('writes with the user’s own token, and takes back with it', async () => {
    const user = browser();
    await user.signIn();
    const act = { id: randomUUID(), line: 'Device/spindle-picc', activity: 'necessity-review' };
    expect((await user.record(act)).status).toBe(201);
    const written = system.seen.fhir.filter(
      ({ method, token }) => method === 'POST' && token.startsWith('user-'),
    );
    expect(written.length).toBeGreaterThan(0);
    const undone = await user.ask('/api/taken-back', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ line: act.line, id: act.id }),
    });
    expect(undone.status).toBe(200);
  });

  it('renews a token that ends, and signs out where it can’t', async () => {
    system.behave({ expiresIn: 60 });
    const user = browser();
    await user.signIn();
    nowMs += 50_000;
    expect((await user.unit()).status).toBe(200);
    expect(system.seen.token.at(-1)).toMatchObject({ grant_type: 'refresh_token' });
    system.behave({ refreshes: false });
    nowMs += 61_000;
    expect((await user.unit()).status).toBe(401);
  });

  it('ends with a token that the record system takes no longer', async () => {
    const user = browser();
    await user.signIn();
    expect((await user.unit()).status).toBe(200);
    system.behave({ takesTokens: false });
    nowMs += 61_000;
    expect((await user.unit()).status).toBe(401);
    // The session is over, also for a token that is taken again.
    system.behave({ takesTokens: true });
    nowMs += 61_000;
    expect((await user.unit()).status).toBe(401);
  });

  it('ends when the user signs out, and after a long shift', async () => {
    const user = browser();
    await user.signIn();
    const out = await user.ask('/api/sign-out', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{}',
    });
    expect(out.status).toBe(200);
    expect((await user.unit()).status).toBe(401);
    const late = browser();
    await late.signIn();
    nowMs += 12 * 3_600_000;
    expect((await late.unit()).status).toBe(401);
  });
});

describe('what is refused', () => {
  it('a launch from a server that nobody named', async () => {
    const user = browser();
    const { status, body } = await user.ask('/launch?iss=https%3A%2F%2Felsewhere.example%2Fr4&launch=1');
    expect([status, body]).toEqual([403, 'The board is not to be launched from this server.\n']);
  });

  it('a record system without PKCE', async () => {
    system.behave({ pkce: ['plain'] });
    const { status, body } = await browser().ask('/launch');
    expect(status).toBe(403);
    expect(body).toMatch(/PKCE with S256/);
  });

  it('a return that nobody here asked for, with another state, or a second time', async () => {
    const one = browser();
    const { callback } = await one.launch();
    expect((await browser().ask(callback)).status).toBe(403);
    const odd = browser();
    const other = await odd.launch();
    expect((await odd.ask(other.callback.replace(/state=[^&]+/, 'state=x'))).status).toBe(403);
    const pending = one.cookies.get('pending') ?? '';
    system.behave({ takesCodesTwice: true });
    expect((await one.ask(callback)).status).toBe(303);
    one.cookies.set('pending', pending);
    expect((await one.ask(callback)).status).toBe(403);
  });

  it('a session that was made up', async () => {
    const user = browser();
    user.cookies.set('session', 'made-up');
    expect((await user.unit()).status).toBe(401);
  });
});
