import type { Bundle, BundleEntry, Resource } from 'fhir/r4.js';
import { realMachine, type Machine } from '../machine.js';
import { makeCaller, type Caller } from './call.js';
import { FhirServerError } from './errors.js';
import { isSparable, Lacking, saysItLacks } from './lacking.js';
import { withRetry, type RetryLimits } from './retry.js';
import { checkTransactionResponse, isRepeatable } from './transaction.js';
import { nextPageUrl, serviceBase } from './urls.js';

/** Search parameters by name; several values of one name are joined by and. */
export type SearchParams = Readonly<Record<string, string | readonly string[]>>;

/** One resource of a search, with the URL that it stands for. */
export interface Found {
  readonly resource: Resource;
  readonly fullUrl?: string;
}

export interface FhirServerOptions {
  /** Service base, for example `https://fhir.example/r4`. */
  readonly baseUrl: string;
  /** Sent to the service base and nowhere else; never logged. */
  readonly bearerToken?: string | undefined;
  /** Time limit of one call, milliseconds; 30,000 when absent. Too short: a slow server is never read. */
  readonly timeLimitMs?: number;
  /** Resources asked for per page; 200 when absent. */
  readonly pageSize?: number;
  /** Pages read of one search before it fails; 1,000 when absent. It fails loudly: half a record would be wrong care. */
  readonly maxPages?: number;
  /** 4 tries, 500 ms first wait, 60,000 ms longest wait when absent. */
  readonly retry?: Partial<RetryLimits>;
  readonly machine?: Machine;
  /** Ends running and waiting calls. */
  readonly stop?: AbortSignal;
  /** What the server does not have of the types beside the Tasks; found out where it is absent. */
  readonly lacking?: Lacking;
}

/** A FHIR R4 server as the adapter uses it. Every failure is a {@link FhirServerError}. */
export class FhirServer {
  readonly baseUrl: string;
  /** What the server does not have of the types beside the Tasks. */
  readonly lacking: Lacking;
  readonly #call: Caller;
  readonly #machine: Machine;
  readonly #retry: RetryLimits;
  readonly #pageSize: number;
  readonly #maxPages: number;
  readonly #stop: AbortSignal | undefined;
  #clockSkewMs = 0;

