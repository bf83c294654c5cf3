import type { OperationOutcome } from 'fhir/r4.js';
import { Client } from 'fhir-kit-client';
import { NoToken, type Authorization } from '../auth/authorization.js';
import type { Machine } from '../machine.js';
import { FhirServerError, type FhirServerErrorCode, type Method } from './errors.js';
import { retryAfterMs } from './retry.js';

/** One request, before retries and paging. */
export interface Call {
  readonly method: Method;
  /** Absolute, below the service base. */
  readonly url: string;
  readonly resourceType: string;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

/** A 2xx answer. */
export interface Reply {
  readonly status: number;
  /** Parsed JSON; an empty object where there was no body. */
  readonly body: unknown;
  readonly location?: string;
  readonly etag?: string;
}

/** Makes one call. */
export type Caller = (call: Call) => Promise<Reply>;

export interface CallerOptions {
  readonly baseUrl: string;
  readonly authorization: Authorization;
  /** Time limit of one call with its body, milliseconds. */
  readonly timeLimitMs: number;
  readonly machine: Machine;
  readonly stop?: AbortSignal | undefined;
  /** Told the server’s Date header of every answer, milliseconds since 1970. */
  readonly onServerTime?: (serverMs: number) => void;
}

/** The one place that talks to fhir-kit-client. Its errors become {@link FhirServerError}s. */
export function makeCaller(options: CallerOptions): Caller {
  const { authorization, stop } = options;
  const once = callsWithToken(options);
  return async (call) => {
    try {
      const token = await authorization.token();
      try {
        return await once(call, token);
      } catch (error) {
        if (!(error instanceof FhirServerError) || error.status !== 401 || token === undefined) throw error;
        // Whoever is not let in has not written anything: with another token even a write may be sent again.
        const another = await authorization.another(token);
        if (another === undefined) throw error;
        return await once(call, another);
      }
    } catch (error) {
      if (!(error instanceof NoToken)) throw error;
      const { method, resourceType, url } = call;
      const code = stop?.aborted ? 'stopped' : 'no-token';
      throw new FhirServerError(code, { method, resourceType, url, detail: error.message, cause: error });
    }
  };
}

/** One try, with the token that is given. */
function callsWithToken(options: CallerOptions): (call: Call, token: string | undefined) => Promise<Reply> {
  const { baseUrl, timeLimitMs, machine, stop } = options;
  const client = new Client({ baseUrl });

  // One listener for all calls: on Node 20 everything that `AbortSignal.any` makes from a lasting signal stays in memory.
  const running = new Set<AbortController>();
  stop?.addEventListener('abort', () => running.forEach((controller) => controller.abort()), { once: true });

  return async (call, token) => {
    const { method, url, resourceType } = call;
    const limit = machine.timeLimit(timeLimitMs);
    const controller = new AbortController();
    const abort = () => controller.abort();
    if (limit.aborted || stop?.aborted) abort();
    limit.addEventListener('abort', abort, { once: true });
    running.add(controller);
    const headers: Record<string, string> = {
      // Some servers answer a search that they have seen from a cache: the old state would be taken for the present.
      ...(method === 'GET' ? { 'cache-control': 'no-cache' } : {}),
      ...(call.body === undefined ? {} : { 'content-type': 'application/fhir+json' }),
      ...call.headers,
      ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
    };
    try {
      const answer = await client.request(url, {
        method,
        // A followed redirect could carry the patient’s data to an origin that nobody configured.
        options: { headers, signal: controller.signal, redirect: 'manual' },
        ...(call.body === undefined ? {} : { body: call.body }),
      });
      const { response } = Client.httpFor(answer);
      const sent = Date.parse(response?.headers.get('date') ?? '');
      if (!Number.isNaN(sent)) options.onServerTime?.(sent);
      const location = response?.headers.get('location') ?? response?.headers.get('content-location');
      const etag = response?.headers.get('etag');
      return {
        status: response?.status ?? 200,
        body: answer,
        ...(location ? { location } : {}),
        ...(etag ? { etag } : {}),
      };
    } catch (error) {
      if (error instanceof FhirServerError) throw error;
      const at = { method, resourceType, url };
      if (stop?.aborted) throw new FhirServerError('stopped', { ...at, cause: error });
      if (limit.aborted) {
        throw new FhirServerError('timed-out', {
          ...at,
          detail: `no answer within ${timeLimitMs} ms`,
          cause: error,
        });
      }
      const answer = answerOf(error);
      if (answer === undefined) {
        throw new FhirServerError('unreachable', { ...at, detail: networkDetail(error), cause: error });
      }
      const { status, data, headers: sent } = answer;
      const wait = retryAfterMs(sent?.get('retry-after'), machine.now());
      const location = status >= 300 && status < 400 ? sent?.get('location') : undefined;
      throw new FhirServerError(codeOf(status), {
        ...at,
        status,
        ...(isOutcome(data) ? { outcome: data } : {}),
        ...(wait === undefined ? {} : { retryAfterMs: wait }),
        ...(location ? { detail: `redirect to ${originOf(location, url)} not followed` } : {}),
        ...(status < 300 ? { detail: 'the body is not JSON' } : {}),
      });
    } finally {
      limit.removeEventListener('abort', abort);
      running.delete(controller);
    }
  };
}

function codeOf(status: number): FhirServerErrorCode {
  if (status === 409 || status === 412) return 'conflict';
  if (status === 429 || status === 503) return 'throttled';
  if (status >= 500) return 'server-failed';
  if (status >= 400) return 'refused';
  if (status >= 300) return 'redirected';
  return 'not-fhir';
}

/** The answer inside of an error of fhir-kit-client: 2.0.3 keeps the answer’s headers in `config`. */
function answerOf(
  error: unknown,
): { status: number; data: unknown; headers: Headers | undefined } | undefined {
  if (!(error instanceof Error)) return undefined;
  const { response, config } = error as {
    response?: { status?: unknown; data?: unknown };
    config?: { headers?: unknown };
  };
  if (typeof response?.status !== 'number') return undefined;
  return {
    status: response.status,
    data: response.data,
    headers: config?.headers instanceof Headers ? config.headers : undefined,
  };
}

function isOutcome(data: unknown): data is OperationOutcome {
  return (
    typeof data === 'object' &&
    data !== null &&
    (data as { resourceType?: unknown }).resourceType === 'OperationOutcome'
  );
}

function networkDetail(error: unknown): string {
  const cause = error instanceof Error ? error.cause : undefined;
  const code = (cause as { code?: unknown } | undefined)?.code;
  if (typeof code === 'string') return code;
  return error instanceof Error ? error.message : 'the connection failed';
}

function originOf(location: string, base: string): string {
  try {
    return new URL(location, base).origin;
  } catch {
    return 'an unreadable address';
  }
}
