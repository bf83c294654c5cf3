import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Readable } from 'node:stream';
import type { ReadableStream } from 'node:stream/web';
import { fileURLToPath } from 'node:url';
import express, { type Express, type Request, type Response } from 'express';
import { SignIn, type SignInOptions } from './sign-in/index.js';

export interface BoardOptions {
  /** Where the adapter answers, for example `http://127.0.0.1:8080`. */
  readonly adapterUrl: string;
  /** Path of a file with the token that the adapter’s guard asks for; read anew for every question. */
  readonly adapterTokenFile?: string;
  /** 0, the default, takes a free one. */
  readonly port?: number;
  /** Signs users in. Without it the board has no access control of its own, and listens on a loopback address alone. */
  readonly signIn?: SignInOptions & {
    /** Where to listen; a loopback address where absent. TLS is a matter of the proxy before it. */
    readonly host?: string;
  };
}

const loopback = '127.0.0.1';
/** Time limit of one question to the adapter: it may wait for a round that runs. */
const timeLimitMs = 20_000;

export interface RunningBoard {
  readonly url: string;
  close(): Promise<void>;
}

/** Only what is ours may run, be shown or be asked; nothing written in a page runs or styles. */
const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const pages = fileURLToPath(new URL('../dist/public/', import.meta.url));
const posts: ReadonlySet<string> = new Set(['/charted', '/taken-back', '/sign-out']);

/** The pages, and under `/api` what they ask of the adapter; it does not listen. */
export function boardApp({
  adapterUrl,
  adapterTokenFile,
  signIn: options,
}: Omit<BoardOptions, 'port'>): Express {
  const app = express();
  const signIn = options && new SignIn(options);
  const publicUrl = options && new URL(options.publicUrl);
  const ownNames = new Set([loopback, 'localhost', ...(publicUrl ? [publicUrl.hostname] : [])]);
  const adapter: Adapter = { url: adapterUrl, tokenFile: adapterTokenFile, signIn };
  app.disable('x-powered-by');
  app.use((_request, response, next) => {
    response.set({
      'content-security-policy': contentSecurityPolicy,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
    });
    next();
  });
  app.use((request, response, next) => {
    // A page from elsewhere may have its own name point here; it asks by that name.
    if (ownNames.has(request.hostname)) next();
    else response.status(403).json({ problems: ['This board answers to its own address only.'] });
  });
  if (signIn) app.use(signIn.routes());
  app.get('/api/me', (request, response) => {
    const patient = signIn?.patientOf(request);
    response.set('cache-control', 'no-store').json({
      signsIn: signIn !== undefined,
      ...(patient === undefined ? {} : { patient: `Patient/${patient}` }),
    });
  });
  app.get('/api/changes', (request, response, next) => {
    stream(adapter, request, response).catch(next);
  });
  app.get('/api/{*path}', (request, response, next) => {
    ask(adapter, request, response).catch(next);
  });
  app.post('/api/{*path}', express.json({ limit: '64kb' }), (request, response, next) => {
    if (!posts.has(request.path.slice('/api'.length)) || !isFromThisPage(request, publicUrl)) {
      response.status(403).json({ problems: ['Only this page may record care.'] });
      return;
    }
    if (request.path === '/api/sign-out') {
      signIn?.end(request, response);
      response.json({ signedOut: true });
      return;
    }
    ask(adapter, request, response).catch(next);
  });
  app.use(express.static(pages, { cacheControl: false }));
  app.use((error: { status?: unknown }, _request: Request, response: Response, next: () => void) => {
    void next;
    const { status } = error;
    if (response.headersSent) response.end();
    else if (typeof status === 'number' && status >= 400 && status < 500)
      response.status(status).json({ problems: ['The request can’t be read.'] });
    else response.status(502).json({ problems: ['The adapter does not answer.'] });
  });
  return app;
}

/** Another site can make a browser send a form, but neither as JSON nor with our origin; a page without one is not ours. */
function isFromThisPage(request: Request, publicUrl: URL | undefined): boolean {
  const site = request.get('sec-fetch-site');
  const origin = request.get('origin');
  const own = publicUrl?.origin ?? `http://${request.get('host')}`;
  const same = origin === undefined || origin === own;
  return same && (site === undefined || site === 'same-origin') && Boolean(request.is('application/json'));
}

interface Adapter {
  readonly url: string;
  readonly tokenFile: string | undefined;
  readonly signIn: SignIn | undefined;
}

/** Undefined where nobody is signed in. */
async function call(adapter: Adapter, request: Request, signal: AbortSignal) {
  const token = await adapter.signIn?.tokenOf(request);
  if (adapter.signIn && token === undefined) return undefined;
  const own =
    adapter.tokenFile === undefined ? undefined : (await readFile(adapter.tokenFile, 'utf8')).trim();
  const url = new URL(request.originalUrl.replace(/^\/api/, '/board-api'), adapter.url);
  return fetch(url, {
    method: request.method,
    signal,
    redirect: 'error',
    headers: {
      accept: request.get('accept') ?? '*/*',
      ...(own === undefined ? {} : { authorization: `Bearer ${own}` }),
      ...(token === undefined ? {} : { 'x-fhir-authorization': `Bearer ${token}` }),
      ...(request.method === 'POST' ? { 'content-type': 'application/json' } : {}),
    },
    ...(request.method === 'POST' ? { body: JSON.stringify(request.body) } : {}),
  });
}

async function ask(adapter: Adapter, request: Request, response: Response): Promise<void> {
  const answer = await call(adapter, request, AbortSignal.timeout(timeLimitMs));
  if (answer === undefined) return notSignedIn(response);
  // The record system does not take the token any more; a refusal of the adapter’s guard says so in a header.
  const ofGuard = answer.headers.has('www-authenticate');
  if (answer.status === 401 && !ofGuard) adapter.signIn?.end(request, response);
  response
    // It is the board that the guard refuses: nobody before it can sign in for that.
    .status(ofGuard ? 502 : answer.status)
    .set('cache-control', 'no-store')
    .type(answer.headers.get('content-type') ?? 'application/json')
    .send(Buffer.from(await answer.arrayBuffer()));
}

function notSignedIn(response: Response): void {
  response.status(401).json({ problems: ['Nobody is signed in.'] });
}

/** What changes, as it does, until the page goes or the adapter ends. */
async function stream(adapter: Adapter, request: Request, response: Response): Promise<void> {
  const gone = new AbortController();
  request.on('close', () => gone.abort());
  const answer = await call(adapter, request, gone.signal);
  if (answer === undefined) return notSignedIn(response);
  if (answer.body === null) throw new Error('no stream');
  response.status(answer.status).set({ 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
  response.flushHeaders();
  const events = Readable.fromWeb(answer.body as ReadableStream);
  events.on('error', () => response.end());
  events.pipe(response);
}

/** Starts the board. @throws the listener’s error, for example EADDRINUSE. */
export async function startBoard(options: BoardOptions): Promise<RunningBoard> {
  const server = createServer(boardApp(options));
  const host = options.signIn?.host ?? loopback;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port ?? 0, host, resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://${host}:${port}/`,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}
