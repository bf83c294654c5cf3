/**
 * Values by a secret that the browser keeps in a cookie: for so long, and so many at most, the oldest going first. They are
 * in this process alone: after a restart everybody signs in anew.
 */
export class OnceKept<Value> {
  readonly #kept = new Map<string, { readonly value: Value; readonly untilMs: number }>();
  readonly #lastsMs: number;
  readonly #most: number;
  readonly #now: () => number;

  constructor(lastsMs: number, most: number, now: () => number) {
    this.#lastsMs = lastsMs;
    this.#most = most;
    this.#now = now;
  }

  put(key: string, value: Value): void {
    const [oldest] = this.#kept.keys();
    if (this.#kept.size >= this.#most && oldest !== undefined) this.#kept.delete(oldest);
    this.#kept.set(key, { value, untilMs: this.#now() + this.#lastsMs });
  }

  get(key: string | undefined): Value | undefined {
    const found = key === undefined ? undefined : this.#kept.get(key);
    if (key === undefined || found === undefined) return undefined;
    if (this.#now() < found.untilMs) return found.value;
    this.#kept.delete(key);
    return undefined;
  }

  /** What is kept, which is then gone: it counts once. */
  take(key: string | undefined): Value | undefined {
    const value = this.get(key);
    if (key !== undefined) this.#kept.delete(key);
    return value;
  }
}
