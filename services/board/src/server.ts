import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Readable } from 'node:stream';
import type { ReadableStream } from 'node:stream/web';
import { fileURLToPath } from 'node:url';
import express, { type Express, type Request, type Response } from 'express';

export interface BoardOptions {
  /** Where the adapter answers, for example `http://127.0.0.1:8080`. */
  readonly adapterUrl: string;
  /** Sent to the adapter and nowhere else; no page ever sees it. */
  readonly bearerToken?: string;
  /** Loopback where absent: the board has no access control of its own. */
  readonly host?: string;
  /** 0, the default, takes a free one. */
  readonly port?: number;
  /** Time limit of one question to the adapter, milliseconds; 20,000 when absent. */
  readonly timeLimitMs?: number;
}

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
const posts: ReadonlySet<string> = new Set(['/charted', '/taken-back']);

/** The pages, and under `/api` what they ask of the adapter; it does not listen. */
export function boardApp(options: BoardOptions): Express {
  const app = express();
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
  app.get('/api/changes', (request, response, next) => {
    stream(options, request, response).catch(next);
  });
  app.get('/api/{*path}', (request, response, next) => {
    ask(options, request, response).catch(next);
  });
  app.post('/api/{*path}', express.json({ limit: '64kb' }), (request, response, next) => {
    if (!posts.has(request.path.slice('/api'.length)) || !isFromThisPage(request)) {
      response.status(403).json({ problems: ['Only this page may record care.'] });
      return;
    }
    ask(options, request, response).catch(next);
  });
  app.use(express.static(pages, { cacheControl: false }));
  app.use((_error: unknown, _request: Request, response: Response, next: () => void) => {
    void next;
    if (response.headersSent) response.end();
    else response.status(502).json({ problems: ['The adapter does not answer.'] });
  });
  return app;
}

/** Another site can make a browser send a form, but not with this header of its own choice. */
function isFromThisPage(request: Request): boolean {
  const site = request.get('sec-fetch-site');
  const origin = request.get('origin');
  const same = origin === undefined || new URL(origin).host === request.get('host');
  return same && (site === undefined || site === 'same-origin') && request.is('application/json') !== false;
}

function call({ adapterUrl, bearerToken }: BoardOptions, request: Request, signal: AbortSignal) {
  const url = new URL(request.originalUrl.replace(/^\/api/, '/board-api'), adapterUrl);
  return fetch(url, {
    method: request.method,
    signal,
    redirect: 'error',
    headers: {
      accept: request.get('accept') ?? '*/*',
      ...(bearerToken === undefined ? {} : { authorization: `Bearer ${bearerToken}` }),
      ...(request.method === 'POST' ? { 'content-type': 'application/json' } : {}),
    },
    ...(request.method === 'POST' ? { body: JSON.stringify(request.body) } : {}),
  });
}

async function ask(options: BoardOptions, request: Request, response: Response): Promise<void> {
  const answer = await call(options, request, AbortSignal.timeout(options.timeLimitMs ?? 20_000));
  response
    .status(answer.status)
    .set('cache-control', 'no-store')
    .type(answer.headers.get('content-type') ?? 'application/json')
    .send(Buffer.from(await answer.arrayBuffer()));
}

/** What changes, as it does, until the page goes or the adapter ends. */
async function stream(options: BoardOptions, request: Request, response: Response): Promise<void> {
  const gone = new AbortController();
  request.on('close', () => gone.abort());
  const answer = await call(options, request, gone.signal);
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
  const host = options.host ?? '127.0.0.1';
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port ?? 0, host, resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://${host.includes(':') ? `[${host}]` : host}:${port}/`,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}
