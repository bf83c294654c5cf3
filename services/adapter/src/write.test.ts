import type { Bundle, BundleEntry } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { codeSystem } from '@dwellward/profiles';
import { FhirServerError, Lacking, type FhirServer } from './fhir-server/index.js';
import { DifferenceWriter, groups, nothingWritten, plus, type Written } from './write.js';

const entry = (n: number, reference?: string): BundleEntry => ({
  fullUrl: `urn:uuid:${n}`,
  resource: {
    resourceType: 'Task',
    ...(reference === undefined ? {} : { partOf: [{ reference }] }),
  } as never,
  request: { method: 'POST', url: 'Task', ifNoneExist: `identifier=a|${n}` },
});
const bundle = (entries: BundleEntry[]): Bundle => ({
  resourceType: 'Bundle',
  type: 'transaction',
  entry: entries,
});
const failure = (status: number, code: 'refused' | 'conflict' = 'refused') =>
  new FhirServerError(code, { method: 'POST', resourceType: 'Bundle', url: 'http://fhir.test', status });

/** A server that refuses what `mayTake` says no to. */
const server = (mayTake: (sent: BundleEntry[]) => FhirServerError | undefined = () => undefined) => {
  const sizes: number[] = [];
  const taken: string[] = [];
  let next = 0;
  const fake = {
    lacking: new Lacking(),
    transaction: async ({ entry: sent = [] }: Bundle): Promise<Bundle> => {
      sizes.push(sent.length);
      const error = mayTake(sent);
      if (error !== undefined) throw error;
      taken.push(...sent.map(({ fullUrl }) => fullUrl!));
      return {
        resourceType: 'Bundle',
        type: 'transaction-response',
        entry: sent.map(({ resource }) => ({
          response: { status: '201', location: `${resource!.resourceType}/s${(next += 1)}` },
        })),
      };
    },
  };
  return { sizes, taken, fake: fake as unknown as FhirServer };
};
const write = async (writer: DifferenceWriter, entries: BundleEntry[]) => {
  let written: Written = nothingWritten;
  await writer.write(bundle(entries), (part) => (written = plus(written, part)));
  return written;
};
const numbered = (n: number) => Array.from({ length: n }, (_, index) => entry(index));

it('sends one transaction where the server takes it', async () => {
  const { fake, sizes } = server();
  expect(await write(new DifferenceWriter(fake, 500), numbered(30))).toMatchObject({
    created: 30,
    transactions: 1,
  });
  expect(sizes).toEqual([30]);
});

it('halves what is refused, writes all of it, and remembers the size that went through', async () => {
  const { fake, sizes, taken } = server((sent) => (sent.length > 8 ? failure(400) : undefined));
  const writer = new DifferenceWriter(fake, 500);
  expect((await write(writer, numbered(30))).created).toBe(30);
  expect(new Set(taken).size).toBe(30);
  expect(writer.maxEntries).toBe(8);
  sizes.length = 0;
  await write(writer, numbered(30));
  expect(sizes).toEqual([8, 8, 8, 6]);
});

it('T8: halves what is refused with 413, and does not when it is refused with 403', async () => {
  const { fake, taken } = server((sent) => (sent.length > 8 ? failure(413) : undefined));
  expect((await write(new DifferenceWriter(fake, 500), numbered(30))).created).toBe(30);
  expect(new Set(taken).size).toBe(30);
  const strict = server(() => failure(403));
  await expect(write(new DifferenceWriter(strict.fake, 500), numbered(30))).rejects.toMatchObject({
    status: 403,
  });
  expect(strict.sizes).toEqual([30]);
});

it.each(['too-long', 'too-costly'])(
  'A9: halves what an outcome calls %s, whatever the status',
  async (code) => {
    const outcome = { resourceType: 'OperationOutcome', issue: [{ severity: 'error', code }] } as const;
    const at = { method: 'POST', resourceType: 'Bundle', url: 'http://fhir.test', status: 403 } as const;
    const { fake } = server((sent) =>
      sent.length > 8 ? new FhirServerError('refused', { ...at, outcome: outcome as never }) : undefined,
    );
    expect((await write(new DifferenceWriter(fake, 500), numbered(30))).created).toBe(30);
  },
);

