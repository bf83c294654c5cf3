import { generateKeyPairSync } from 'node:crypto';
import { once } from 'node:events';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SignJWT } from 'jose';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readConfig } from './config.js';
import { startDemoServer } from '@dwellward/demo-server';
import { realMachine } from './machine.js';
import { loadPolicy } from './policy.js';
import { startService } from './service.js';
import { countingCare } from './testing/care.js';
import { startLogin } from './testing/login.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
beforeAll(async () => {
  demo = await startDemoServer();
});
afterAll(() => demo.close());

const put = async (path: string, resource: object) => {
  const headers = { 'content-type': 'application/fhir+json' };
  const response = await fetch(`${demo.baseUrl}/${path}`, {
    method: 'PUT',
    headers,
    body: JSON.stringify(resource),
  });
  expect(response.status).toBe(200);
};
const until = async (isSo: () => boolean | Promise<boolean>) => {
  while (!(await isSo())) await new Promise((resolve) => setImmediate(resolve));
};

it('keeps polling, writes what becomes due, says so at /readyz, and stops when asked', async () => {
  const config = readConfig({
    DWELLWARD_FHIR_URL: demo.baseUrl,
    DWELLWARD_ZONE: 'Europe/Berlin',
    DWELLWARD_PORT: '0',
  });
  let pauses = 0;
  const machine = {
    ...realMachine,
    sleep: (milliseconds: number) => {
      if (milliseconds === config.pollSeconds * 1000) pauses += 1;
      return new Promise<void>((resolve) => setImmediate(resolve));
    },
  };
  const policy = await loadPolicy(config.policy);
  const log = pino({ level: 'silent' });
  const service = await startService({ config, policy, machine, log, care: countingCare });
  const ready = async () => (await fetch(`${service.url}/readyz`)).status;
  await until(async () => (await ready()) === 200);

  await put('Patient/p1', { resourceType: 'Patient', id: 'p1' });
  const type = { coding: [{ code: 'picc' }] };
  await put('Device/d1', { resourceType: 'Device', id: 'd1', type, patient: { reference: 'Patient/p1' } });
  await until(() => demo.repository.count('Task') > 0);
  expect(demo.repository.count('Task')).toBe(1);
  expect(pauses).toBeGreaterThan(0);

  await service.stop();
  const rounds = service.poller.counters.rounds;
  await expect(ready()).rejects.toThrow();
  await new Promise((resolve) => setImmediate(resolve));
  expect(service.poller.counters.rounds).toBe(rounds);
});

it('serves others, and the board too, behind a guard', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'service-'));
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
  const keys = join(folder, 'keys.json');
  await writeFile(keys, JSON.stringify({ keys: [publicKey.export({ format: 'jwk' })] }));
  const config = readConfig({
    DWELLWARD_FHIR_URL: demo.baseUrl,
    DWELLWARD_ZONE: 'Europe/Berlin',
    DWELLWARD_PORT: '0',
    DWELLWARD_HOST: '0.0.0.0',
    DWELLWARD_GUARD_KEYS: keys,
    DWELLWARD_GUARD_ISSUER: 'https://login.test',
    DWELLWARD_GUARD_AUDIENCE: 'dwellward',
  });
  const policy = await loadPolicy(config.policy);
  const log = pino({ level: 'silent' });
  const service = await startService({ config, policy, machine: realMachine, log, board: {} });
  const token = await new SignJWT({ scope: 'dwellward/board.read' })
    .setProtectedHeader({ alg: 'ES256' })
    .setIssuer('https://login.test')
    .setAudience('dwellward')
    .setExpirationTime('1m')
    .sign(privateKey);
  const ask = async (path: string, headers: Record<string, string> = {}) => {
    const response = await fetch(`${service.url.replace('0.0.0.0', '127.0.0.1')}/${path}`, { headers });
    await response.text();
    return response.status;
  };
  try {
    expect(await ask('livez')).toBe(200);
    expect(await ask('board-api/unit')).toBe(401);
    expect(await ask('board-api/unit', { authorization: `Bearer ${token}` })).toBe(200);
    expect(await ask('readyz', { authorization: `Bearer ${token}` })).toBe(403);
  } finally {
    await service.stop();
    await rm(folder, { recursive: true });
  }
});

it('gets its tokens by keys that it publishes, and takes others from the file while it runs', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'service-'));
  const keyFile = join(folder, 'keys.json');
  const key = (kid: string) => ({
    ...generateKeyPairSync('ec', { namedCurve: 'P-384' }).privateKey.export({ format: 'jwk' }),
    kid,
  });
  const [old, next] = [key('old'), key('next')];
  await writeFile(keyFile, JSON.stringify({ keys: [old, next] }));
  let adapterUrl = '';
  const published = async () => {
    const response = await fetch(`${adapterUrl}/.well-known/jwks.json`);
    expect(response.headers.get('cache-control')).toBe('public, max-age=300');
    const text = await response.text();
    for (const { d } of [old, next]) expect(text).not.toContain(d);
    return JSON.parse(text) as { keys: { kid: string }[] };
  };
  const login = await startLogin({
    clientId: 'dwellward',
    keys: published,
    nowMs: Date.now,
    fhir: (request, body, response) => {
      const { 'content-type': type = 'application/fhir+json', prefer = '' } = request.headers;
      const init = {
        method: request.method ?? 'GET',
        headers: { 'content-type': type, prefer: String(prefer) },
        ...(body === '' ? {} : { body }),
      };
      fetch(`${demo.baseUrl}${(request.url ?? '').slice('/r4'.length)}`, init)
        .then(async (answer) => {
          response.writeHead(answer.status, { 'content-type': 'application/fhir+json' });
          response.end(await answer.text());
        })
        .catch((error: unknown) => response.destroy(error as Error));
    },
  });
  const port = await freePort();
  adapterUrl = `http://127.0.0.1:${port}`;
  const config = readConfig({
    DWELLWARD_FHIR_URL: login.fhirUrl,
    DWELLWARD_ZONE: 'Europe/Berlin',
    DWELLWARD_PORT: port,
    DWELLWARD_POLL_SECONDS: '1',
    DWELLWARD_FHIR_CLIENT_ID: 'dwellward',
    DWELLWARD_FHIR_CLIENT_KEYS: keyFile,
  });
  const policy = await loadPolicy(config.policy);
  const log = pino({ level: 'silent' });
  const service = await startService({ config, policy, machine: realMachine, log, care: countingCare });
  try {
    await until(async () => (await fetch(`${service.url}/readyz`)).status === 200);
    expect(login.forms).toHaveLength(1);
    expect(login.forms[0]?.get('scope')).toMatch(/system\/Device\.rs .*system\/Task\.crus/);
    expect(login.forms[0]?.get('scope')).not.toContain('*');
    expect(new Set(login.sent)).toEqual(new Set(['token-1']));
    await writeFile(keyFile, JSON.stringify({ keys: [next] }));
    expect((await published()).keys.map(({ kid }) => kid)).toEqual(['next']);
    login.good.clear();
    await until(() => login.sent.includes('token-2'));
  } finally {
    await service.stop();
    await login.close();
    await rm(folder, { recursive: true });
  }
});

/** A port that was free a moment ago. */
async function freePort(): Promise<string> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return String(port);
}
