import type { Bundle, Task } from 'fhir/r4.js';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { startDemoServer } from './index.js';

let server: Awaited<ReturnType<typeof startDemoServer>>;
beforeAll(async () => {
  server = await startDemoServer();
});
afterAll(() => server.close());
beforeEach(() => server.repository.clear());

/** Whatever comes: a Bundle’s entries and links, or a Task’s elements. */
type Answer = Omit<Task, 'resourceType'> & Pick<Bundle, 'entry' | 'link'> & { readonly resourceType: string };

const call = async (method: string, path: string, body?: unknown, headers: Record<string, string> = {}) => {
  const response = await fetch(path.startsWith('http') ? path : `${server.baseUrl}${path}`, {
    method,
    headers: { 'content-type': 'application/fhir+json', ...headers },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  return {
    status: response.status,
    headers: response.headers,
    body: (await response.json()) as Answer,
  };
};
const task = (value: string, more: Partial<Task> = {}): Task => ({
  resourceType: 'Task',
  status: 'requested',
  intent: 'plan',
  identifier: [{ system: 'http://a.test', value }],
  for: { reference: 'Patient/p1' },
  ...more,
});
const post = (value: string, fullUrl = `urn:uuid:${value}`, more: Partial<Task> = {}) => ({
  fullUrl,
  resource: task(value, more),
  request: { method: 'POST', url: 'Task', ifNoneExist: `identifier=http://a.test|${value}` },
});
const transaction = (entry: unknown[]) =>
  call('POST', '', { resourceType: 'Bundle', type: 'transaction', entry });
const many = (n: number) =>
  Array.from({ length: n }, (_, i) => post(`0000000${i}-0000-4000-8000-000000000000`));

it('gives pages with self and next links and absolute full URLs', async () => {
  await transaction(Array.from({ length: 5 }, (_, i) => post(`${i}`, `urn:uuid:${i}`)));
  const seen: string[] = [];
  let url: string | undefined = '/Task?patient=Patient/p1&_count=2';
  for (let pages = 0; url !== undefined; pages++) {
    expect(pages).toBeLessThan(3);
    const { body } = await call('GET', url);
    expect(body.link!.find(({ relation }) => relation === 'self')!.url).toMatch(
      /^http:\/\/127\.0\.0\.1:\d+\/fhir\/Task\?/,
    );
    for (const entry of body.entry!) seen.push(entry.fullUrl!);
    url = body.link!.find(({ relation }) => relation === 'next')?.url;
  }
  expect(new Set(seen).size).toBe(5);
  expect(seen[0]).toContain(`${server.baseUrl}/Task/`);
});

it.each([
  ['identifier=http://a.test|1', 1],
  ['identifier=http://a.test|', 2],
  ['identifier=|1', 0],
  ['identifier=1', 1],
  ['patient=p1', 2],
  ['patient=Patient/p2', 0],
  ['status=requested', 2],
  ['status=completed,requested', 2],
  ['status=completed', 0],
  ['code=http://c.test|x', 1],
  ['_lastUpdated=ge2020-01-01T00:00:00Z', 2],
  ['_lastUpdated=ge2999-01-01T00:00:00Z', 0],
  ['_lastUpdated=lt2999-01-01', 2],
])('answers Task?%s with %i', async (query, matches) => {
  await call('POST', '/Task', task('1', { code: { coding: [{ system: 'http://c.test', code: 'x' }] } }));
  await call('POST', '/Task', task('2'));
  const { status, body } = await call('GET', `/Task?${query}`);
  expect([status, body.entry?.length ?? 0]).toEqual([200, matches]);
});

it('refuses a search parameter that it does not know', async () => {
  expect((await call('GET', '/Task?patiant=p1')).status).toBe(400);
});

it('answers a body that is not JSON with an OperationOutcome', async () => {
  const headers = { 'content-type': 'application/fhir+json' };
  const response = await fetch(`${server.baseUrl}/Task`, {
    method: 'POST',
    headers,
    body: '{"resourceType":',
  });
  expect([response.status, ((await response.json()) as Bundle).resourceType]).toEqual([
    400,
    'OperationOutcome',
  ]);
});

it('refuses what is not valid R4', async () => {
  const { status, body } = await call('POST', '/Task', { resourceType: 'Task', status: 'requested' });
  expect([status, body.resourceType]).toEqual([400, 'OperationOutcome']);
});

it('gives versions: ETag and Location, If-Match 412, history newest first, 410 after deletion', async () => {
  const made = await call('POST', '/Task', task('1'));
  expect(made.status).toBe(201);
  expect(made.headers.get('location')).toContain(`/Task/${made.body.id}/_history/`);
  const etag = made.headers.get('etag')!;
  const path = `/Task/${made.body.id}`;
  const done = { ...made.body, status: 'completed' };
  expect((await call('PUT', path, done, { 'if-match': etag })).status).toBe(200);
  expect((await call('PUT', path, done, { 'if-match': etag })).status).toBe(412);
  for (let twice = 0; twice < 2; twice++) {
    const history = await call('GET', `${path}/_history`);
    expect(history.body.entry!.map(({ resource }) => (resource as Task).status)).toEqual([
      'completed',
      'requested',
    ]);
  }
  await call('DELETE', path);
  expect((await call('GET', path)).status).toBe(410);
  expect((await call('GET', '/Task/never')).status).toBe(404);
});

it('creates once with If-None-Exist and says 412 where several match', async () => {
  const condition = { 'if-none-exist': 'identifier=http://a.test|1' };
  expect((await call('POST', '/Task', task('1'), condition)).status).toBe(201);
  expect((await call('POST', '/Task', task('1'), condition)).status).toBe(200);
  await call('POST', '/Task', task('1'));
  expect((await call('POST', '/Task', task('1'), condition)).status).toBe(412);
});

describe('transaction', () => {
  it('takes more than eight conditional creates, and a second time creates none', async () => {
    const first = await transaction(many(30));
    expect(first.body.entry!.map(({ response }) => response!.status)).toEqual(Array(30).fill('201'));
    expect(first.body.entry![0]!.response!.etag).toMatch(/^W\/"/);
    const second = await transaction(many(30));
    expect(second.body.entry!.map(({ response }) => response!.status)).toEqual(Array(30).fill('200'));
    expect(server.repository.count('Task')).toBe(30);
  });

  it('leads references to what was there already', async () => {
    const old = await call('POST', '/Task', task('1'));
    const answer = await transaction([
      post('1', 'urn:uuid:00000000-0000-4000-8000-00000000000a'),
      post('2', 'urn:uuid:00000000-0000-4000-8000-00000000000b', {
        partOf: [{ reference: 'urn:uuid:00000000-0000-4000-8000-00000000000a' }],
      }),
    ]);
    const second = await call('GET', `/${answer.body.entry![1]!.response!.location}`);
    expect(second.body.partOf).toEqual([{ reference: `Task/${old.body.id}` }]);
  });

  it.each([
    [
      'a version that has moved on',
      { resource: task('x', { id: 'x' }), request: { method: 'PUT', url: 'Task/x', ifMatch: 'W/"old"' } },
      412,
    ],
    [
      'a resource that is not valid',
      { resource: { resourceType: 'Task' }, request: { method: 'POST', url: 'Task' } },
      400,
    ],
  ])('leaves nothing behind after %s', async (_, bad, status) => {
    await call('PUT', '/Task/x', task('x', { id: 'x' }));
    expect((await transaction([post('1'), post('2'), bad])).status).toBe(status);
    expect(server.repository.count('Task')).toBe(1);
  });

  it('is seen whole or not at all by another client', async () => {
    const counts = new Set<number>();
    const writing = transaction(many(40));
    while ((await Promise.race([writing.then(() => 'done'), call('GET', '/Task?_count=100')])) !== 'done') {
      counts.add(server.repository.count('Task'));
    }
    expect([...counts].every((n) => n === 0 || n === 40)).toBe(true);
    expect((await call('GET', '/Task?_count=100')).body.entry).toHaveLength(40);
  });

  it('of two at once creates each resource once', async () => {
    await Promise.all([transaction(many(9)), transaction(many(9))]);
    expect(server.repository.count('Task')).toBe(9);
  });
});

it('says what it is', async () => {
  const { body } = await call('GET', '/metadata');
  expect(body.resourceType).toBe('CapabilityStatement');
});
