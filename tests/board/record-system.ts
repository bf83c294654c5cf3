import { createHash, randomUUID } from 'node:crypto';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import express, { type Request, type Response } from 'express';

/** What the record system saw, for a test to look at. */
export interface Seen {
  readonly authorize: URLSearchParams[];
  readonly token: Record<string, string>[];
  /** Calls to the FHIR server, with the token that they came with. */
  readonly fhir: { readonly method: string; readonly url: string; readonly token: string }[];
}

export interface RecordSystem {
  readonly base: string;
  readonly seen: Seen;
  /** What it does from now on. */
  behave(how: Partial<Behaviour>): void;
  close(): Promise<void>;
}

interface Behaviour {
  /** Patients whom a user’s token gives; all where absent. */
  readonly readable: readonly string[] | undefined;
  readonly expiresIn: number;
  readonly refreshes: boolean;
  readonly takesTokens: boolean;
  readonly pkce: readonly string[];
  readonly patient: string | undefined;
  /** As no record system should. */
  readonly takesCodesTwice: boolean;
}

export const systemToken = 'token-of-the-adapter';

/**
 * A record system that signs users in, before a FHIR server. What it demands of a client is what SMART App Launch 2.2
 * demands (authorization code flow: `aud`, `state`, PKCE with S256; a code is good once, and for who asked for it).
 */
export async function startRecordSystem(fhirUrl: string): Promise<RecordSystem> {
  let behaviour: Behaviour = {
    ...{ readable: undefined, expiresIn: 3600, refreshes: true, takesTokens: true },
    ...{ pkce: ['S256'], patient: undefined, takesCodesTwice: false },
  };
  const seen: Seen = { authorize: [], token: [], fhir: [] };
  const codes = new Map<string, URLSearchParams>();
  const tokens = new Set<string>();
  const app = express();
  let base = '';
  app.get('/r4/.well-known/smart-configuration', (_request, response) => {
    response.json({
      authorization_endpoint: `${base}/authorize`,
      token_endpoint: `${base}/token`,
      code_challenge_methods_supported: behaviour.pkce,
      capabilities: ['launch-ehr', 'launch-standalone'],
    });
  });
  app.get('/r4/authorize', (request, response) => {
    const asked = new URL(request.originalUrl, base).searchParams;
    seen.authorize.push(asked);
    const code = randomUUID();
    codes.set(code, asked);
    const back = new URL(asked.get('redirect_uri') ?? '');
    back.searchParams.set('code', code);
    back.searchParams.set('state', asked.get('state') ?? '');
    response.redirect(302, back.href);
  });
  app.post('/r4/token', express.urlencoded({ extended: false }), (request, response) => {
    const given = request.body as Record<string, string>;
    seen.token.push(given);
    const problem =
      given['grant_type'] === 'refresh_token'
        ? undefined
        : wrongWith(given, codes, behaviour.takesCodesTwice);
    if (problem !== undefined || (given['grant_type'] === 'refresh_token' && !behaviour.refreshes)) {
      response.status(400).json({ error: 'invalid_grant' });
      return;
    }
    const token = `user-${randomUUID()}`;
    tokens.add(token);
    response.set('cache-control', 'no-store').json({
      ...{ access_token: token, token_type: 'Bearer', expires_in: behaviour.expiresIn },
      ...{ refresh_token: `refresh-${randomUUID()}` },
      ...(behaviour.patient === undefined ? {} : { patient: behaviour.patient }),
    });
  });
  app.use('/r4', express.raw({ type: () => true, limit: '10mb' }), (request, response, next) => {
    const token = (request.get('authorization') ?? '').replace('Bearer ', '');
    seen.fhir.push({ method: request.method, url: request.url, token });
    const isUser = tokens.has(token) && behaviour.takesTokens;
    if (token !== systemToken && !isUser) response.status(401).json({ resourceType: 'OperationOutcome' });
    else pass(fhirUrl, base, isUser ? behaviour.readable : undefined, request, response).catch(next);
  });
  const server = createServer(app);
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}/r4`;
  return {
    base,
    seen,
    behave: (how) => (behaviour = { ...behaviour, ...how }),
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

/** What the specification has a server refuse. */
function wrongWith(
  given: Record<string, string>,
  codes: Map<string, URLSearchParams>,
  twice: boolean,
): string | undefined {
  const asked = codes.get(given['code'] ?? '');
  if (!twice) codes.delete(given['code'] ?? '');
  if (asked === undefined) return 'no such code';
  const challenge = createHash('sha256')
    .update(given['code_verifier'] ?? '')
    .digest('base64url');
  if (asked.get('code_challenge') !== challenge) return 'not who asked';
  if (given['redirect_uri'] !== asked.get('redirect_uri')) return 'another address';
  return given['client_id'] === asked.get('client_id') ? undefined : 'another client';
}

/** Hands on to the FHIR server; of a search for patients only those whom the user may read. */
async function pass(
  fhirUrl: string,
  base: string,
  readable: readonly string[] | undefined,
  request: Request,
  response: Response,
): Promise<void> {
  const answer = await fetch(`${fhirUrl}${request.url}`, {
    method: request.method,
    headers: {
      accept: 'application/fhir+json',
      'content-type': request.get('content-type') ?? 'application/fhir+json',
    },
    ...(request.method === 'GET' ? {} : { body: new Uint8Array(request.body as Buffer) }),
  });
  // It stands before the server, and what the server says of itself it says of this address.
  let text = (await answer.text()).replaceAll(fhirUrl, base);
  if (readable !== undefined && request.url.startsWith('/Patient')) {
    const bundle = JSON.parse(text) as { entry?: { resource: { id: string } }[] };
    const entry = (bundle.entry ?? []).filter(({ resource }) => readable.includes(resource.id));
    text = JSON.stringify({ ...bundle, entry, total: entry.length });
  }
  response
    .status(answer.status)
    .type(answer.headers.get('content-type') ?? 'json')
    .send(text);
}
