import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** A request on its way to the server behind the proxy. */
export interface Passing {
  readonly method: string;
  /** Path and query below the proxy, for example `/fhir/Task?patient=…`. */
  readonly url: string;
  readonly body: string;
  readonly headers: IncomingMessage['headers'];
  /** From 1: of this method. */
  readonly nth: number;
  /** Lets the request through and gives the server's answer. */
  forward(body?: string): Promise<Answer>;
}

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

/** What becomes of a request: an answer, or `cut` for a connection that breaks, or `silence` for none at all. */
export type Fault = (passing: Passing) => Promise<Answer | 'cut' | 'silence'>;

/** A proxy on loopback that lets a test decide what becomes of every request. */
export async function startFaultyProxy(targetBase: string) {
  const target = new URL(targetBase);
  let fault: Fault = (passing) => passing.forward();
  const counts = new Map<string, number>();
  const seen: Passing[] = [];

  async function handle(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    const method = request.method ?? 'GET';
    const nth = (counts.get(method) ?? 0) + 1;
    counts.set(method, nth);
    const body = Buffer.concat(chunks).toString('utf8');
    const url = request.url ?? '/';
    const passing: Passing = {
      method,
      url,
      body,
      headers: request.headers,
      nth,
      forward: async (other = body) => {
        const headers = new Headers({
          'content-type': 'application/fhir+json',
          host: request.headers.host ?? '',
        });
        for (const name of ['if-match', 'if-none-exist', 'prefer'])
          if (request.headers[name] !== undefined) headers.set(name, String(request.headers[name]));
        const sent = method === 'GET' || other === '' ? {} : { body: other };
        const answer = await fetch(new URL(url, target.origin), { method, headers, ...sent });
        const type = answer.headers.get('content-type') ?? 'application/fhir+json';
        // The server names itself in links; seen from here it is the proxy.
        const text = (await answer.text()).replaceAll(target.origin, `http://${request.headers.host}`);
        const location = answer.headers.get('location');
        const more = location === null ? {} : { location };
        return { status: answer.status, headers: { 'content-type': type, ...more }, body: text };
      },
    };
    seen.push(passing);
    const outcome = await fault(passing);
    if (outcome === 'cut') request.socket.destroy();
    else if (outcome !== 'silence') response.writeHead(outcome.status, outcome.headers).end(outcome.body);
  }

  const server = createServer((request, response) => {
    handle(request, response).catch((error: unknown) => response.writeHead(599).end(String(error)));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    baseUrl: `http://127.0.0.1:${port}${target.pathname}`,
    /** Every request so far. */
    seen,
    /** Sets what becomes of requests from now on, and counts them anew. */
    setFault(next: Fault) {
      fault = next;
      counts.clear();
    },
    close: () =>
      new Promise<void>((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

/** An answer of the proxy's own. */
export function answer(
  status: number,
  body: object | string = '',
  headers: Record<string, string> = {},
): Answer {
  const text = typeof body === 'string' ? body : JSON.stringify(body);
  return { status, headers: { 'content-type': 'application/fhir+json', ...headers }, body: text };
}
