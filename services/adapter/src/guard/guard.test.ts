import { createHmac, createSign, generateKeyPairSync, type KeyObject } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer, request as httpRequest, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { listen, type RunningServer } from '@dwellward/demo-server';
import express from 'express';
import { SignJWT } from 'jose';
import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { createApp } from '../app.js';
import { ConfigError } from '../config.js';
import { realMachine } from '../machine.js';
import { newCounters, type Status } from '../status.js';
import { localGuard, makeGuard, scopes, type Guard } from './index.js';

const issuer = 'https://login.test/realm';
const audience = 'https://dwellward.test';
const nowMs = Date.parse('2026-11-25T12:00:00Z');
const nowSeconds = nowMs / 1000;

const pair = (kind: 'rsa' | 'P-256' | 'P-384') =>
  kind === 'rsa'
    ? generateKeyPairSync('rsa', { modulusLength: 2048 })
    : generateKeyPairSync('ec', { namedCurve: kind });
const rsa = pair('rsa');
const ec = pair('P-256');
const stranger = pair('rsa');
const published = (key: KeyObject, kid: string) => ({ ...key.export({ format: 'jwk' }), kid });
const keySet = () => ({ keys: [published(rsa.publicKey, 'r1'), published(ec.publicKey, 'e1')] });

/** Good unless it is said how it is not. */
const claims = { iss: issuer, aud: audience, sub: 'board', exp: nowSeconds + 300 };
const all = Object.values(scopes).join(' ');
const signed = (
  more: object = {},
  header: { alg: string; kid?: string } = { alg: 'RS256', kid: 'r1' },
  key: KeyObject = rsa.privateKey,
) => new SignJWT({ ...claims, scope: all, ...more }).setProtectedHeader(header).sign(key);
const encoded = (part: object) => Buffer.from(JSON.stringify(part)).toString('base64url');

let folder: string;
let file: string;
let lines: string[];
let now: number;
let sleep: typeof realMachine.sleep;
let running: RunningServer;
let open: (() => Promise<unknown>)[];
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'guard-'));
  file = join(folder, 'keys.json');
});
afterAll(() => rm(folder, { recursive: true }));
beforeEach(async () => {
  await writeFile(file, JSON.stringify(keySet()));
  [lines, open, now, sleep] = [[], [], nowMs, realMachine.sleep];
});
afterEach(async () => {
  await Promise.all(open.map((close) => close()));
});

const machine = {
  ...realMachine,
  now: () => now,
  sleep: (milliseconds: number, signal?: AbortSignal) => sleep(milliseconds, signal),
};
const log = pino({ level: 'debug' }, { write: (text: string) => void lines.push(text) });
const guarded = (guardKeys = file) =>
  makeGuard({ host: '127.0.0.1', guardKeys, guardIssuer: issuer, guardAudience: audience }, machine, log);

const status: Status = {
  nowMs,
  lastRound: {
    at: '2026-11-25T11:59:00Z',
    ok: false,
    failed: 1,
    writes: { done: 1, refused: 0 },
    code: 'refused',
    message: 'GET Patient at http://fhir.test/Patient/secret-9',
  },
  completedMs: nowMs - 60_000,
  patients: 4,
  openTasks: 9,
  failing: [
    { patient: 'Patient/secret-7', since: '', times: 1, code: 'refused', message: 'Patient/secret-7' },
  ],
  held: [
    {
      patient: 'Patient/secret-8',
      closings: 2,
      because: 'emptied-record',
      needsWord: true,
      detail: 'Patient/secret-8 is empty.',
    },
  ],
  gaps: ['Device?patient=Patient/secret-6'],
  fit: { fhirVersion: '4.0.1', enforcesReferences: false, warnings: [] },
  clockSkewMs: 0,
  closedForMs: 0,
  writesOneByOne: false,
  callsTimedOut: 0,
  counters: newCounters(),
};

/** The app with a board of two routes behind the guard. */
async function serve(guard: Guard) {
  const board = express.Router();
  board.get('/unit', (_request, response) => void response.json({ unit: 'open' }));
  board.get('/changes', (_request, response) => {
    response.write('event: changed\n\n');
  });
  board.post('/charted', express.json(), (_request, response) => void response.status(201).json({}));
  board.get('/broken', () => {
    throw new Error('of Patient/secret-5');
  });
  running = await listen(
    createApp({ status }, 600_000, () => [], board, { guard, log, machine }),
    0,
  );
  open.push(running.close);
}
const ask = async (path: string, token?: string, init: RequestInit = {}) => {
  const headers = { ...(token === undefined ? {} : { authorization: `Bearer ${token}` }), ...init.headers };
  const response = await fetch(new URL(path, running.baseUrl), { ...init, headers });
  const text = await response.text();
  const json = (response.headers.get('content-type') ?? '').includes('json');
  const body = (json ? JSON.parse(text) : {}) as Record<string, unknown>;
  return { code: response.status, headers: response.headers, text, body };
};

