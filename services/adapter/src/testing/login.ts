import { createPublicKey, verify, type JsonWebKey } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** An answer instead of the usual one. */
export interface Instead {
  readonly status: number;
  readonly body?: unknown;
  readonly headers?: Record<string, string>;
}

/**
 * A login server and the FHIR server that it gives tokens for, written from SMART App Launch 2.2 (“Backend Services” and
 * “Client Authentication: Asymmetric”) with node:crypto, and nothing of what it tests.
 */
export interface Login {
  readonly url: string;
  readonly fhirUrl: string;
  readonly tokenUrl: string;
  /** Every form that was posted for a token. */
  readonly forms: URLSearchParams[];
  /** Paths that were asked for, in their order. */
  readonly asked: string[];
  /** Answers of the next requests for tokens, instead of tokens. */
  readonly instead: Instead[];
  /** Answers to the next requests for the configuration. */
  readonly configuration: Instead[];
  /** What a token's answer has beside its token; undefined leaves a member out. */
  grant: Record<string, unknown>;
  /** True: the FHIR server lets nobody in. */
  refusesAll: boolean;
  /** Tokens that the FHIR server lets in. */
  readonly good: Set<string>;
  /** What the FHIR server was sent as bearer token, in its order. */
  readonly sent: (string | undefined)[];
  close(): Promise<void>;
}

export interface LoginOptions {
  readonly clientId: string;
  /** The client's keys, as the login server gets them. */
  readonly keys: () => Promise<{ keys: JsonWebKey[] }>;
  readonly nowMs: () => number;
  /** Answers what is asked of the FHIR server by somebody with a good token. */
  readonly fhir?: (request: IncomingMessage, body: string, response: ServerResponse) => void;
}

export async function startLogin(options: LoginOptions): Promise<Login> {
  const seen = new Set<string>();
  const login: Omit<Login, 'url' | 'fhirUrl' | 'tokenUrl' | 'close'> = {
    forms: [],
    asked: [],
    instead: [],
    configuration: [],
    refusesAll: false,
    good: new Set(),
    grant: { token_type: 'bearer', expires_in: 300, scope: 'system/*.rs' },
    sent: [],
  };
  let url = '';
  let given = 0;
  const json = (response: ServerResponse, { status, body, headers }: Instead) => {
    response.writeHead(status, { 'content-type': 'application/json', ...headers });
    response.end(typeof body === 'string' ? body : JSON.stringify(body ?? {}));
  };
  const tokenFor = async (request: IncomingMessage, body: string): Promise<Instead> => {
    const form = new URLSearchParams(body);
    login.forms.push(form);
    const instead = login.instead.shift();
    if (instead) return instead;
    const type = request.headers['content-type'] ?? '';
    const error = type.startsWith('application/x-www-form-urlencoded')
      ? await fault(form, { ...options, tokenUrl: `${url}/token`, seen })
      : 'invalid_request';
    if (error !== undefined) return { status: 400, body: { error } };
    const token = `token-${(given += 1)}`;
    login.good.add(token);
    return { status: 200, body: { access_token: token, ...login.grant } };
  };
  const answer = async (request: IncomingMessage, response: ServerResponse) => {
    let body = '';
    for await (const chunk of request) body += String(chunk);
    const path = request.url ?? '';
    login.asked.push(path);
    if (path === '/r4/.well-known/smart-configuration') {
      const usual = { status: 200, body: { token_endpoint: `${url}/token` } };
      return json(response, login.configuration.shift() ?? usual);
    }
    if (path === '/token') return json(response, await tokenFor(request, body));
    const token = /^Bearer (.+)$/.exec(request.headers.authorization ?? '')?.[1];
    login.sent.push(token);
    if (token === undefined || login.refusesAll || !login.good.has(token))
      return json(response, { status: 401 });
    if (options.fhir) return options.fhir(request, body, response);
    const bundle = { resourceType: 'Bundle', type: 'transaction-response' };
    const patient = { resourceType: 'Patient', id: '1' };
    json(response, { status: 200, body: request.method === 'POST' ? bundle : patient });
  };
  const server = createServer((request, response) => {
    answer(request, response).catch((error: unknown) => response.destroy(error as Error));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return Object.assign(login, {
    url,
    fhirUrl: `${url}/r4`,
    tokenUrl: `${url}/token`,
    close: () =>
      new Promise<void>((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  });
}

type Rules = LoginOptions & { readonly tokenUrl: string; readonly seen: Set<string> };

/** The OAuth error of a request for a token; undefined where nothing is wrong with it. */
async function fault(form: URLSearchParams, rules: Rules): Promise<string | undefined> {
  if (form.get('grant_type') !== 'client_credentials') return 'unsupported_grant_type';
  if (!form.get('scope')) return 'invalid_scope';
  const type = 'urn:ietf:params:oauth:client-assertion-type:jwt-bearer';
  if (form.get('client_assertion_type') !== type) return 'invalid_request';
  const [head = '', claim = '', signature = ''] = (form.get('client_assertion') ?? '').split('.');
  const read = (part: string) =>
    JSON.parse(Buffer.from(part, 'base64url').toString()) as Record<string, unknown>;
  const header = read(head);
  const claims = read(claim);
  const fits = (await rules.keys()).keys.filter(
    ({ kid, kty }) => kid === header.kid && kty === (header.alg === 'RS384' ? 'RSA' : 'EC'),
  );
  const [key] = fits;
  if (key === undefined || fits.length > 1) return 'invalid_client';
  const text = Buffer.from(`${head}.${claim}`);
  const from = { key: createPublicKey({ key, format: 'jwk' }), dsaEncoding: 'ieee-p1363' } as const;
  if (!verify('sha384', text, from, Buffer.from(signature, 'base64url'))) return 'invalid_client';
  const { iss, sub, aud, exp, jti } = claims;
  const nowSeconds = rules.nowMs() / 1000;
  const lives = Number.isInteger(exp) && Number(exp) > nowSeconds && Number(exp) <= nowSeconds + 300;
  const isIt = iss === rules.clientId && sub === iss && aud === rules.tokenUrl;
  if (!lives || !isIt || typeof jti !== 'string' || rules.seen.has(jti)) return 'invalid_client';
  rules.seen.add(jti);
  return undefined;
}
