import { allowInsecureRequests, ClientSecretBasic, Configuration, None } from 'openid-client';

/** What a client is called by a record system that signs its users in. */
export interface Client {
  readonly id: string;
  /** Absent for a public client. */
  readonly secret?: string;
}

/** Why nobody can be signed in, for whoever runs the board. */
export class SignInError extends Error {
  override readonly name = 'SignInError';
}

const loopback: ReadonlySet<string> = new Set(['127.0.0.1', 'localhost', '[::1]']);
const timeLimitSeconds = 10;

/**
 * Reads how a FHIR server signs its users in: SMART App Launch 2.2, `.well-known/smart-configuration`.
 * @param base service base of the FHIR server. Over http only from a loopback address: a token in the clear is nobody’s.
 * @throws SignInError where it can’t be read, or the server can’t do what is needed.
 */
export async function discover(base: string, client: Client): Promise<Configuration> {
  const url = `${base.replace(/\/$/, '')}/.well-known/smart-configuration`;
  const found = await fetch(url, {
    headers: { accept: 'application/json' },
    redirect: 'error',
    signal: AbortSignal.timeout(timeLimitSeconds * 1000),
  })
    .then(async (response) =>
      response.ok ? ((await response.json()) as Record<string, unknown>) : undefined,
    )
    .catch(() => undefined);
  if (typeof found !== 'object') throw new SignInError(`${url} can’t be read.`);
  const endpoint = (name: 'authorization_endpoint' | 'token_endpoint') => {
    const value = found[name];
    if (typeof value !== 'string' || !URL.canParse(value) || !isSafe(new URL(value)))
      throw new SignInError(`${url} names no ${name} by https.`);
    return value;
  };
  const methods = found['code_challenge_methods_supported'];
  if (!Array.isArray(methods) || !methods.includes('S256'))
    throw new SignInError(`${url} does not say that it takes PKCE with S256.`);
  const { id, secret } = client;
  const configuration = new Configuration(
    {
      issuer: typeof found['issuer'] === 'string' ? found['issuer'] : base,
      authorization_endpoint: endpoint('authorization_endpoint'),
      token_endpoint: endpoint('token_endpoint'),
    },
    id,
    undefined,
    secret === undefined ? None() : ClientSecretBasic(secret),
  );
  configuration.timeout = timeLimitSeconds;
  if (new URL(endpoint('token_endpoint')).protocol === 'http:') allowInsecureRequests(configuration);
  return configuration;
}

/** Whether a token may be asked for there. */
export function isSafe({ protocol, hostname }: URL): boolean {
  return protocol === 'https:' || (protocol === 'http:' && loopback.has(hostname));
}