describe('with a guard', () => {
  beforeEach(async () => serve(await guarded()));

  it.each([
    ['RS256', 'r1', rsa],
    ['RS384', 'r1', rsa],
    ['ES256', 'e1', ec],
  ])('lets by a good token that is signed by %s', async (alg, kid, { privateKey }) => {
    expect((await ask('board-api/unit', await signed({}, { alg, kid }, privateKey))).code).toBe(200);
  });

  it('lets by one by ES384', async () => {
    const p384 = pair('P-384');
    await writeFile(file, JSON.stringify({ keys: [published(p384.publicKey, 'e3')] }));
    expect(
      (await ask('board-api/unit', await signed({}, { alg: 'ES384', kid: 'e3' }, p384.privateKey))).code,
    ).toBe(200);
  });

  it('lets by a token that was made without the library that judges it', async () => {
    const text = `${encoded({ alg: 'RS256', kid: 'r1' })}.${encoded({ ...claims, scope: all })}`;
    const signature = createSign('RSA-SHA256').update(text).sign(rsa.privateKey).toString('base64url');
    expect((await ask('board-api/unit', `${text}.${signature}`)).code).toBe(200);
  });

  it('asks for a token, as problem details', async () => {
    for (const path of ['board-api/unit', 'board-api/charted', 'board-api/not-there']) {
      const { code, headers, body } = await ask(path);
      expect([code, headers.get('www-authenticate')]).toEqual([401, 'Bearer realm="dwellward"']);
      expect(headers.get('content-type')).toContain('application/problem+json');
      expect(headers.get('cache-control')).toBe('no-store');
      expect(body).toMatchObject({ title: 'Unauthorized', status: 401, code: 'no-token' });
    }
    const basic = await ask('board-api/unit', undefined, { headers: { authorization: 'Basic YTpi' } });
    expect(basic.body).toMatchObject({ code: 'no-token' });
  });

  const hmac = () => {
    const secret = rsa.publicKey.export({ format: 'pem', type: 'spki' });
    const text = `${encoded({ alg: 'HS256', kid: 'r1' })}.${encoded({ ...claims, scope: all })}`;
    return `${text}.${createHmac('sha256', secret).update(text).digest('base64url')}`;
  };
  const altered = async () => {
    const [header, , signature] = (await signed({ scope: '' })).split('.');
    return `${header}.${encoded({ ...claims, scope: all })}.${signature}`;
  };
  it.each<[string, () => string | Promise<string>]>([
    ['no token', () => 'hello'],
    ['unsigned', () => `${encoded({ alg: 'none' })}.${encoded({ ...claims, scope: all })}.`],
    ['signed with the public key as a secret', hmac],
    ['signed by a stranger', () => signed({}, { alg: 'RS256', kid: 'r1' }, stranger.privateKey)],
    ['by a key that is not in the set', () => signed({}, { alg: 'RS256', kid: 'r9' }, stranger.privateKey)],
    ['changed after it was signed', altered],
    ['by an algorithm that is not allowed', () => signed({}, { alg: 'PS256', kid: 'r1' })],
    ['by another that is not allowed', () => signed({}, { alg: 'RS512', kid: 'r1' })],
    ['over', () => signed({ exp: nowSeconds - 31 })],
    ['without an end', () => signed({ exp: undefined })],
    ['not yet begun', () => signed({ nbf: nowSeconds + 31 })],
    ['of another issuer', () => signed({ iss: 'https://other.test' })],
    ['of an issuer that begins alike', () => signed({ iss: `${issuer}/x` })],
    ['for somebody else', () => signed({ aud: 'https://other.test' })],
    ['for nobody', () => signed({ aud: undefined })],
  ])('refuses a token that is %s, always with the same answer', async (_, token) => {
    for (const path of ['board-api/unit', 'readyz']) {
      const { code, headers, body } = await ask(path, await token());
      expect([code, headers.get('www-authenticate')]).toEqual([
        401,
        'Bearer realm="dwellward", error="invalid_token"',
      ]);
      expect(body).toEqual({
        type: 'about:blank',
        title: 'Unauthorized',
        status: 401,
        code: 'invalid-token',
        detail: 'The bearer token can’t be used.',
      });
    }
    expect(lines.join()).toContain('A caller’s token was refused.');
  });

  it('allows clocks to be half a minute apart', async () => {
    for (const more of [{ exp: nowSeconds - 29 }, { nbf: nowSeconds + 29 }])
      expect((await ask('board-api/unit', await signed(more))).code).toBe(200);
  });

  it.each([
    ['GET', 'board-api/unit', scopes.boardRead],
    ['POST', 'board-api/charted', scopes.boardWrite],
    ['DELETE', 'board-api/unit', scopes.boardWrite],
    ['GET', 'readyz', scopes.statusRead],
  ])('%s %s needs %s and no other', async (method, path, scope) => {
    const others = Object.values(scopes).filter((one) => one !== scope);
    for (const given of [others.join(' '), '', undefined, 7, `${scope}x`, scope.toUpperCase()]) {
      const { code, headers, body } = await ask(path, await signed({ scope: given }), { method });
      expect([code, body.code]).toEqual([403, 'insufficient-scope']);
      expect(headers.get('www-authenticate')).toBe(
        `Bearer realm="dwellward", error="insufficient_scope", scope="${scope}"`,
      );
    }
    for (const more of [{ scope }, { scope: undefined, scp: scope }, { scope: undefined, scp: [scope] }])
      expect([401, 403]).not.toContain((await ask(path, await signed(more), { method })).code);
  });

  it('takes new keys from the file, and none where the file can’t be used', async () => {
    const late = await signed({}, { alg: 'RS256', kid: 'r2' }, stranger.privateKey);
    expect((await ask('board-api/unit', late)).code).toBe(401);
    await writeFile(file, JSON.stringify({ keys: [published(stranger.publicKey, 'r2')] }));
    expect((await ask('board-api/unit', late)).code).toBe(200);
    expect((await ask('board-api/unit', await signed())).code).toBe(401);
    await writeFile(file, '{"keys":');
    const { code, headers, body } = await ask('board-api/unit', late);
    expect([code, body.code, headers.get('retry-after')]).toEqual([503, 'keys-unavailable', '10']);
  });

  it('ends a stream with its token', async () => {
    const slept: number[] = [];
    sleep = async (milliseconds) => {
      slept.push(milliseconds);
      await new Promise((resolve) => setTimeout(resolve, 20));
      now += milliseconds;
    };
    const { text } = await ask('board-api/changes', await signed({ exp: nowSeconds + 60 }));
    expect([text, slept]).toEqual(['event: changed\n\n', [90_000]]);
  });

  it('says nothing of tokens, requests and patients in log or answer', async () => {
    const token = await signed();
    const [, payload, signature] = token.split('.') as [string, string, string];
    await ask(`board-api/unit?line=Device/secret-4`, `${token.slice(0, -4)}AAAA`);
    await ask('board-api/unit?line=Device/secret-4', await signed({ scope: '' }));
    const broken = await ask('board-api/broken', token);
    const unreadable = await ask('board-api/charted', token, {
      method: 'POST',
      body: '{"secret-3',
      headers: { 'content-type': 'application/json' },
    });
    expect([broken.code, unreadable.code]).toEqual([500, 400]);
    expect(broken.text + unreadable.text).not.toMatch(/secret|node_modules/);
    for (const part of [payload, signature, 'secret-4', 'secret-3']) expect(lines.join()).not.toContain(part);
  });
});

