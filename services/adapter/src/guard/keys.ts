import {
  createLocalJWKSet,
  createRemoteJWKSet,
  customFetch,
  errors,
  importJWK,
  type FetchImplementation,
  type JWTVerifyGetKey,
} from 'jose';
import { z } from 'zod';
import type { Machine } from '../machine.js';
import { rereadFile } from '../reread-file.js';

/** The only algorithms by which a token may be signed. No symmetric one: its key would stand in a set that is public. */
export const allowedAlgorithms = ['RS256', 'RS384', 'ES256', 'ES384'] as const;

/** The keys can't be had now: no token can be judged, the caller's may be good. */
export class KeysUnavailable extends Error {
  override readonly name = 'KeysUnavailable';
}

const jwkSet = z.looseObject({ keys: z.array(z.looseObject({ kty: z.string() })).min(1) });

/** After a failure the keys are not asked for again for so long: whoever sends tokens could make us ask without end. */
const failureRestMs = 5_000;

/** Keys of a file, which is read anew when it changes. A file that can't be used opens for nobody. */
export function keysOfFile(path: string): { keys: JWTVerifyGetKey; check: () => Promise<void> } {
  const read = rereadFile(path, async (text) => createLocalJWKSet(await usableSet(text)));
  return {
    async keys(header, token) {
      const set = await read().catch((error: unknown) => {
        throw new KeysUnavailable('the file of keys can’t be used', { cause: error });
      });
      return set(header, token);
    },
    async check() {
      await read();
    },
  };
}

/** A JWK Set with at least one public key that can verify. @throws Error in words of its own, without the text. */
async function usableSet(text: string) {
  const set = jwkSet.safeParse(parsed(text));
  if (!set.success) throw new Error('it is no JWK Set with a key');
  for (const key of set.data.keys) {
    if (key.kty === 'oct' || 'd' in key)
      throw new Error('it holds a secret key; only public ones belong in it');
  }
  const usable = await Promise.all(
    set.data.keys.flatMap((key) =>
      allowedAlgorithms.map((algorithm) =>
        importJWK(key, algorithm).then(
          () => true,
          () => false,
        ),
      ),
    ),
  );
  if (!usable.includes(true)) throw new Error(`it holds no key for ${allowedAlgorithms.join(', ')}`);
  return set.data;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

/**
 * Keys of a URL: kept for ten minutes, and asked for again, at most every half minute, for a key that is not among them.
 */
export function keysOfUrl(url: string, machine: Machine): JWTVerifyGetKey {
  let restsUntilMs = -Infinity;
  const get: FetchImplementation = async (address, options) => {
    if (machine.now() < restsUntilMs) throw new KeysUnavailable('the keys could not be had a moment ago');
    try {
      const response = await fetch(address, options);
      if (response.status !== 200) throw new Error(`status ${response.status}`);
      return new Response(JSON.stringify(jwkSet.parse(await response.json())), { status: 200 });
    } catch (error) {
      restsUntilMs = machine.now() + failureRestMs;
      throw new KeysUnavailable('the keys can’t be had from their URL', { cause: error });
    }
  };
  const set = createRemoteJWKSet(new URL(url), {
    timeoutDuration: 5_000,
    cooldownDuration: 30_000,
    cacheMaxAge: 600_000,
    [customFetch]: get,
  });
  return async (header, token) => {
    try {
      return await set(header, token);
    } catch (error) {
      if (error instanceof errors.JWKSTimeout || error instanceof errors.JWKSInvalid)
        throw new KeysUnavailable('the keys can’t be had from their URL', { cause: error });
      throw error;
    }
  };
}
