import type { JSONWebKeySet } from 'jose';
import type { Logger } from 'pino';
import { ConfigError, type Config } from '../config.js';
import type { Machine } from '../machine.js';
import { lasting, NoToken, type Authorization } from './authorization.js';
import { clientKeysOfFile, keysAllowed } from './client-keys.js';
import { scopesNeeded } from './fhir-scopes.js';
import { SmartAuthorization } from './smart.js';
import { reasonOf, tokenOfFile } from './token-file.js';

/** How the FHIR server is reached, by the settings. */
export interface FhirAccess {
  readonly authorization: Authorization;
  /** The public keys by which the FHIR server knows the adapter, where it has any. */
  readonly publicKeys?: () => Promise<JSONWebKeySet>;
  /** Reads the files that it needs. @throws ConfigError where one can't be used. */
  check(): Promise<void>;
}

/**
 * @param stop ends running and waiting calls.
 * @throws ConfigError where a setting is missing.
 */
export function fhirAccess(config: Config, machine: Machine, log: Logger, stop?: AbortSignal): FhirAccess {
  const { fhirToken, fhirTokenFile, fhirClientId: clientId, fhirClientKeys, fhirUrl } = config;
  if (clientId !== undefined) {
    if (fhirClientKeys === undefined)
      throw new ConfigError(['DWELLWARD_FHIR_CLIENT_ID needs DWELLWARD_FHIR_CLIENT_KEYS beside it.']);
    const keys = clientKeysOfFile(fhirClientKeys, log);
    return {
      authorization: new SmartAuthorization({
        fhirUrl,
        clientId,
        keys,
        scope: config.fhirScopes ?? scopesNeeded(config),
        tokenUrl: config.fhirTokenUrl,
        machine,
        log,
        timeLimitMs: config.callSeconds * 1000,
        stop,
      }),
      publicKeys: async () => (await keys()).published,
      check: () => checked('DWELLWARD_FHIR_CLIENT_KEYS', fhirClientKeys, keysAllowed, keys),
    };
  }
  if (fhirTokenFile !== undefined) {
    const authorization = tokenOfFile(fhirTokenFile);
    const check = () =>
      checked('DWELLWARD_FHIR_TOKEN_FILE', fhirTokenFile, 'a file with a bearer token', authorization.token);
    return { authorization, check };
  }
  return { authorization: lasting(fhirToken), check: () => Promise.resolve() };
}

async function checked(name: string, file: string, allowed: string, read: () => Promise<unknown>) {
  await read().catch((error: unknown) => {
    const reason = reasonOf(error instanceof NoToken ? error.cause : error);
    throw new ConfigError([`${name} is “${file}”, and can’t be used: ${reason}. It has to be ${allowed}.`]);
  });
}