describe('health', () => {
  it('gives everybody codes and counts, and never a patient', async () => {
    await serve(await guarded());
    const { code, body, text } = await ask('readyz');
    expect(code).toBe(503);
    expect(body).toMatchObject({ ready: false, patients: 4, failing: 1, held: 1, openTasks: 9 });
    expect(body.codes).toEqual(['round-failed', 'many-failing', 'closings-held', 'list-incomplete']);
    expect(text).not.toMatch(/secret|Patient\//);
    const metrics = await ask('metrics');
    expect(metrics.text).toContain('dwellward_patients_failing 1');
    expect(metrics.text).not.toMatch(/secret|Patient\//);
    for (const path of ['livez', 'healthz']) expect((await ask(path)).code).toBe(200);
  });

  it('gives the details to whom the guard admits', async () => {
    await serve(await guarded());
    const { body } = await ask('readyz', await signed({ scope: scopes.statusRead }));
    expect(JSON.stringify(body)).toMatch(/secret-6.*secret-9.*secret-7.*secret-8/);
  });
});

describe('without a guard', () => {
  /** A request by hand: fetch names its host itself. */
  const named = (headers: Record<string, string>) =>
    new Promise<{ readyz: string; unit: number }>((resolve, reject) => {
      const { port } = new URL(running.baseUrl);
      const get = (path: string, done: (code: number, text: string) => void) =>
        httpRequest({ host: '127.0.0.1', port, path, headers }, (response) => {
          let text = '';
          response.on('data', (chunk: Buffer) => (text += chunk.toString()));
          response.on('end', () => done(response.statusCode ?? 0, text));
        })
          .on('error', reject)
          .end();
      get('/readyz', (_, readyz) => get('/board-api/unit', (unit) => resolve({ readyz, unit })));
    });

  it('answers this machine, by any of its names', async () => {
    await serve(await makeGuard({ host: 'localhost' }, machine, log));
    for (const host of ['127.0.0.1:8080', 'localhost', '[::1]:8080', 'LOCALHOST:1']) {
      const { readyz, unit } = await named({ host });
      expect([readyz.includes('secret-7'), unit]).toEqual([true, 200]);
    }
  });

  it.each([
    ['another name', { host: 'evil.test' }],
    ['a name that begins like this machine’s', { host: '127.0.0.1.evil.test' }],
    ['a proxy', { host: 'localhost', 'x-forwarded-for': '203.0.113.7' }],
    ['a proxy by the standard', { host: 'localhost', forwarded: 'for=203.0.113.7' }],
  ])('gives whoever comes by %s codes and counts alone', async (_, headers) => {
    await serve(await makeGuard({ host: '127.0.0.1' }, machine, log));
    const { readyz, unit } = await named(headers);
    expect(unit).toBe(403);
    expect(JSON.parse(readyz)).toMatchObject({ ready: false, failing: 1 });
    expect(readyz).not.toContain('secret');
  });

  it('gives nobody more where it listens for others', async () => {
    await serve(await makeGuard({ host: '0.0.0.0' }, machine, log));
    const { readyz, unit } = await named({ host: 'localhost' });
    expect([readyz.includes('secret'), unit]).toEqual([false, 403]);
  });

  it('does not take a connection from elsewhere for one of this machine', async () => {
    const request = {
      socket: { remoteAddress: '203.0.113.7' },
      get: (name: string) => (name === 'host' ? 'localhost' : undefined),
    };
    const admission = await localGuard(true).admit(request as never, scopes.statusRead);
    expect(admission).toMatchObject({ admitted: false, anonymous: true });
  });
});

describe('keys of a URL', () => {
  let server: Server;
  let answers: { status: number; body: string }[];
  let asked: number;
  let url: string;
  beforeEach(async () => {
    [answers, asked] = [[], 0];
    server = createServer((_request, response) => {
      asked += 1;
      const { status: code, body } = answers.shift() ?? { status: 200, body: JSON.stringify(keySet()) };
      response.writeHead(code, { location: '/elsewhere' }).end(body);
    });
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/keys`;
    open.push(() => new Promise((done) => server.close(done)));
    await serve(await guarded(url));
  });

  it('are asked for once, and not again at once for a key that is not among them', async () => {
    for (let n = 0; n < 3; n++) expect((await ask('board-api/unit', await signed())).code).toBe(200);
    for (let n = 0; n < 3; n++)
      expect((await ask('board-api/unit', await signed({}, { alg: 'RS256', kid: 'x' }))).code).toBe(401);
    expect(asked).toBe(1);
  });

  it.each([
    ['fails', { status: 500, body: JSON.stringify(keySet()) }],
    ['leads elsewhere', { status: 302, body: JSON.stringify(keySet()) }],
    ['gives no JSON', { status: 200, body: 'hello' }],
    ['gives no set of keys', { status: 200, body: '{"keys":7}' }],
  ])('where it %s nobody is let by, and it is left alone for a moment', async (_, answer) => {
    answers.push(answer);
    const token = await signed();
    const { code, body } = await ask('board-api/unit', token);
    expect([code, body.code]).toEqual([503, 'keys-unavailable']);
    expect((await ask('readyz')).code).toBe(503);
    expect((await ask('board-api/unit', token)).code).toBe(503);
    expect(asked).toBe(1);
    now += 5_001;
    expect((await ask('board-api/unit', token)).code).toBe(200);
  });
});

describe('a file of keys is refused at the start', () => {
  it.each<[string, string | undefined, RegExp]>([
    ['that is not there', undefined, /ENOENT/],
    ['that is no JSON', '{"keys":', /no JWK Set/],
    ['without keys', '{"keys":[]}', /no JWK Set/],
    [
      'with a private key',
      JSON.stringify({ keys: [pair('P-256').privateKey.export({ format: 'jwk' })] }),
      /secret/,
    ],
    ['with a secret', '{"keys":[{"kty":"oct","k":"c2VjcmV0"}]}', /secret/],
    ['of another kind', '{"keys":[{"kty":"OKP","crv":"Ed25519","x":"AAAA"}]}', /no key for RS256/],
  ])('%s, naming the setting', async (_, text, why) => {
    const bad = join(folder, 'bad.json');
    await rm(bad, { force: true });
    if (text !== undefined) await writeFile(bad, text);
    const error = await guarded(bad).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(ConfigError);
    expect((error as Error).message).toMatch(/^DWELLWARD_GUARD_KEYS/);
    expect((error as Error).message).toMatch(why);
  });

  it('or a setting is missing', async () => {
    const some = { host: 'localhost', guardKeys: file, guardIssuer: issuer };
    await expect(makeGuard(some, machine, log)).rejects.toThrow('DWELLWARD_GUARD_AUDIENCE');
  });
});