describe('a Task and the one that takes its place', () => {
  const task = (activity: string, focus: string) => ({
    resourceType: 'Task',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
    focus: { reference: focus },
  });
  const closing = (n: number): BundleEntry => ({
    resource: { ...task('flush', `Device/${n}`), id: `old${n}`, status: 'completed' } as never,
    request: { method: 'PUT', url: `Task/old${n}` },
    fullUrl: `urn:uuid:old${n}`,
  });
  const next = (n: number): BundleEntry => ({ ...entry(n), resource: task('flush', `Device/${n}`) as never });

  it('A9: are written together, or neither is, however often the whole is halved', async () => {
    const entries = [...[0, 1, 2, 3].map(closing), ...[0, 1, 2, 3].map(next)];
    // It takes four at most, and refuses the successor of the third alone.
    const { fake, taken } = server((sent) =>
      sent.length > 4 || sent.some(({ fullUrl }) => fullUrl === 'urn:uuid:2') ? failure(422) : undefined,
    );
    await expect(write(new DifferenceWriter(fake, 500), entries)).rejects.toMatchObject({ status: 422 });
    expect([...taken].sort()).toEqual([0, 1, 3].flatMap((n) => [`urn:uuid:${n}`, `urn:uuid:old${n}`]).sort());
  });

  it('A9: are told apart from those of another lumen', () => {
    expect(groups([closing(0), next(1), next(0)]).map((group) => group.length)).toEqual([2, 1]);
  });
});

describe('a server without a type beside the Tasks', () => {
  const beside = (type: string, n: number, target?: string): BundleEntry => ({
    fullUrl: `urn:uuid:${type}${n}`,
    resource: { resourceType: type, ...(target ? { target: [{ reference: target }] } : {}) } as never,
    request: { method: 'POST', url: type, ifNoneExist: `identifier=a|${type}${n}` },
  });
  const whole = () => [
    ...numbered(3),
    ...[0, 1, 2].map((n) => beside('Provenance', n, `urn:uuid:${n}`)),
    beside('Flag', 0),
    beside('DetectedIssue', 0),
  ];
  const typesIn = (sent: BundleEntry[]) => sent.map(({ resource }) => resource!.resourceType as string);

  it.each([
    ['Provenance', 404],
    ['Flag', 400],
    ['DetectedIssue', 422],
  ] as const)(
    'A17: %s, refused with %i: all the rest is written, and it is left out from then on',
    async (type, status) => {
      const { fake, taken, sizes } = server((sent) =>
        typesIn(sent).includes(type) ? failure(status) : undefined,
      );
      const writer = new DifferenceWriter(fake, 500);
      await write(writer, whole());
      expect(taken.filter((url) => url.includes(type))).toEqual([]);
      expect(taken).toHaveLength(type === 'Provenance' ? 5 : 7);
      expect(fake.lacking.all.map((lack) => lack.type)).toEqual([type]);
      sizes.length = 0;
      await write(writer, whole());
      expect(sizes).toEqual([type === 'Provenance' ? 5 : 7]);
    },
  );

  it('A17: one that the server takes otherwise is itself wrong, and said', async () => {
    const { fake, taken } = server((sent) =>
      sent.some(({ fullUrl }) => fullUrl === 'urn:uuid:Flag0') ? failure(422) : undefined,
    );
    const entries = [...whole(), beside('Flag', 1)];
    await expect(write(new DifferenceWriter(fake, 500), entries)).rejects.toMatchObject({ status: 422 });
    expect(taken).toHaveLength(8);
    expect(fake.lacking.all).toEqual([]);
  });

  it('A17: what is left out by the settings is not even tried', async () => {
    const { fake, taken } = server();
    const set = Object.assign(fake, { lacking: new Lacking(['Flag', 'Provenance']) });
    await write(new DifferenceWriter(set, 500), whole());
    expect(taken).toEqual(['urn:uuid:0', 'urn:uuid:1', 'urn:uuid:2', 'urn:uuid:DetectedIssue0']);
  });
});

