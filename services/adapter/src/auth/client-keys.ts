import { importJWK, jwtVerify, SignJWT, type JSONWebKeySet, type JWK } from 'jose';
import type { Logger } from 'pino';
import { z } from 'zod';
import { rereadFile } from '../reread-file.js';
import { reasonOf } from './token-file.js';

/** By which SMART App Launch lets a client sign: every server knows one of the two. */
export type ClientAlgorithm = 'RS384' | 'ES384';
type ImportedKey = Awaited<ReturnType<typeof importJWK>>;

/** The key that signs. */
export interface SigningKey {
  readonly kid: string;
  readonly algorithm: ClientAlgorithm;
  readonly key: ImportedKey;
}

/** What a file of keys gives: the first key signs, the public parts of all are published. */
export interface ClientKeys {
  readonly signing: SigningKey;
  readonly published: JSONWebKeySet;
}

const text = z.string().min(1);
/** RFC 7518 3.3: 2048 bits or more. */
const modulus = text.refine((n) => Buffer.from(n, 'base64url').length >= 256);
const rsa = z.looseObject({
  kty: z.literal('RSA'),
  kid: text,
  alg: z.literal('RS384').optional(),
  use: z.literal('sig').optional(),
  n: modulus,
  e: text,
  d: text.optional(),
});
const ec = z.looseObject({
  kty: z.literal('EC'),
  crv: z.literal('P-384'),
  kid: text,
  alg: z.literal('ES384').optional(),
  use: z.literal('sig').optional(),
  x: text,
  y: text,
  d: text.optional(),
});
const one = z.discriminatedUnion('kty', [rsa, ec]);
type ClientKey = z.infer<typeof one>;

/** What a file of keys has to be, in words. */
export const keysAllowed =
  'a JWK or a JWK Set of RSA keys (2048 bits or more) or EC keys on P-384, each with a kid of its own, the first one private';

/**
 * Reads a JWK or a JWK Set.
 * @throws Error in words that hold nothing of the keys.
 */
export async function readClientKeys(file: string): Promise<ClientKeys> {
  let json: unknown;
  try {
    json = JSON.parse(file);
  } catch {
    throw new Error('it is not JSON');
  }
  const set = z.looseObject({ keys: z.array(z.unknown()).min(1) }).safeParse(json);
  const keys = (set.success ? set.data.keys : [json]).map((key, at) => {
    const read = one.safeParse(key);
    if (read.success) return read.data;
    const members = [...new Set(read.error.issues.map(({ path }) => path.join('.') || 'kty'))];
    throw new Error(`key ${at + 1} can’t be used: ${members.join(', ')}`);
  });
  if (new Set(keys.map(({ kid }) => kid)).size < keys.length) throw new Error('two keys have the same kid');
  const [first] = keys;
  if (first?.d === undefined) throw new Error('its first key is not private');
  await Promise.all(keys.map(checkKey));
  const signing = {
    kid: first.kid,
    algorithm: algorithmOf(first),
    key: await importJWK(first as JWK, algorithmOf(first)),
  };
  return { signing, published: { keys: keys.map(publicPart) } };
}

/** A public part that is another key's would be found out by the server alone. */
async function checkKey(key: ClientKey, at: number): Promise<void> {
  const algorithm = algorithmOf(key);
  try {
    const shown = await importJWK(publicPart(key), algorithm);
    if (key.d === undefined) return;
    const signed = new SignJWT({}).setProtectedHeader({ alg: algorithm });
    await jwtVerify(await signed.sign(await importJWK(key as JWK, algorithm)), shown);
  } catch (error) {
    throw new Error(`key ${at + 1} can’t sign and be verified`, { cause: error });
  }
}

function algorithmOf({ kty }: ClientKey): ClientAlgorithm {
  return kty === 'RSA' ? 'RS384' : 'ES384';
}

/** The public members by name: a private one that nobody has thought of stays where it is. */
function publicPart(key: ClientKey): JWK {
  const common = { kid: key.kid, alg: algorithmOf(key), use: 'sig' };
  return key.kty === 'RSA'
    ? { kty: 'RSA', ...common, n: key.n, e: key.e }
    : { kty: 'EC', ...common, crv: key.crv, x: key.x, y: key.y };
}

/**
 * The keys of a file, read anew whenever they are needed. While a new text can't be used, the keys that were read last
 * are used on, and it is said.
 * @returns a function that throws where nothing could be read yet.
 */
export function clientKeysOfFile(path: string, log: Logger): () => Promise<ClientKeys> {
  const read = rereadFile(path, readClientKeys);
  let last: ClientKeys | undefined;
  let said: string | undefined;
  return async () => {
    try {
      last = await read();
      said = undefined;
    } catch (error) {
      if (last === undefined) throw error;
      const because = reasonOf(error);
      if (because !== said)
        log.error(
          { because },
          'The file of DWELLWARD_FHIR_CLIENT_KEYS can’t be used; the keys before it are used on.',
        );
      said = because;
    }
    return last;
  };
}
