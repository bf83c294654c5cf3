import type { Bundle, CapabilityStatement, Resource } from 'fhir/r4.js';
import { lasting, type Authorization } from '../auth/authorization.js';
import { realMachine, type Machine } from '../machine.js';
import { makeCaller, type Call, type Caller, type Reply } from './call.js';
import { answersOf, batchOf, nothingFetched, readsPerBatch, type Fetched } from './batch.js';
import { readCapabilities, type Capabilities } from './capabilities.js';
import type { Doubt } from './doubts.js';
import { FhirServerError } from './errors.js';
import { Gate } from './gate.js';
import { isSparable, Lacking, saysItLacks, sparableTypes } from './lacking.js';
import { writeOneByOne } from './one-by-one.js';
import { pagesOf, type Found } from './paging.js';
import { withRetry, type RetryLimits } from './retry.js';
import { checkTransactionResponse, isRepeatable, refusesTransactions } from './transaction.js';
import { serviceBase } from './urls.js';

/** Search parameters by name; several values of one name are joined by and. */
export type SearchParams = Readonly<Record<string, string | readonly string[]>>;

export interface FhirServerOptions {
  /** Service base, for example `https://fhir.example/r4`. */
  readonly baseUrl: string;
  /** Sent to the service base and nowhere else; never logged. */
  readonly bearerToken?: string | undefined;
  /** Where tokens come from that don't last; instead of `bearerToken`. */
  readonly authorization?: Authorization;
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
  /** Whether several reads may go in one batch where the server lists batches or transactions; true when absent. */
  readonly batches?: boolean;
}