it('writes the rest where one entry is refused even alone, then says so, and keeps its size', async () => {
  const { fake, taken } = server((sent) =>
    sent.some(({ fullUrl }) => fullUrl === 'urn:uuid:3') ? failure(422) : undefined,
  );
  const writer = new DifferenceWriter(fake, 500);
  await expect(write(writer, numbered(10))).rejects.toMatchObject({ status: 422 });
  expect(taken).toHaveLength(9);
  expect(writer.maxEntries).toBe(500);
});

it.each([409, 412])('does not halve after %i: somebody else wrote', async (status) => {
  const { fake, sizes } = server(() => failure(status, 'conflict'));
  await expect(write(new DifferenceWriter(fake, 500), numbered(10))).rejects.toMatchObject({
    code: 'conflict',
  });
  expect(sizes).toEqual([10]);
});

it('tells what was done before a later part failed', async () => {
  let calls = 0;
  const { fake } = server(() => (++calls === 2 ? failure(412, 'conflict') : undefined));
  const parts: Written[] = [];
  const writer = new DifferenceWriter(fake, 4);
  await expect(writer.write(bundle(numbered(8)), (part) => void parts.push(part))).rejects.toMatchObject({
    code: 'conflict',
  });
  expect(parts).toMatchObject([{ created: 4 }]);
});

describe('groups', () => {
  const sizes = (entries: BundleEntry[]) =>
    groups(entries).map((group) => group.map(({ fullUrl }) => fullUrl!.slice(9)));

  it('keeps together what refers to each other, over several steps and in both directions', () => {
    const entries = [
      entry(0),
      entry(1, 'urn:uuid:3'),
      entry(2),
      entry(3),
      entry(4, 'urn:uuid:1'),
      entry(5, 'Task/9'),
    ];
    expect(sizes(entries)).toEqual([['0'], ['1', '3', '4'], ['2'], ['5']]);
  });

  it('keeps an update and what refers to the updated resource together', () => {
    const update: BundleEntry = {
      resource: { resourceType: 'Task', id: 't' } as never,
      request: { method: 'PUT', url: 'Task/t' },
    };
    expect(groups([entry(0), update, entry(2, 'Task/t')]).map((group) => group.length)).toEqual([1, 2]);
  });

  it('keeps a group whole in one transaction, also where the size would split it', async () => {
    const { fake, sizes: sent } = server();
    await write(new DifferenceWriter(fake, 2), [
      entry(0),
      entry(1, 'urn:uuid:2'),
      entry(2),
      entry(3, 'urn:uuid:2'),
    ]);
    expect(sent).toEqual([1, 3]);
  });
});

it('counts by what the server says it did', async () => {
  const put: BundleEntry = {
    resource: { resourceType: 'Task', id: 't' } as never,
    request: { method: 'PUT', url: 'Task/t' },
  };
  const fake = {
    lacking: new Lacking(),
    transaction: async () => ({
      resourceType: 'Bundle',
      type: 'transaction-response',
      entry: [
        { response: { status: '201 Created', location: 'Task/a/_history/1', etag: 'W/"1"' } },
        { response: { status: '200 OK', location: 'http://fhir.test/r4/Task/b', etag: 'W/"7"' } },
        { response: { status: '200' } },
      ],
    }),
  } as unknown as FhirServer;
  expect(await write(new DifferenceWriter(fake, 9), [entry(0), entry(1), put])).toEqual({
    created: 1,
    found: 1,
    updated: 1,
    deleted: 0,
    transactions: 1,
    versions: ['Task/a/1', 'Task/b/7'],
    matches: ['Task/b'],
  });
});
