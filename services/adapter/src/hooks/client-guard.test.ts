import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, request, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startDemoServer } from '@dwellward/demo-server';
import express from 'express';
import { exportJWK, generateKeyPair, SignJWT, type CryptoKey, type JWK } from 'jose';
import { pino } from 'pino';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ConfigError, readConfig } from '../config.js';
import { realMachine } from '../machine.js';
import { loadPolicy } from '../policy.js';
import { startService } from '../service.js';
import { clientGuard, readClients } from './index.js';

// What a token of a CDS client has to be: CDS Hooks 2.0, “Trusting CDS Clients” (from memory): iss, aud (the address that is
// called), exp, iat, jti; RS384 or ES384; keys by an allow-list and never by what the token says of itself.

const issuer = 'https://ehr.example';
const publicUrl = 'https://adapter.example';
const nowMs = Date.parse('2026-11-25T12:00:00Z');
let folder: string;
let own: { privateKey: CryptoKey; publicKey: CryptoKey };
let stranger: { privateKey: CryptoKey; publicKey: CryptoKey };
let jwks: string;
let server: Server;
let base: string;
let now = nowMs;
let logged = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'dwellward-cds-'));
  [own, stranger] = [await pair(), await pair()];
  const jwk: JWK = { ...(await exportJWK(own.publicKey)), kid: 'k1' };
  jwks = join(folder, 'jwks.json');
  writeFileSync(jwks, JSON.stringify({ keys: [jwk] }));
});
afterAll(() => {
  server?.close();
  rmSync(folder, { recursive: true, force: true });
});
const pair = () => generateKeyPair('ES384', { extractable: true });

beforeEach(async () => {
  now = nowMs;
  logged = '';
  server?.close();
  const file = join(folder, 'clients.json');
  writeFileSync(file, JSON.stringify({ [issuer]: jwks }));
  const machine = { ...realMachine, now: () => now };
  const guard = clientGuard({
    clients: await readClients(file, machine),
    ...{ publicUrl, machine },
    log: pino({ level: 'info' }, { write: (text: string) => void (logged += text) }),
  });
  const app = express();
  app.use('/cds-services', guard, (_request, response) => void response.json({ services: [] }));
  server = createServer(app);
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});

interface Odd {
  readonly iss?: string;
  readonly aud?: string;
  readonly exp?: number;
  readonly iat?: number | undefined;
  readonly jti?: string | undefined;
  readonly key?: CryptoKey;
  readonly header?: object;
}

let count = 0;
const seconds = nowMs / 1000;
const token = ({ key, header, ...claims }: Odd = {}) => {
  const { iat = seconds, jti = `t${(count += 1)}` } = claims;
  const payload = {
    ...{ iss: issuer, aud: `${publicUrl}/cds-services`, exp: seconds + 240, iat, jti },
    ...claims,
  };
  return new SignJWT(JSON.parse(JSON.stringify(payload)) as Record<string, unknown>)
    .setProtectedHeader({ alg: 'ES384', kid: 'k1', typ: 'JWT', ...header })
    .sign(key ?? own.privateKey);
};
const ask = async (bearer: string | undefined, path = '/cds-services') => {
  const response = await fetch(`${base}${path}`, {
    headers: bearer === undefined ? {} : { authorization: `Bearer ${bearer}` },
  });
  return response.status;
};