/** So many batches that fail one after another, and none is sent any more. */
const failedBatchesInARow = 3;

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
  readonly #gate: Gate;
  #clockSkewMs = 0;
  #transactions: 'unknown' | 'stated' | 'not-stated' | 'refused' = 'unknown';
  #batchesFailed = 0;
  #batches: 'unknown' | 'stated' | 'refused' = 'unknown';
  #timedOut = 0;

  /** @throws TypeError where `baseUrl` is not a plain http or https URL. */
  constructor(options: FhirServerOptions) {
    this.baseUrl = serviceBase(options.baseUrl);
    this.#machine = options.machine ?? realMachine;
    this.#retry = { maxAttempts: 4, firstWaitMs: 500, maxWaitMs: 60_000, ...options.retry };
    this.#pageSize = options.pageSize ?? 200;
    this.#maxPages = options.maxPages ?? 1_000;
    this.#stop = options.stop;
    this.lacking = options.lacking ?? new Lacking();
    if (options.batches === false) this.#batches = 'refused';
    this.#gate = new Gate(this.#machine);
    const caller = makeCaller({
      baseUrl: this.baseUrl,
      authorization: options.authorization ?? lasting(options.bearerToken),
      timeLimitMs: options.timeLimitMs ?? 30_000,
      machine: this.#machine,
      stop: options.stop,
      onServerTime: (serverMs) => (this.#clockSkewMs = serverMs - this.#machine.now()),
    });
    this.#call = (call) => this.#throughGate(call, caller);
  }

  /** By how much the server’s clock is ahead of this machine’s, to about a second; 0 until it has answered. */
  get clockSkewMs(): number {
    return this.#clockSkewMs;
  }

  /** For how long the server has asked to be left alone, milliseconds; 0 where it has not. */
  get closedForMs(): number {
    return this.#gate.closedForMs;
  }

  /** True once the server has refused a transaction as such: entries are then written one by one. */
  get writesOneByOne(): boolean {
    return this.#transactions === 'refused';
  }

  /** Calls that got no answer within the time limit, since the start. */
  get timedOut(): number {
    return this.#timedOut;
  }

  /** How the server describes itself; undefined where it does not (404, 410). @throws FhirServerError */
  async describe(): Promise<CapabilityStatement | undefined> {
    const url = `${this.baseUrl}/metadata`;
    const body = await this.#getIfThere('CapabilityStatement', url);
    if (body === undefined || body === 'deleted') return undefined;
    if (typeOf(body) !== 'CapabilityStatement')
      throw this.#notFhir('CapabilityStatement', url, 'CapabilityStatement', body);
    return body as CapabilityStatement;
  }

  /** What the adapter makes of that, and goes by from then on. @throws FhirServerError */
  async capabilities(): Promise<Capabilities | undefined> {
    const statement = await this.describe();
    if (statement === undefined) return undefined;
    const capabilities = readCapabilities(statement);
    if (this.#transactions !== 'refused' && capabilities.transactions !== undefined)
      this.#transactions = capabilities.transactions ? 'stated' : 'not-stated';
    if (this.#batches === 'unknown' && capabilities.batches) this.#batches = 'stated';
    for (const type of sparableTypes.filter((one) => capabilities.types?.has(one) === false))
      this.lacking.learn({ type, because: 'not-listed', detail: 'its CapabilityStatement does not list it' });
    return capabilities;
  }

  /**
   * Every match of a search, page after page, until there is no next link. The same resource can come twice where the
   * server’s pages shift while they are read.
   * Next links are followed below the service base only, each once, up to the page cap, and only while they bring
   * something new.
   * @param hear told what the server says of its answer, and where `total` names more than came.
   * @param fetched what {@link fetchAhead} gave: a first page that is among it is not asked for again.
   */
  searchAll(
    resourceType: string,
    params: SearchParams,
    hear: (doubt: Doubt) => void = () => undefined,
    fetched: Fetched = nothingFetched,
  ): AsyncGenerator<Found, void, undefined> {
    return pagesOf({
      baseUrl: this.baseUrl,
      resourceType,
      firstUrl: this.searchUrl(resourceType, params),
      maxPages: this.#maxPages,
      page: async (url) =>
        (fetched.get(url) as Bundle | undefined) ?? this.#pageUnlessLacking(resourceType, url),
      hear,
    });
  }

  /**
   * Makes several reads in one call, where the server takes batches. What it does not answer is left out, and
   * {@link searchAll} and {@link read} then ask for it themselves: a server without batches costs more calls, and
   * gives the same.
   * @param urls as {@link searchUrl} and {@link readUrl} give them.
   * @throws FhirServerError where the server can’t be asked now.
   */
  async fetchAhead(urls: readonly string[]): Promise<Fetched> {
    const asked = urls.filter(
      (url) => !this.lacking.has(url.slice(this.baseUrl.length + 1).split(/[/?]/)[0] ?? ''),
    );
    if (this.#batches !== 'stated' || asked.length < 2) return nothingFetched;
    const fetched = new Map<string, unknown>();
    for (let from = 0; from < asked.length; from += readsPerBatch) {
      const some = asked.slice(from, from + readsPerBatch);
      for (const [url, body] of await this.#batch(some)) fetched.set(url, body);
    }
    return fetched;
  }

  /** One resource; undefined where there is none (404), `deleted` where the server says that there was one (410). */
  async find(resourceType: string, id: string): Promise<Resource | 'deleted' | undefined> {
    const url = this.readUrl(resourceType, id);
    const body = await this.#getIfThere(resourceType, url);
    if (body === undefined || body === 'deleted') return body;
    if (typeOf(body) !== resourceType) throw this.#notFhir(resourceType, url, resourceType, body);
    return body as Resource;
  }

  /** One resource, or undefined where there is none (404) or no longer (410). */
  async read(
    resourceType: string,
    id: string,
    fetched: Fetched = nothingFetched,
  ): Promise<Resource | undefined> {
    const ahead = fetched.get(this.readUrl(resourceType, id));
    if (ahead !== undefined) return ahead as Resource;
    const found = await this.find(resourceType, id);
    return found === 'deleted' ? undefined : found;
  }

  /**
   * Sends a transaction (or batch) and gives its response, with one answer per entry, all of them 2xx.
   * Is tried again only where the server says that it did nothing (429, 503) and every entry is conditional. After
   * anything else that leaves the outcome open the error’s `writeUnknown` is true: read again before writing again.
   * A server that refuses transactions as such is remembered: the first fails with `no-transactions`, and from then on
   * the entries are written one by one.
   */
  async transaction(bundle: Bundle): Promise<Bundle> {
    const url = this.baseUrl;
    if (this.writesOneByOne) {
      const response = await writeOneByOne(bundle, url, (call) => this.#write(call, isRepeatable(bundle)));
      return checkTransactionResponse(bundle, response, url);
    }
    const call = { method: 'POST', url, resourceType: 'Bundle', body: bundle } as const;
    try {
      const reply = await this.#write(
        { ...call, headers: { prefer: 'return=minimal' } },
        isRepeatable(bundle),
      );
      return checkTransactionResponse(bundle, reply.body, url);
    } catch (error) {
      if (!refusesTransactions(error, this.#transactions === 'not-stated')) throw error;
      this.#transactions = 'refused';
      throw new FhirServerError('no-transactions', { ...call, cause: error });
    }
  }

  /** A batch of reads changes nothing: it may be repeated as a read may. */
  async #batch(urls: readonly string[]): Promise<Fetched> {
    const body = batchOf(urls, this.baseUrl);
    // Without no-cache a server may answer the searches inside from what it gave before.
    const headers = { prefer: 'handling=strict', 'cache-control': 'no-cache' };
    const call = { method: 'POST', url: this.baseUrl, resourceType: 'Bundle', body, headers } as const;
    try {
      const reply = await withRetry(
        () => this.#call(call),
        mayGetAgain,
        this.#retry,
        this.#machine,
        this.#stop,
      );
      this.#batchesFailed = 0;
      return answersOf(urls, reply.body);
    } catch (error) {
      if (!(error instanceof FhirServerError)) throw error;
      // Too much for one call, or not to be had so at all: each alone may do.
      const spoiled = ['timed-out', 'server-failed', 'not-fhir', 'conflict'].includes(error.code);
      if (error.code !== 'refused' && !spoiled) throw error;
      this.#batchesFailed += 1;
      if (error.code === 'refused' || this.#batchesFailed >= failedBatchesInARow) this.#batches = 'refused';
      return nothingFetched;
    }
  }

  #write(call: Call, repeatable: boolean): Promise<Reply> {
    return withRetry(
      () => this.#call(call),
      (error) => repeatable && error.code === 'throttled',
      this.#retry,
      this.#machine,
      this.#stop,
    );
  }

  async #throughGate(call: Call, caller: Caller): Promise<Reply> {
    const closedForMs = this.#gate.closedForMs;
    if (closedForMs > this.#retry.maxWaitMs) {
      const detail = 'the server has asked to be left alone, and is';
      throw new FhirServerError('throttled', { ...call, retryAfterMs: closedForMs, detail });
    }
    await this.#gate.pass(this.#stop);
    try {
      return await caller(call);
    } catch (error) {
      if (error instanceof FhirServerError) {
        if (error.code === 'throttled' && error.retryAfterMs !== undefined)
          this.#gate.close(error.retryAfterMs);
        if (error.code === 'timed-out') this.#timedOut += 1;
      }
      throw error;
    }
  }

  /** Nothing of a type beside the Tasks that the server does not have. @throws any other error. */
  async #pageUnlessLacking(type: string, url: string): Promise<Bundle> {
    const nothing = { resourceType: 'Bundle', type: 'searchset' } as const;
    if (this.lacking.has(type)) return nothing;
    try {
      return await this.#page(type, url);
    } catch (error) {
      if (!isSparable(type) || !saysItLacks(error)) throw error;
      this.lacking.learn({ type, because: 'refused', detail: error.message });
      return nothing;
    }
  }

  async #page(resourceType: string, url: string): Promise<Bundle> {
    const body = await this.#get(resourceType, url);
    if (typeOf(body) !== 'Bundle') throw this.#notFhir(resourceType, url, 'Bundle', body);
    return body as Bundle;
  }

  async #get(resourceType: string, url: string): Promise<unknown> {
    const { body } = await withRetry(
      // Strict: a server that does not know a parameter shall say so instead of answering a wider question.
      () => this.#call({ method: 'GET', url, resourceType, headers: { prefer: 'handling=strict' } }),
      mayGetAgain,
      this.#retry,
      this.#machine,
      this.#stop,
    );
    return body;
  }

  /** @returns undefined for 404, `deleted` for 410. */
  async #getIfThere(resourceType: string, url: string): Promise<unknown> {
    try {
      return await this.#get(resourceType, url);
    } catch (error) {
      if (error instanceof FhirServerError && error.status === 410) return 'deleted';
      if (error instanceof FhirServerError && error.status === 404) return undefined;
      throw error;
    }
  }

  /** Where a search begins. */
  searchUrl(resourceType: string, params: SearchParams): string {
    const query = new URLSearchParams();
    for (const [name, value] of Object.entries(params)) {
      for (const one of typeof value === 'string' ? [value] : value) query.append(name, one);
    }
    if (!query.has('_count')) query.append('_count', String(this.#pageSize));
    return new URL(`${this.baseUrl}/${encodeURIComponent(resourceType)}?${query}`).href;
  }

  /** Where a resource is read. */
  readUrl(resourceType: string, id: string): string {
    return `${this.baseUrl}/${encodeURIComponent(resourceType)}/${encodeURIComponent(id)}`;
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

function typeOf(body: unknown): string | undefined {
  const type =
    typeof body === 'object' && body !== null ? (body as { resourceType?: unknown }).resourceType : undefined;
  return typeof type === 'string' ? type : undefined;
}
