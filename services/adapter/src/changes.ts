import { createHash } from 'node:crypto';
import type { Resource } from 'fhir/r4.js';
import type { FhirServer } from './fhir-server/index.js';
import { plansInsertion } from './lines.js';
import { patientIdOf } from './references.js';
import { typesWithout, type DispensableType } from './slice.js';

/** What changed: the patients, and those among them of whom a Device changed, who may have a new line. */
export interface Changes {
  readonly patients: ReadonlySet<string>;
  readonly withDevices: ReadonlySet<string>;
  /** Those of whom a request or an appointment of an insertion changed. */
  readonly withPlanned: ReadonlySet<string>;
}

/**
 * Finds what has changed by `_lastUpdated`. A server can store a change later than the time it gives it, so every look
 * reaches back behind the last by an overlap; what was seen already is known by its id and version.
 */
export class ChangeFeed {
  readonly #server: FhirServer;
  readonly #overlapMs: number;
  readonly #types: readonly string[];
  /** By resource version: when it was seen, milliseconds on the server’s clock. */
  readonly #seen = new Map<string, number>();
  #sinceMs: number | undefined;

  constructor(server: FhirServer, overlapMs: number, without: readonly DispensableType[]) {
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
   * The changes since the last look that was completed.
   * @param serverMs the time on the server’s clock at which this look begins.
   * @throws FhirServerError where one of the searches fails; the next look then starts from where this one did.
   */
  async look(serverMs: number): Promise<Changes> {
    const since = new Date((this.#sinceMs ?? serverMs) - this.#overlapMs).toISOString();
    const patients = new Set<string>();
    const withDevices = new Set<string>();
    const withPlanned = new Set<string>();
    const fresh: string[] = [];
    for (const type of this.#types) {
      for await (const { resource } of this.#server.searchAll(type, { _lastUpdated: `ge${since}` })) {
        const key = versionKey(resource);
        if (this.#seen.has(key)) continue;
        fresh.push(key);
        const patient = patientIdOf(resource, this.#server.baseUrl);
        if (patient === undefined) continue;
        patients.add(patient);
        if (type === 'Device') withDevices.add(patient);
        if (plansInsertion(resource)) withPlanned.add(patient);
      }
    }
    this.saw(fresh, serverMs);
    this.#sinceMs = serverMs;
    // Whatever was seen before the reach of the next look can’t come again.
    for (const [key, seenMs] of this.#seen)
      if (seenMs < serverMs - 2 * this.#overlapMs - 60_000) this.#seen.delete(key);
    return { patients, withDevices, withPlanned };
  }
}

/** Names one version of one resource; by its content where the server gives no version. */
export function versionKey(resource: Resource): string {
  const { resourceType, id, meta } = resource;
  const version =
    meta?.versionId ??
    meta?.lastUpdated ??
    createHash('sha256').update(JSON.stringify(resource)).digest('base64');
  return `${resourceType}/${id}/${version}`;
}
