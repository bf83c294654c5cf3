import type { Bundle, BundleEntry } from 'fhir/r4.js';
import { FhirServerError, type FhirServer } from './fhir-server/index.js';
import { versionKey } from './changes.js';

/** What transactions did. */
export interface Written {
  readonly created: number;
  readonly updated: number;
  readonly deleted: number;
  /** Conditional creates that found the resource there already. */
  readonly found: number;
  readonly transactions: number;
  /** The versions that were written, as far as the server names them. */
  readonly versions: readonly string[];
}

export const nothingWritten: Written = {
  created: 0,
  updated: 0,
  deleted: 0,
  found: 0,
  transactions: 0,
  versions: [],
};

/** Adds up. */
export function plus(a: Written, b: Written): Written {
  return {
    created: a.created + b.created,
    updated: a.updated + b.updated,
    deleted: a.deleted + b.deleted,
    found: a.found + b.found,
    transactions: a.transactions + b.transactions,
    versions: [...a.versions, ...b.versions],
  };
}

/**
 * Writes differences, each as one transaction where the server takes it.
 *
 * Some servers refuse large transactions, with limits that they don’t publish. A transaction that is refused is sent
 * in halves; entries that refer to each other stay together. That is safe because every entry is conditional and what
 * is missing is written the next time. What is refused even alone is reported after the rest is written, so that one
 * bad entry does not hold up the care of the others.
 */
export class DifferenceWriter {
  readonly #server: FhirServer;
  #maxEntries: number;

  constructor(server: FhirServer, maxEntries: number) {
    this.#server = server;
    this.#maxEntries = maxEntries;
  }

  /** Most entries sent at once: as set, or fewer where the server was found to refuse so many. */
  get maxEntries(): number {
    return this.#maxEntries;
  }

  /**
   * Writes the bundle.
   * @param onWritten told after every transaction what it did, also where a later one fails.
   * @throws FhirServerError the first that could not be overcome.
   */
  async write(bundle: Bundle, onWritten: (written: Written) => void): Promise<void> {
    const waiting = inParts(groups(bundle.entry ?? []), this.#server.writesOneByOne ? 1 : this.#maxEntries);
    let refused: FhirServerError | undefined;
    let halved = false;
    let largest = 0;
    for (let part = waiting.shift(); part !== undefined; part = waiting.shift()) {
      const entry = part.flat();
      try {
        const response = await this.#server.transaction({ ...bundle, entry });
        onWritten(tally(entry, response.entry ?? []));
        largest = Math.max(largest, entry.length);
      } catch (error) {
        if (error instanceof FhirServerError && error.code === 'no-transactions') {
          waiting.unshift(...inParts(part, 1));
          continue;
        }
        if (!isRefusal(error)) throw error;
        if (part.length === 1) {
          refused ??= error;
          continue;
        }
        halved = true;
        const middle = Math.ceil(part.length / 2);
        waiting.unshift(part.slice(0, middle), part.slice(middle));
      }
    }
    if (refused !== undefined) throw refused;
    // Everything went through, only not at once: the server has a limit.
    if (halved) this.#maxEntries = largest;
  }
}

type Group = readonly BundleEntry[];

/** 400, 413 and 422 are how servers say both “too many” and “this one is wrong”. */
function isRefusal(error: unknown): error is FhirServerError {
  return error instanceof FhirServerError && [400, 413, 422].includes(error.status ?? 0);
}

/** Entries that refer to each other, a Task and its Provenance for example, together, in the order of their first. */
export function groups(entries: readonly BundleEntry[]): Group[] {
  const home = entries.map((_, index) => index);
  const root = (index: number): number => {
    const parent = home[index] ?? index;
    return parent === index ? index : root(parent);
  };
  const byUrl = new Map<string, number>();
  for (const [index, { fullUrl, request }] of entries.entries()) {
    if (fullUrl !== undefined) byUrl.set(fullUrl, index);
    if (request?.method === 'PUT') byUrl.set(request.url, index);
  }
  for (const [index, { resource }] of entries.entries()) {
    for (const reference of referencesIn(resource)) {
      const target = byUrl.get(reference);
      if (target === undefined) continue;
      const [low, high] = [root(index), root(target)].sort((a, b) => a - b) as [number, number];
      home[high] = low;
    }
  }
  const byRoot = new Map<number, BundleEntry[]>();
  for (const [index, entry] of entries.entries()) {
    const group = byRoot.get(root(index));
    if (group === undefined) byRoot.set(root(index), [entry]);
    else group.push(entry);
  }
  return [...byRoot.values()];
}

function inParts(all: readonly Group[], maxEntries: number): Group[][] {
  const parts: Group[][] = [];
  let size = Infinity;
  for (const group of all) {
    if (size + group.length > maxEntries) {
      parts.push([]);
      size = 0;
    }
    parts.at(-1)?.push(group);
    size += group.length;
  }
  return parts;
}

function referencesIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === 'reference' && typeof inner === 'string' ? [inner] : referencesIn(inner),
  );
}

function tally(sent: readonly BundleEntry[], answers: readonly BundleEntry[]): Written {
  let written: Written = { ...nothingWritten, transactions: 1 };
  for (const [index, { request }] of sent.entries()) {
    const answer = answers[index];
    const made = answer?.response?.status?.startsWith('201') ?? false;
    const method = request?.method;
    if (method === 'DELETE') written = { ...written, deleted: written.deleted + 1 };
    else if (made) written = { ...written, created: written.created + 1 };
    else if (method === 'POST') written = { ...written, found: written.found + 1 };
    else written = { ...written, updated: written.updated + 1 };
    const key = answer === undefined ? undefined : writtenVersion(answer);
    if (key !== undefined && method !== 'DELETE')
      written = { ...written, versions: [...written.versions, key] };
  }
  return written;
}

/** Which version an entry of the response stands for: by its resource, or by location and ETag. */
function writtenVersion({ resource, response }: BundleEntry): string | undefined {
  if (resource?.id !== undefined && resource.meta?.versionId !== undefined) return versionKey(resource);
  const at = /([A-Za-z]+)\/([A-Za-z0-9\-.]{1,64})(?:\/_history\/([A-Za-z0-9\-.]{1,64}))?$/.exec(
    response?.location ?? '',
  );
  const version = at?.[3] ?? /"([^"]+)"/.exec(response?.etag ?? '')?.[1];
  if (at === null || version === undefined) return undefined;
  return `${at[1]}/${at[2]}/${version}`;
}
