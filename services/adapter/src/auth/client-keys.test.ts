import { createPublicKey, generateKeyPairSync, verify, type JsonWebKey } from 'node:crypto';
import { pino } from 'pino';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { clientAssertion } from './assertion.js';
import { clientKeysOfFile, readClientKeys } from './client-keys.js';

const pair = {
  rsa: generateKeyPairSync('rsa', { modulusLength: 2048 }),
  ec: generateKeyPairSync('ec', { namedCurve: 'P-384' }),
};
const rsa: JsonWebKey = { ...pair.rsa.privateKey.export({ format: 'jwk' }), kid: 'rsa-1' };
const ec: JsonWebKey = { ...pair.ec.privateKey.export({ format: 'jwk' }), kid: 'ec-1' };
const ecPublic: JsonWebKey = { ...pair.ec.publicKey.export({ format: 'jwk' }), kid: 'ec-2' };
const read = (json: unknown) => readClientKeys(JSON.stringify(json));
const nowMs = Date.parse('2026-11-25T12:00:00.900Z');
const parts = { clientId: 'dwellward', tokenUrl: 'https://login.test/token?a=1', nowMs };
const decoded = (part = '') =>
  JSON.parse(Buffer.from(part, 'base64url').toString()) as Record<string, unknown>;

describe('the assertion', () => {
  // HL7 SMART App Launch 2.2.0, “Client Authentication: Asymmetric (public key)”, tables “Authentication JWT Header
  // Values” (alg, kid, typ) and “Authentication JWT Claims” (iss, sub, aud, exp, jti), which “Backend Services” requires.
  it.each([
    ['RS384', rsa, pair.rsa.publicKey],
    ['ES384', ec, pair.ec.publicKey],
  ])(
    'by %s has the header, the claims and the signature that SMART App Launch requires',
    async (alg, jwk, key) => {
      const { signing } = await read(jwk);
      const [header, claims, signature] = (await clientAssertion({ ...parts, signing })).split('.');
      expect(decoded(header)).toEqual({ alg, kid: jwk.kid, typ: 'JWT' });
      const { iss, sub, aud, exp, jti, ...others } = decoded(claims);
      expect(others).toEqual({});
      expect([iss, sub, aud]).toEqual(['dwellward', 'dwellward', parts.tokenUrl]);
      // “Expiration time integer … no more than five minutes in the future.”
      expect(Number.isInteger(exp)).toBe(true);
      expect(Number(exp) * 1000).toBeGreaterThan(nowMs + 120_000);
      expect(Number(exp) * 1000).toBeLessThanOrEqual(nowMs + 300_000 - 60_000);
      expect(jti).toMatch(/^[0-9a-f-]{36}$/);
      // RFC 7515 with the algorithms of RFC 7518 3.3 and 3.4, by another implementation than the one that signs.
      const text = Buffer.from(`${header}.${claims}`);
      const from = { key, dsaEncoding: 'ieee-p1363' } as const;
      expect(verify('sha384', text, from, Buffer.from(signature ?? '', 'base64url'))).toBe(true);
    },
  );

  it('never has the same jti', async () => {
    const { signing } = await read(ec);
    const made = await Promise.all(Array.from({ length: 200 }, () => clientAssertion({ ...parts, signing })));
    expect(new Set(made.map((one) => decoded(one.split('.')[1]).jti)).size).toBe(200);
  });
});

