import { retryAfterMs } from '../fhir-server/retry.js';
import type { Machine } from '../machine.js';
import { NoToken } from './authorization.js';

/** What a server of tokens answered. */
export interface Answer {
  readonly status: number;
  /** Undefined where the body is not JSON. */
  readonly body: unknown;
  readonly retryAfterMs: number | undefined;
}

export interface AskOptions {
  readonly machine: Machine;
  readonly timeLimitMs: number;
  readonly stop?: AbortSignal | undefined;
}

/**
 * Makes one call. Redirects are not followed: they would lead an assertion to a server that it is not for.
 * @throws NoToken, passing, where there is no answer within the time limit.
 */
export async function ask(url: string, init: RequestInit, options: AskOptions): Promise<Answer> {
  const { machine, timeLimitMs, stop } = options;
  const limit = machine.timeLimit(timeLimitMs);
  const controller = new AbortController();
  const abort = () => controller.abort();
  if (limit.aborted || stop?.aborted) abort();
  limit.addEventListener('abort', abort, { once: true });
  stop?.addEventListener('abort', abort, { once: true });
  try {
    const response = await fetch(url, { ...init, redirect: 'manual', signal: controller.signal });
    const text = await response.text();
    return {
      status: response.status,
      body: parsed(text),
      retryAfterMs: retryAfterMs(response.headers.get('retry-after'), machine.now()),
    };
  } catch (error) {
    const { origin, pathname } = new URL(url);
    const why = limit.aborted ? `no answer within ${timeLimitMs} ms` : 'no connection';
    throw new NoToken(`${origin}${pathname}: ${why}`, { passing: stop?.aborted !== true, cause: error });
  } finally {
    limit.removeEventListener('abort', abort);
    stop?.removeEventListener('abort', abort);
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
