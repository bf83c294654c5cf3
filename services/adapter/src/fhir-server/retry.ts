import type { Machine } from '../machine.js';
import { FhirServerError } from './errors.js';

/** How often and how long a call is tried again. */
export interface RetryLimits {
  /** Tries in all, 1 or more. */
  readonly maxAttempts: number;
  /** First wait, doubled each time, milliseconds. */
  readonly firstWaitMs: number;
  /** Longest wait; where the server asks for more every call fails at once until its time is over. */
  readonly maxWaitMs: number;
}

/**
 * Runs a call until it succeeds, may not be repeated, or the tries are used up.
 * Waits a doubling time, spread by half so that replicas don’t come back together; where the server asks for a time the
 * call itself waits at the gate.
 */
export async function withRetry<T>(
  call: () => Promise<T>,
  mayRepeat: (error: FhirServerError) => boolean,
  limits: RetryLimits,
  machine: Machine,
  stop?: AbortSignal,
): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await call();
    } catch (error) {
      if (!(error instanceof FhirServerError) || !mayRepeat(error) || attempt >= limits.maxAttempts)
        throw error;
      const doubled = limits.firstWaitMs * 2 ** (attempt - 1) * (0.5 + machine.random() / 2);
      // Where the server says how long, its gate is closed for so long, and the next try waits there.
      if (error.retryAfterMs === undefined) await machine.sleep(Math.min(doubled, limits.maxWaitMs), stop);
      else if (error.retryAfterMs > limits.maxWaitMs) throw error;
      if (stop?.aborted) throw error;
    }
  }
}

/**
 * A Retry-After header in milliseconds from now: seconds, or an HTTP date.
 * @returns undefined where it is absent or unreadable; 0 where the time has passed.
 */
export function retryAfterMs(header: string | null | undefined, nowMs: number): number | undefined {
  const text = header?.trim();
  if (!text) return undefined;
  if (/^\d+$/.test(text)) return Number(text) * 1000;
  const at = Date.parse(text);
  return Number.isNaN(at) ? undefined : Math.max(0, at - nowMs);
}
