/**
 * What the adapter takes from the machine it runs on. Everything that waits, times out or draws lots goes through
 * here, so tests run without real sleeps.
 */
export interface Machine {
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  now(): number;
  /** Waits; ends early, without an error, when the signal fires. */
  sleep(milliseconds: number, signal?: AbortSignal): Promise<void>;
  /** A number from 0 to below 1, to spread retries. */
  random(): number;
  /** A signal that fires after this many milliseconds. */
  timeLimit(milliseconds: number): AbortSignal;
}

/** The machine itself. */
export const realMachine: Machine = {
  now: () => Date.now(),
  random: () => Math.random(),
  timeLimit: (milliseconds) => AbortSignal.timeout(milliseconds),
  sleep: (milliseconds, signal) =>
    new Promise((resolve) => {
      if (signal?.aborted) return resolve();
      const done = () => {
        clearTimeout(timer);
        signal?.removeEventListener('abort', done);
        resolve();
      };
      const timer = setTimeout(done, milliseconds);
      signal?.addEventListener('abort', done, { once: true });
    }),
};
