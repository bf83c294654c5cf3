import type { Logger } from 'pino';
import { z } from 'zod';
import { isSafeUrl } from '../local.js';
import { ask, type AskOptions } from './ask.js';
import { NoToken } from './authorization.js';
import type { ClientAlgorithm } from './client-keys.js';

const texts = z.array(z.string()).optional().catch(undefined);
const configuration = z.looseObject({
  token_endpoint: z.string(),
  token_endpoint_auth_methods_supported: texts,
  token_endpoint_auth_signing_alg_values_supported: texts,
});

/** Where a FHIR server says how it gives out tokens. */
export function configurationUrl(fhirUrl: string): string {
  return `${fhirUrl}/.well-known/smart-configuration`;
}

/**
 * Asks the FHIR server where tokens are to be had. What else it says of this is a hint: a server that does not list
 * what it takes is asked all the same, and it is logged.
 * @throws NoToken where it does not say, or names a place that may not be asked.
 */
export async function discoverTokenUrl(
  fhirUrl: string,
  algorithm: ClientAlgorithm,
  log: Logger,
  options: AskOptions,
): Promise<string> {
  const url = configurationUrl(fhirUrl);
  const answer = await ask(url, { headers: { accept: 'application/json' } }, options);
  const { status, body } = answer;
  if (status !== 200) {
    const passing = status >= 500 || status === 429;
    throw new NoToken(`${url}: status ${status}`, { passing, retryAfterMs: answer.retryAfterMs });
  }
  const read = configuration.safeParse(body);
  if (!read.success) throw new NoToken(`${url} names no token_endpoint`);
  const {
    token_endpoint: tokenUrl,
    token_endpoint_auth_methods_supported: methods,
    token_endpoint_auth_signing_alg_values_supported: algorithms,
  } = read.data;
  if (!isSafeUrl(tokenUrl)) throw new NoToken(`${url}: its token_endpoint is no https URL`);
  if (methods && !methods.includes('private_key_jwt'))
    log.warn({ methods }, 'The FHIR server does not list private_key_jwt; it is asked so all the same.');
  if (algorithms && !algorithms.includes(algorithm))
    log.warn({ algorithms, algorithm }, 'The FHIR server does not list the algorithm of the first key.');
  return tokenUrl;
}
