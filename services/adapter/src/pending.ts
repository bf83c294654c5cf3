import type { Version } from './care.js';
import type { Change } from './changes.js';

/** Looks at a patient after which a change that none of them showed is let go: a resource may have been deleted since. */
const looksAtMost = 10;

interface Waiting {
  readonly change: Change;
  looks: number;
}

/**
 * Changes that are still to be looked at, by patient. A change is seen once its version, or a newer one, was in what was
 * read: a server can answer from a cache that is older than the change.
 */
export class PendingChanges {
  readonly #byPatient = new Map<string, Map<string, Waiting>>();

  /** Ids of the patients who wait. */
  get patients(): string[] {
    return [...this.#byPatient.keys()];
  }

  add(patient: string, change: Change): void {
    const own = this.#byPatient.get(patient) ?? new Map<string, Waiting>();
    own.set(change.name, { change, looks: 0 });
    this.#byPatient.set(patient, own);
  }

  /**
   * A patient was read and brought in step.
   * @returns names of the changes that are let go though no look has shown them.
   */
  looked(patient: string, read: ReadonlyMap<string, Version>): string[] {
    const lost: string[] = [];
    const own = this.#byPatient.get(patient) ?? new Map<string, Waiting>();
    for (const [name, waiting] of own) {
      waiting.looks += 1;
      const shown = isShown(waiting.change.version, read.get(name));
      if (!shown && waiting.looks >= looksAtMost) lost.push(name);
      if (shown || waiting.looks >= looksAtMost) own.delete(name);
    }
    if (own.size === 0) this.#byPatient.delete(patient);
    return lost;
  }
}

/** Whether what was read is the version that changed, or a newer one. */
function isShown(wanted: Version, read: Version | undefined): boolean {
  if (read === undefined) return false;
  if (wanted.versionId !== undefined && wanted.versionId === read.versionId) return true;
  const wantedMs = Date.parse(wanted.lastUpdated ?? '');
  const readMs = Date.parse(read.lastUpdated ?? '');
  if (readMs > wantedMs) return true;
  if (readMs < wantedMs) return false;
  // One millisecond, or the server names no times: versions are numbers on most servers.
  if (wanted.versionId === undefined) return true;
  return Number(read.versionId) >= Number(wanted.versionId);
}
