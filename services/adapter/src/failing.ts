import { described, type Failing } from './status.js';

/** The second try comes with the next round; from then on the wait doubles, from half a minute to a quarter of an hour. */
const firstWaitMs = 30_000;
const longestWaitMs = 900_000;

/** The patients who could not be brought in step, each with the time of the next try. */
export class FailingPatients {
  readonly #byId = new Map<string, Failing & { readonly nextTryMs: number }>();

  get list(): readonly Failing[] {
    return [...this.#byId.values()].map(({ nextTryMs, ...failing }) => ({
      ...failing,
      nextTry: new Date(nextTryMs).toISOString(),
    }));
  }

  get count(): number {
    return this.#byId.size;
  }

  /** @param nowMs milliseconds since 1970. */
  failed(id: string, error: unknown, nowMs: number): Failing {
    const before = this.#byId.get(id);
    const times = (before?.times ?? 0) + 1;
    const waitMs = times === 1 ? 0 : Math.min(firstWaitMs * 2 ** (times - 2), longestWaitMs);
    const failing = {
      patient: `Patient/${id}`,
      since: before?.since ?? new Date(nowMs).toISOString(),
      times,
      ...described(error),
      nextTryMs: nowMs + waitMs,
    };
    this.#byId.set(id, failing);
    return failing;
  }

  succeeded(id: string): void {
    this.#byId.delete(id);
  }

  /** Ids whose time of the next try has come. */
  due(nowMs: number): string[] {
    return [...this.#byId].filter(([, { nextTryMs }]) => nextTryMs <= nowMs).map(([id]) => id);
  }

  /** True for one who failed and whose next try is not yet due. */
  rests(id: string, nowMs: number): boolean {
    return (this.#byId.get(id)?.nextTryMs ?? -Infinity) > nowMs;
  }
}
