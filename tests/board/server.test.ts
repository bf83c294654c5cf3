import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, request, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { boardApp } from '@dwellward/board';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

// The board’s own server, over an adapter that answers with what it was asked.

let adapter: Server;
let board: Server;
let port: number;
const asked: { method: string | undefined; url: string | undefined; body: string }[] = [];

const listening = async (server: Server) => {
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return (server.address() as AddressInfo).port;
};

beforeAll(async () => {
  adapter = createServer((incoming, response) => {
    let body = '';
    incoming.on('data', (chunk: Buffer) => (body += chunk.toString()));
    incoming.on('end', () => {
      asked.push({ method: incoming.method, url: incoming.url, body });
      response.writeHead(200, { 'content-type': 'application/json' }).end('{}');
    });
  });
  const adapterPort = await listening(adapter);
  board = createServer(boardApp({ adapterUrl: `http://127.0.0.1:${adapterPort}` }));
  port = await listening(board);
});
afterAll(() => {
  board.close();
  adapter.close();
});

interface Sent {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
}

/** By Node’s own client: a browser’s would not send another host. */
const send = (path: string, { method = 'GET', headers = {}, body = '' }: Sent = {}) =>
  new Promise<{ status: number | undefined; headers: NodeJS.Dict<string | string[]> }>((done, fail) => {
    const outgoing = request({ host: '127.0.0.1', port, path, method, headers }, (response) => {
      response.resume();
      response.on('end', () => done({ status: response.statusCode, headers: response.headers }));
    });
    outgoing.on('error', fail);
    outgoing.end(body);
  });
const json = { 'content-type': 'application/json' };
const charted = (headers: Readonly<Record<string, string>>, body = '{"id":1}') =>
  send('/api/charted', { method: 'POST', headers, body });

describe('what the board’s server hands on', () => {
  it('is a question of the page, to the adapter’s own path', async () => {
    expect((await send('/api/line?line=Device%2F1')).status).toBe(200);
    expect(asked.at(-1)).toEqual({ method: 'GET', url: '/board-api/line?line=Device%2F1', body: '' });
    expect((await charted(json)).status).toBe(200);
    expect(asked.at(-1)).toEqual({ method: 'POST', url: '/board-api/charted', body: '{"id":1}' });
  });

  it.each([
    ['another site’s origin', { ...json, origin: 'https://elsewhere.example' }],
    ['no origin that is ours', { ...json, origin: 'null' }],
    ['our name at another port', { ...json, origin: 'http://127.0.0.1:1' }],
    ['a browser that says it is from another site', { ...json, 'sec-fetch-site': 'cross-site' }],
    ['a form', { 'content-type': 'text/plain' }],
    ['nothing of its kind', {}],
  ])('is nothing recorded with %s', async (_, headers) => {
    const before = asked.length;
    expect((await charted(headers)).status).toBe(403);
    expect(asked).toHaveLength(before);
  });

  it('is nothing for who asks by another name, and no other path is written to', async () => {
    const before = asked.length;
    expect((await send('/api/unit', { headers: { host: 'board.elsewhere.example' } })).status).toBe(403);
    expect((await send('/', { headers: { host: 'board.elsewhere.example' } })).status).toBe(403);
    expect((await send('/api/unit', { method: 'POST', headers: json, body: '{}' })).status).toBe(403);
    expect(asked).toHaveLength(before);
    expect((await send('/api/unit', { headers: { host: `localhost:${port}` } })).status).toBe(200);
  });

  it('is told as a problem where it can’t be read', async () => {
    expect((await charted(json, '{"id":')).status).toBe(400);
  });

  it('comes with a policy under which only its own script runs', async () => {
    const { headers } = await send('/api/unit');
    expect(headers['content-security-policy']).toMatch(/default-src 'none'/);
    expect(headers['content-security-policy']).not.toMatch(/unsafe/);
  });
});

describe('before an adapter with a guard', () => {
  it('sends the token of its file, as it is by then, and to nobody else', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'dwellward-board-'));
    const file = join(folder, 'token');
    const tokens: (string | undefined)[] = [];
    const guarded = createServer((incoming, response) => {
      tokens.push(incoming.headers.authorization);
      response.writeHead(401, { 'www-authenticate': 'Bearer' }).end('{}');
    });
    const guardedPort = await listening(guarded);
    const own = createServer(
      boardApp({ adapterUrl: `http://127.0.0.1:${guardedPort}`, adapterTokenFile: file }),
    );
    const ownPort = await listening(own);
    try {
      for (const token of ['one', 'two']) {
        writeFileSync(file, `${token}\n`);
        // What the guard refuses is the board, and not who looks at it.
        expect((await fetch(`http://127.0.0.1:${ownPort}/api/unit`)).status).toBe(502);
      }
      expect(tokens).toEqual(['Bearer one', 'Bearer two']);
      rmSync(file);
      expect((await fetch(`http://127.0.0.1:${ownPort}/api/unit`)).status).toBe(502);
      expect(tokens).toHaveLength(2);
    } finally {
      own.close();
      guarded.close();
      rmSync(folder, { recursive: true });
    }
  });
});

describe('without an adapter', () => {
  it('the board says so', async () => {
    const alone = createServer(boardApp({ adapterUrl: 'http://127.0.0.1:9' }));
    const alonePort = await listening(alone);
    try {
      const response = await fetch(`http://127.0.0.1:${alonePort}/api/unit`);
      expect(response.status).toBe(502);
      expect(await response.json()).toEqual({ problems: ['The adapter does not answer.'] });
    } finally {
      alone.close();
    }
  });
});
