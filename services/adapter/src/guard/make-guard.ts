import type { Logger } from 'pino';
import { ConfigError, type Config } from '../config.js';
import { isLoopbackHost } from '../local.js';
import type { Machine } from '../machine.js';
import { localGuard, tokenGuard, type Guard } from './guard.js';
import { keysOfFile, keysOfUrl } from './keys.js';

/** What the guard is made from. */
export type GuardConfig = Pick<Config, 'host' | 'guardKeys' | 'guardIssuer' | 'guardAudience'>;

/**
 * The guard by the settings: tokens where its keys are set, else this machine alone.
 * @throws ConfigError where a file of keys can't be used, or a setting is missing. Keys of a URL are asked for with the
 *   first token: who gives them may start later than the adapter.
 * @example
 * const guard = await makeGuard(readConfig(process.env), realMachine, log);
 */
export async function makeGuard(config: GuardConfig, machine: Machine, log: Logger): Promise<Guard> {
  const { guardKeys, guardIssuer: issuer, guardAudience: audience, host } = config;
  if (guardKeys === undefined) return localGuard(isLoopbackHost(host));
  if (issuer === undefined || audience === undefined)
    throw new ConfigError([
      'DWELLWARD_GUARD_KEYS needs DWELLWARD_GUARD_ISSUER and DWELLWARD_GUARD_AUDIENCE beside it.',
    ]);
  const common = { issuer, audience, machine, log };
  if (/^https?:\/\//i.test(guardKeys)) return tokenGuard({ ...common, keys: keysOfUrl(guardKeys, machine) });
  const { keys, check } = keysOfFile(guardKeys);
  await check().catch((error: unknown) => {
    const { code, message } = error as { code?: string; message: string };
    throw new ConfigError([
      `DWELLWARD_GUARD_KEYS is “${guardKeys}”, and can’t be used: ${code ?? message}. It has to be a JWK Set of public keys.`,
    ]);
  });
  return tokenGuard({ ...common, keys });
}
