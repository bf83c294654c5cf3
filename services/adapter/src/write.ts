import { codeSystem } from '@dwellward/profiles';
import type { Bundle, BundleEntry, Task } from 'fhir/r4.js';
import { FhirServerError, isSparable, saysItLacks, type FhirServer } from './fhir-server/index.js';
import { versionKey } from './version-key.js';

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
  /** What conditional creates found: `Task/12`, as far as the server names it. */
  readonly matches: readonly string[];
}

/** Where differences go. */
export interface Writer {
  /** @param onWritten told after every transaction what it did. */
  write(bundle: Bundle, onWritten: (written: Written) => void): Promise<void>;
}

export const nothingWritten: Written = {
  created: 0,
  updated: 0,
  deleted: 0,
  found: 0,
  transactions: 0,
  versions: [],
  matches: [],
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
    matches: [...a.matches, ...b.matches],
  };
}

/**
 * Writes differences, each as one transaction where the server takes it.
 *
 * Some servers refuse large transactions, with limits that they don’t publish. A transaction that is refused is sent
 * in halves; what belongs together stays together: entries that refer to each other, and the Tasks of one care, so that
 * none is closed without its successor. That is safe because every entry is conditional and what is missing is written
 * the next time. What is refused even alone is reported after the rest is written, so that one bad entry does not hold up
 * the care of the others.
 *
 * Tasks come first: what is refused together with Provenances, Flags and DetectedIssues is sent without them, and these
 * after it, by type. A type of which the server takes none is left out from then on.
 */
export class DifferenceWriter implements Writer {
  readonly #server: FhirServer;
  #maxEntries: number;
  /** Types of which the server has taken some. */
  readonly #taken = new Set<string>();

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
    const { lacking, writesOneByOne } = this.#server;
    const wanted = (bundle.entry ?? []).filter((entry) => !lacking.has(typeOf(entry)));
    const waiting = inParts(groups(wanted), writesOneByOne ? 1 : this.#maxEntries);
    const became = new Map<string, string>();
    const refusals = new Map<string, FhirServerError>();
    let refused: FhirServerError | undefined;
    let halved = false;
    let largest = 0;
    for (let part = waiting.shift(); part !== undefined; part = waiting.shift()) {
      const entry = pointTo(part.flat(), became);
      if (entry.length === 0) continue;
      try {
        const response = await this.#server.transaction({ ...bundle, entry });
        onWritten(tally(entry, response.entry ?? []));
        largest = Math.max(largest, entry.length);
        remember(entry, response.entry ?? [], became);
        for (const one of entry) this.#taken.add(typeOf(one));
      } catch (error) {
        if (error instanceof FhirServerError && error.code === 'no-transactions') {
          waiting.unshift(...inParts(part, 1));
          continue;
        }
        if (!isRefusal(error)) throw error;
        const apart = isTooLarge(error) ? undefined : withoutSparable(part);
        if (apart !== undefined) waiting.unshift(...apart);
        else if (part.length > 1) {
          halved = true;
          const middle = Math.ceil(part.length / 2);
          waiting.unshift(part.slice(0, middle), part.slice(middle));
        } else if (entry.every((one) => isSparable(typeOf(one))) && !isTooLarge(error))
          refusals.set(typeOf(entry[0] as BundleEntry), error);
        else refused ??= error;
      }
    }
    for (const [type, error] of refusals) {
      // One of a type that the server takes is itself wrong.
      if (this.#taken.has(type) || !isSparable(type)) refused ??= error;
      else lacking.learn({ type, because: 'refused', detail: error.message });
    }
    if (refused !== undefined) throw refused;
    // Everything went through, only not at once: the server has a limit.
    if (halved && refusals.size === 0) this.#maxEntries = largest;
  }
}

type Group = readonly BundleEntry[];

/** How servers refuse what they were sent: 400 and 422 say both “too many” and “this one is wrong”. */
function isRefusal(error: unknown): error is FhirServerError {
  return error instanceof FhirServerError && (saysItLacks(error) || isTooLarge(error));
}

/** Refused for its size alone. */
function isTooLarge({ status, outcome }: FhirServerError): boolean {
  const issues = Array.isArray(outcome?.issue) ? outcome.issue : [];
  return status === 413 || issues.some((issue) => ['too-long', 'too-costly'].includes(issue?.code ?? ''));
}

function typeOf({ resource, request }: BundleEntry): string {
  return resource?.resourceType ?? request?.url.split(/[/?]/)[0] ?? '';
}

/** What can’t be spared of a part, and then the rest of it by type; undefined where there is nothing to set apart. */
function withoutSparable(part: readonly Group[]): Group[][] | undefined {
  const spared = part.flat().filter((entry) => isSparable(typeOf(entry)));
  const types = [...new Set(part.flat().map(typeOf))];
  if (spared.length === 0 || types.length === 1) return undefined;
  const core = part
    .map((group) => group.filter((entry) => !spared.includes(entry)))
    .filter((group) => group.length > 0);
  const byType = types.map((type) =>
    spared.filter((entry) => typeOf(entry) === type).map((entry) => [entry]),
  );
  return [core, ...byType].filter((groups) => groups.length > 0);
}

/** References to what was written in an earlier part lead to it; an entry whose subject was not written is left out. */
function pointTo(entries: readonly BundleEntry[], became: ReadonlyMap<string, string>): BundleEntry[] {
  const here = new Set(entries.map(({ fullUrl }) => fullUrl));
  return entries.flatMap((entry) => {
    const outside = referencesIn(entry.resource).filter(
      (one) => one.startsWith('urn:uuid:') && !here.has(one),
    );
    if (outside.length === 0) return [entry];
    if (outside.some((one) => !became.has(one))) return [];
    const text = JSON.stringify(entry, (key, value: unknown) =>
      key === 'reference' && typeof value === 'string' ? (became.get(value) ?? value) : value,
    );
    return [JSON.parse(text) as BundleEntry];
  });
}

function remember(
  sent: readonly BundleEntry[],
  answers: readonly BundleEntry[],
  became: Map<string, string>,
): void {
  for (const [index, { fullUrl }] of sent.entries()) {
    const answer = answers[index];
    const name = answer && nameIn(answer);
    if (fullUrl !== undefined && name !== undefined) became.set(fullUrl, name);
  }
}

/** `Task/12`, by the resource that came back or by where it is said to be. */
function nameIn(answer: BundleEntry): string | undefined {
  const { resource } = answer;
  if (resource?.id !== undefined) return `${resource.resourceType}/${resource.id}`;
  const at = placeIn(answer);
  return at && `${at[1]}/${at[2]}`;
}

/**
 * What belongs together, in the order of its first: entries that refer to each other, a Task and its Provenance for
 * example, and the Tasks of one activity on one line or lumen, of which one may take the place of another.
 */
export function groups(entries: readonly BundleEntry[]): Group[] {
  const home = entries.map((_, index) => index);
  const root = (index: number): number => {
    const parent = home[index] ?? index;
    return parent === index ? index : root(parent);
  };
  const tie = (a: number, b: number) => {
    const [low, high] = [root(a), root(b)].sort((one, other) => one - other) as [number, number];
    home[high] = low;
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
      tie(index, target);
    }
  }
  const byCare = new Map<string, number>();
  for (const [index, { resource }] of entries.entries()) {
    const care = resource?.resourceType === 'Task' ? careOf(resource as Task) : undefined;
    if (care === undefined) continue;
    const first = byCare.get(care);
    if (first === undefined) byCare.set(care, index);
    else tie(index, first);
  }
  const byRoot = new Map<number, BundleEntry[]>();
  for (const [index, entry] of entries.entries()) {
    const group = byRoot.get(root(index));
    if (group === undefined) byRoot.set(root(index), [entry]);
    else group.push(entry);
  }
  return [...byRoot.values()];
}