  /** @throws TypeError where `baseUrl` is not a plain http or https URL. */
  constructor(options: FhirServerOptions) {
    this.baseUrl = serviceBase(options.baseUrl);
    this.#machine = options.machine ?? realMachine;
    this.#retry = { maxAttempts: 4, firstWaitMs: 500, maxWaitMs: 60_000, ...options.retry };
    this.#pageSize = options.pageSize ?? 200;
    this.#maxPages = options.maxPages ?? 1_000;
    this.#stop = options.stop;
    this.lacking = options.lacking ?? new Lacking();
    this.#call = makeCaller({
      baseUrl: this.baseUrl,
      bearerToken: options.bearerToken,
      timeLimitMs: options.timeLimitMs ?? 30_000,
      machine: this.#machine,
      stop: options.stop,
      onServerTime: (serverMs) => (this.#clockSkewMs = serverMs - this.#machine.now()),
    });
  }

  /** By how much the server’s clock is ahead of this machine’s, to about a second; 0 until it has answered. */
  get clockSkewMs(): number {
    return this.#clockSkewMs;
  }

  /**
   * Every match of a search, page after page, until there is no next link; `total` is not looked at. The same resource
   * can come twice where the server’s pages shift while they are read.
   * Next links are followed below the service base only, each once, up to the page cap.
   */
  async *searchAll(resourceType: string, params: SearchParams): AsyncGenerator<Found, void, undefined> {
    if (this.lacking.has(resourceType)) return;
    let url = this.#searchUrl(resourceType, params);
    const seen = new Set<string>([url]);
    for (let page = 1; ; page++) {
      const bundle = await this.#page(resourceType, url).catch((error: unknown) =>
        this.#nothingWhereLacking(resourceType, error),
      );
      for (const entry of bundle.entry ?? []) {
        const found = foundIn(entry);
        if (found !== undefined) yield found;
      }
      const link = bundle.link?.find(({ relation }) => relation === 'next')?.url;
      if (link === undefined) return;
      const at = { method: 'GET', resourceType, url } as const;
      const next = nextPageUrl(this.baseUrl, url, link);
      if (next === undefined) {
        throw new FhirServerError('foreign-next-link', {
          ...at,
          detail: `the next link leads out of ${this.baseUrl}`,
        });
      }
      if (seen.has(next))
        throw new FhirServerError('next-link-loop', { ...at, detail: `page ${page} leads back` });
      if (page >= this.#maxPages) {
        throw new FhirServerError('too-many-pages', { ...at, detail: `more than ${this.#maxPages} pages` });
      }
      seen.add(next);
      url = next;
    }
  }

  /** One resource, or undefined where there is none (404) or no longer (410). */
  async read(resourceType: string, id: string): Promise<Resource | undefined> {
    const url = `${this.baseUrl}/${encodeURIComponent(resourceType)}/${encodeURIComponent(id)}`;
    let body: unknown;
    try {
      body = await this.#get(resourceType, url);
    } catch (error) {
      if (error instanceof FhirServerError && (error.status === 404 || error.status === 410))
        return undefined;
      throw error;
    }
    if (typeOf(body) !== resourceType) throw this.#notFhir(resourceType, url, resourceType, body);
    return body as Resource;
  }

  /**
   * Sends a transaction (or batch) and gives its response, with one answer per entry, all of them 2xx.
   * Is tried again only where the server says that it did nothing (429, 503) and every entry is conditional. After
   * anything else that leaves the outcome open the error’s `writeUnknown` is true: read again before writing again.
   */
  async transaction(bundle: Bundle): Promise<Bundle> {
    const url = this.baseUrl;
    const repeatable = isRepeatable(bundle);
    const body = await withRetry(
      () =>
        this.#call({
          method: 'POST',
          url,
          resourceType: 'Bundle',
          body: bundle,
          headers: { prefer: 'return=minimal' },
        }),
      (error) => repeatable && error.code === 'throttled',
      this.#retry,
      this.#machine,
      this.#stop,
    );
    return checkTransactionResponse(bundle, body, url);
  }

  /** A type beside the Tasks that the server refuses to search it does not have. @throws any other error. */
  #nothingWhereLacking(type: string, error: unknown): Bundle {
    if (!isSparable(type) || !saysItLacks(error)) throw error;
    this.lacking.learn({ type, because: 'refused', detail: error.message });
    return { resourceType: 'Bundle', type: 'searchset' };
  }

  async #page(resourceType: string, url: string): Promise<Bundle> {
    const body = await this.#get(resourceType, url);
    if (typeOf(body) !== 'Bundle') throw this.#notFhir(resourceType, url, 'Bundle', body);
    return body as Bundle;
  }

  #get(resourceType: string, url: string): Promise<unknown> {
    return withRetry(
      // Strict: a server that does not know a parameter shall say so instead of answering a wider question.
      () => this.#call({ method: 'GET', url, resourceType, headers: { prefer: 'handling=strict' } }),
      mayGetAgain,
      this.#retry,
      this.#machine,
      this.#stop,
    );
  }

  #searchUrl(resourceType: string, params: SearchParams): string {
    const query = new URLSearchParams();
    for (const [name, value] of Object.entries(params)) {
      for (const one of typeof value === 'string' ? [value] : value) query.append(name, one);
    }
    if (!query.has('_count')) query.append('_count', String(this.#pageSize));
    return new URL(`${this.baseUrl}/${encodeURIComponent(resourceType)}?${query}`).href;
  }

  #notFhir(resourceType: string, url: string, wanted: string, body: unknown): FhirServerError {
    const detail = `expected a ${wanted}, got ${typeOf(body) ?? 'something that is not a resource'}`;
    return new FhirServerError('not-fhir', { method: 'GET', resourceType, url, detail });
  }
}

/** A read can be repeated whenever the failure may pass. */
function mayGetAgain(error: FhirServerError): boolean {
  if (error.code === 'server-failed') return error.status === 502 || error.status === 504;
  return error.code === 'throttled' || error.code === 'unreachable' || error.code === 'timed-out';
}

/** The resource of an entry; undefined for the search’s own messages and for entries without one. */
function foundIn(entry: BundleEntry): Found | undefined {
  const { resource, fullUrl, search } = entry;
  if (resource === undefined || resource === null || search?.mode === 'outcome') return undefined;
  return fullUrl === undefined ? { resource } : { resource, fullUrl };
}

function typeOf(body: unknown): string | undefined {
  const type =
    typeof body === 'object' && body !== null ? (body as { resourceType?: unknown }).resourceType : undefined;
  return typeof type === 'string' ? type : undefined;
}