describe('a CDS client', () => {
  it('is let by with a token of its own, for the address that it calls', async () => {
    expect(await ask(await token())).toBe(200);
    const of = (path: string) => token({ aud: `${publicUrl}${path}` });
    expect(await ask(await of('/cds-services/patient-view'), '/cds-services/patient-view')).toBe(200);
    expect(await ask(await of('/cds-services/patient-view'), '/cds-services/patient-view/feedback')).toBe(
      200,
    );
  });

  it.each<readonly [string, Odd]>([
    ['of another issuer', { iss: 'https://elsewhere.example' }],
    ['for another address', { aud: 'https://elsewhere.example/cds-services' }],
    ['for another service', { aud: `${publicUrl}/cds-services/patient-view` }],
    ['that is over', { exp: seconds - 60, iat: seconds - 120 }],
    ['that is good for longer than five minutes', { iat: seconds - 400, exp: seconds + 3600 }],
    ['without a time at which it was made', { iat: undefined }],
    ['without an id', { jti: undefined }],
  ])('is refused with a token %s', async (_, odd) => {
    // Undefined is left out of what is signed.
    const claims = 'iat' in odd || 'jti' in odd ? { iat: seconds, jti: 'x', ...odd } : odd;
    const signed = await new SignJWT(
      JSON.parse(
        JSON.stringify({
          ...{ iss: issuer, aud: `${publicUrl}/cds-services`, exp: seconds + 240 },
          ...{ iat: seconds, jti: `o${(count += 1)}` },
          ...claims,
        }),
      ) as Record<string, unknown>,
    )
      .setProtectedHeader({ alg: 'ES384', kid: 'k1' })
      .sign(own.privateKey);
    expect(await ask(signed)).toBe(401);
    expect(logged).not.toContain(signed);
    expect(logged).not.toContain(issuer);
  });

  it('is refused without one, with one of a stranger’s key, also where the token points to that key', async () => {
    expect(await ask(undefined)).toBe(401);
    expect(await ask('no-token')).toBe(401);
    const jwk = await exportJWK(stranger.publicKey);
    for (const header of [{}, { jku: 'https://elsewhere.example/jwks.json' }, { jwk }])
      expect(await ask(await token({ key: stranger.privateKey, header }))).toBe(401);
  });

  it('is refused with a token that was used, and not with the next', async () => {
    const once = await token();
    expect(await ask(once)).toBe(200);
    expect(await ask(once)).toBe(401);
    expect(await ask(await token())).toBe(200);
  });

  it('is refused with a token that nobody signed', async () => {
    const part = (value: object) => Buffer.from(JSON.stringify(value)).toString('base64url');
    const claims = {
      iss: issuer,
      aud: `${publicUrl}/cds-services`,
      exp: seconds + 240,
      iat: seconds,
      jti: 'n',
    };
    expect(await ask(`${part({ alg: 'none' })}.${part(claims)}.`)).toBe(401);
  });
});

describe('the file of clients', () => {
  it.each([
    ['no JSON', '{'],
    ['no client', '{}'],
    ['an address in the clear', '{"https://ehr.example": "http://ehr.example/jwks.json"}'],
    ['a file of keys that is not there', '{"https://ehr.example": "none.json"}'],
  ])('is refused with %s', async (_, text) => {
    const file = join(folder, 'odd.json');
    writeFileSync(file, text);
    await expect(readClients(file, realMachine)).rejects.toThrow(ConfigError);
  });
});

describe('the service', () => {
  it('answers interfaces without a guard to nobody who asks by another name, and with one only by its token', async () => {
    const demo = await startDemoServer();
    const start = async (more: Record<string, string>) => {
      const config = readConfig({
        ...{ DWELLWARD_FHIR_URL: demo.baseUrl, DWELLWARD_ZONE: 'Europe/Berlin', DWELLWARD_PORT: '0' },
        ...{ DWELLWARD_INTERFACES: 'cds-hooks,rest', ...more },
      });
      const policy = await loadPolicy(config.policy);
      return startService({ config, policy, machine: realMachine, log: pino({ level: 'silent' }) });
    };
    const status = (url: string, path: string, headers: Record<string, string> = {}) =>
      new Promise<number | undefined>((done) => {
        request(`${url}${path}`, { headers }, (response) => {
          response.resume();
          done(response.statusCode);
        }).end();
      });
    const open = await start({});
    try {
      expect(await status(open.url, '/cds-services')).toBe(200);
      for (const path of ['/cds-services', '/patients/x/due']) {
        expect(await status(open.url, path, { host: 'adapter.elsewhere.example' })).toBe(403);
        expect(await status(open.url, path, { 'x-forwarded-for': '10.0.0.1' })).toBe(403);
      }
    } finally {
      await open.stop();
    }
    const file = join(folder, 'clients.json');
    await expect(start({ DWELLWARD_CDS_CLIENTS: file })).rejects.toThrow(/DWELLWARD_PUBLIC_URL/);
    const guarded = await start({
      DWELLWARD_CDS_CLIENTS: file,
      DWELLWARD_PUBLIC_URL: 'https://adapter.example/',
    });
    try {
      expect(await status(guarded.url, '/cds-services')).toBe(401);
      const iat = Math.floor(Date.now() / 1000);
      const authorization = `Bearer ${await token({ iat, exp: iat + 240 })}`;
      expect(await status(guarded.url, '/cds-services', { authorization })).toBe(200);
    } finally {
      await guarded.stop();
      await demo.close();
    }
  });
});
