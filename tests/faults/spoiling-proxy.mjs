/* global fetch */
import { Buffer } from 'node:buffer';
import { createServer } from 'node:http';

/** A proxy on loopback. @param decide what becomes of each request: what `forward()` gives, `cut` or `silence`. */
export async function startProxy(targetBase, decide) {
  const target = new URL(targetBase);
  const server = createServer(async (request, response) => {
    const chunks = [];
    for await (const chunk of request) chunks.push(chunk);
    const body = Buffer.concat(chunks).toString('utf8');
    const forward = async () => {
      const headers = { 'content-type': 'application/fhir+json' };
      for (const name of ['if-match', 'if-none-exist', 'prefer', 'authorization'])
        if (request.headers[name] !== undefined) headers[name] = request.headers[name];
      const sent = request.method === 'GET' || body === '' ? {} : { body };
      const answer = await fetch(new URL(request.url, target.origin), {
        method: request.method,
        headers,
        ...sent,
      });
      const text = (await answer.text()).replaceAll(target.origin, `http://${request.headers.host}`);
      return { status: answer.status, headers: { 'content-type': 'application/fhir+json' }, body: text };
    };
    const outcome = await decide({ method: request.method, url: request.url, body, forward });
    if (outcome === 'cut') request.socket.destroy();
    else if (outcome !== 'silence') response.writeHead(outcome.status, outcome.headers).end(outcome.body);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    baseUrl: `http://127.0.0.1:${server.address().port}${target.pathname}`,
    close: () => new Promise((done) => (server.close(done), server.closeAllConnections())),
  };
}
