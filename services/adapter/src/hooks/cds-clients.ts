import { readFile } from 'node:fs/promises';
import type { JWTVerifyGetKey } from 'jose';
import { z } from 'zod';
import { ConfigError } from '../config.js';
import { keysOfFile, keysOfUrl } from '../guard/index.js';
import { isSafeUrl } from '../local.js';
import type { Machine } from '../machine.js';

const clients = z.record(z.string().min(1), z.string().min(1));

/**
 * The CDS clients that are known: a JSON object with the JWK Set of each issuer, a URL or a file.
 * @throws ConfigError where the file, or one that it names, can’t be used.
 */
export async function readClients(
  file: string,
  machine: Machine,
): Promise<ReadonlyMap<string, JWTVerifyGetKey>> {
  const problem = (what: string) => new ConfigError([`DWELLWARD_CDS_CLIENTS: “${file}” ${what}.`]);
  const given = await readFile(file, 'utf8').catch(() => {
    throw problem('can’t be read');
  });
  const read = clients.safeParse(parsed(given));
  if (!read.success || Object.keys(read.data).length === 0)
    throw problem('has to be a JSON object such as {"https://ehr.example": "https://ehr.example/jwks.json"}');
  const all = new Map<string, JWTVerifyGetKey>();
  for (const [issuer, place] of Object.entries(read.data)) {
    if (URL.canParse(place)) {
      if (!isSafeUrl(place)) throw problem(`names ${place}: https is wanted`);
      all.set(issuer, keysOfUrl(place, machine));
      continue;
    }
    const { keys, check } = keysOfFile(place);
    await check().catch(() => {
      throw problem(`names ${place}: it has to be a JWK Set of public keys`);
    });
    all.set(issuer, keys);
  }
  return all;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