describe('a file of keys', () => {
  it('signs by its first key, and publishes the public parts of all', async () => {
    const { signing, published } = await read({ keys: [ec, rsa, ecPublic] });
    expect([signing.kid, signing.algorithm]).toEqual(['ec-1', 'ES384']);
    // “Registering a client”: kty and kid; n and e, or crv, x and y.
    expect(published.keys.map((key) => Object.keys(key).sort())).toEqual([
      ['alg', 'crv', 'kid', 'kty', 'use', 'x', 'y'],
      ['alg', 'e', 'kid', 'kty', 'n', 'use'],
      ['alg', 'crv', 'kid', 'kty', 'use', 'x', 'y'],
    ]);
    expect(published.keys.map(({ kid, alg, use }) => [kid, alg, use])).toEqual([
      ['ec-1', 'ES384', 'sig'],
      ['rsa-1', 'RS384', 'sig'],
      ['ec-2', 'ES384', 'sig'],
    ]);
    const text = JSON.stringify(published);
    for (const key of [rsa, ec])
      for (const member of ['d', 'p', 'q', 'dp', 'dq', 'qi'])
        if (typeof key[member] === 'string') expect(text).not.toContain(key[member]);
    for (const [at, key] of [pair.ec, pair.rsa].entries()) {
      const shown = createPublicKey({ key: published.keys[at] as JsonWebKey, format: 'jwk' });
      expect(shown.equals(key.publicKey)).toBe(true);
    }
  });

  const small = generateKeyPairSync('rsa', { modulusLength: 1024 }).privateKey.export({ format: 'jwk' });
  const p256 = generateKeyPairSync('ec', { namedCurve: 'P-256' }).privateKey.export({ format: 'jwk' });
  const other = generateKeyPairSync('ec', { namedCurve: 'P-384' }).publicKey.export({ format: 'jwk' });
  it.each<[string, unknown, RegExp]>([
    ['of an RSA key below 2048 bits', { ...small, kid: 's' }, /key 1 can’t be used: n/],
    ['of another curve', { ...p256, kid: 'p' }, /key 1 can’t be used: crv/],
    ['without a kid', { ...ec, kid: undefined }, /key 1 can’t be used: kid/],
    ['for another algorithm', { ...rsa, alg: 'RS256' }, /key 1 can’t be used: alg/],
    ['for encryption', { ...rsa, use: 'enc' }, /key 1 can’t be used: use/],
    ['of another kind', { kty: 'oct', kid: 'o', k: 'c2VjcmV0' }, /key 1 can’t be used: kty/],
    ['with the same kid twice', { keys: [ec, { ...rsa, kid: 'ec-1' }] }, /same kid/],
    ['whose first key is public', { keys: [ecPublic, ec] }, /first key is not private/],
    [
      'whose public part is another key’s',
      { ...ec, x: other.x, y: other.y },
      /key 1 can’t sign and be verified/,
    ],
    ['whose second key is broken', { keys: [ec, { ...ecPublic, x: ecPublic.y }] }, /key 2 can’t sign/],
    ['that is empty', { keys: [] }, /kty/],
  ])('is refused that is %s', async (_, json, why) => {
    const error = await read(json).catch((thrown: unknown) => thrown as Error);
    expect((error as Error).message).toMatch(why);
    expect((error as Error).message).not.toContain(String(rsa.d));
  });

  it('is refused that is no JSON', async () => {
    await expect(readClientKeys('{"kty"')).rejects.toThrow('not JSON');
  });

  it('is read anew, and while it can’t be used the keys before it are', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'keys-'));
    const file = join(folder, 'keys.json');
    const said: string[] = [];
    const log = pino({ level: 'error' }, { write: (text: string) => void said.push(text) });
    const keys = clientKeysOfFile(file, log);
    const kid = async () => (await keys()).signing.kid;
    try {
      await expect(kid()).rejects.toThrow('ENOENT');
      await writeFile(file, JSON.stringify(ec));
      expect(await kid()).toBe('ec-1');
      await writeFile(file, JSON.stringify({ keys: [rsa, ec] }));
      expect([await kid(), (await keys()).published.keys.length]).toEqual(['rsa-1', 2]);
      await writeFile(file, JSON.stringify({ keys: [{ ...rsa, kid: '' }] }));
      expect([await kid(), await kid()]).toEqual(['rsa-1', 'rsa-1']);
      expect(said).toHaveLength(1);
      expect(said[0]).toContain('key 1 can’t be used: kid');
      expect(said[0]).not.toContain(String(rsa.d));
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});