/** What a Task is about and asks for. */
function careOf({ focus, code }: Task): string | undefined {
  const activity = code?.coding?.find(({ system }) => system === codeSystem.lineCareActivity)?.code;
  return focus?.reference === undefined || activity === undefined
    ? undefined
    : `${focus.reference} ${activity}`;
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
    else if (method === 'POST') {
      const name = answer && nameIn(answer);
      const matches = name === undefined ? written.matches : [...written.matches, name];
      written = { ...written, found: written.found + 1, matches };
    } else written = { ...written, updated: written.updated + 1 };
    const key = answer === undefined ? undefined : writtenVersion(answer);
    if (key !== undefined && method !== 'DELETE')
      written = { ...written, versions: [...written.versions, key] };
  }
  return written;
}

/** Which version an entry of the response stands for: by its resource, or by location and ETag. */
function writtenVersion({ resource, response }: BundleEntry): string | undefined {
  if (resource?.id !== undefined && resource.meta?.versionId !== undefined) return versionKey(resource);
  const at = placeIn({ ...(response ? { response } : {}) });
  const version = at?.[3] ?? /"([^"]+)"/.exec(response?.etag ?? '')?.[1];
  if (at === undefined || version === undefined) return undefined;
  return `${at[1]}/${at[2]}/${version}`;
}

/** Type, id and version in the location of an answer. */
function placeIn({ response }: BundleEntry): RegExpExecArray | undefined {
  return (
    /([A-Za-z]+)\/([A-Za-z0-9\-.]{1,64})(?:\/_history\/([A-Za-z0-9\-.]{1,64}))?$/.exec(
      response?.location ?? '',
    ) ?? undefined
  );
}
