import type { LineTokens } from '@dwellward/core';
import type { Doubt, FhirServer } from './fhir-server/index.js';
import { plansInsertion } from './lines.js';
import type { Version } from './care.js';
import { patientIdsOf } from './references.js';
import { versionKey } from './version-key.js';
import { nameOf, typesWithout, versionOf, type DispensableType } from './slice.js';

/** One resource that changed. */
export interface Change {
  /** `Procedure/12`. */
  readonly name: string;
  readonly version: Version;
  /** Ids of the patients whom it is about. */
  readonly patients: readonly string[];
  /** True for a Device, which may be a new line, and for a request or an appointment of an insertion. */
  readonly mayBeLine: 'device' | 'planned' | undefined;
}

/** What a look found. */
export interface Look {
  readonly changes: readonly Change[];
  /** The changes are in the queue: the next look starts from here. Until then they are found again. */
  readonly commit: () => void;
}

/**
 * Finds what has changed by `_lastUpdated`. A server can store a change later than the time it gives it, so every look
 * reaches back behind the last by an overlap; what was seen already is known by its id and version.
 */
export class ChangeFeed {
  readonly #server: FhirServer;
  readonly #overlapMs: number;
  readonly #types: readonly string[];
  readonly #hear: (doubt: Doubt) => void;
  /** By resource version: when it was seen, milliseconds on the server’s clock. */
  readonly #seen = new Map<string, number>();
  readonly #tokens: LineTokens;
  #sinceMs: number | undefined;

  /** @param hear told what the server says of its answers. */
  constructor(
    server: FhirServer,
    overlapMs: number,
    without: readonly DispensableType[],
    hear: (doubt: Doubt) => void,
    tokens: LineTokens,
  ) {
    this.#hear = hear;
    this.#tokens = tokens;
    this.#server = server;
    this.#overlapMs = overlapMs;
    this.#types = ['Patient', ...typesWithout(without)];
  }

  /** False until a start was set: before, everything counts as changed. */
  get started(): boolean {
    return this.#sinceMs !== undefined;
  }

  /** From here on changes are looked for. @param serverMs a time on the server’s clock before the last full read. */
  startFrom(serverMs: number): void {
    this.#sinceMs = serverMs;
  }

  /** Our own writes need not be looked at again. @param keys as {@link versionKey} gives them. */
  saw(keys: readonly string[], serverMs: number): void {
    for (const key of keys) this.#seen.set(key, serverMs);
  }

  /**
   * The changes since the last look that was committed.
   * @param serverMs the time on the server’s clock at which this look begins.
   * @throws FhirServerError where one of the searches fails; the next look then starts from where this one did.
   */
  async look(serverMs: number): Promise<Look> {
    const since = new Date((this.#sinceMs ?? serverMs) - this.#overlapMs).toISOString();
    const changes: Change[] = [];
    const fresh: string[] = [];
    for (const type of this.#types) {
      const params = { _lastUpdated: `ge${since}` };
      for await (const { resource } of this.#server.searchAll(type, params, this.#hear)) {
        const key = versionKey(resource);
        if (this.#seen.has(key)) continue;
        fresh.push(key);
        changes.push({
          name: nameOf(resource),
          version: versionOf(resource),
          patients: patientIdsOf(resource, this.#server.baseUrl),
          mayBeLine:
            type === 'Device' ? 'device' : plansInsertion(resource, this.#tokens) ? 'planned' : undefined,
        });
      }
    }
    return { changes, commit: () => this.#commit(fresh, serverMs) };
  }

  #commit(fresh: readonly string[], serverMs: number): void {
    this.saw(fresh, serverMs);
    this.#sinceMs = serverMs;
    // Whatever was seen before the reach of the next look can’t come again.
    for (const [key, seenMs] of this.#seen)
      if (seenMs < serverMs - 2 * this.#overlapMs - 60_000) this.#seen.delete(key);
  }
}
