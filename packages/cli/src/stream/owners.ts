/** A Device of nobody that more patients use than this is a part of the ward, such as a monitor: it makes no two of them one. */
const mostSharers = 8;

/**
 * Who belongs together: a patient with the Devices that are theirs, and patients whose records touch, by a merge or by
 * care charted on the line of another. What belongs together is read together, as it is where all is read at once.
 */
export class Owners {
  readonly #up = new Map<string, string>();
  readonly #owned = new Set<string>();
  readonly #present = new Set<string>();
  readonly #users = new Map<string, Set<string>>();

  /** The one by whose name a group goes. */
  groupOf(name: string): string {
    let at = name;
    for (let up = this.#up.get(at); up !== undefined; up = this.#up.get(at)) at = up;
    return at;
  }

  join(one: string, other: string): void {
    const [a, b] = [this.groupOf(one), this.groupOf(other)];
    if (a === b) return;
    const [first, second] = before(a, b) ? [a, b] : [b, a];
    this.#up.set(second, first);
  }

  /** A Device of the record, with whom it names. */
  device(name: string, patients: readonly string[], devices: readonly string[]): void {
    this.#present.add(name);
    if (patients.length > 0 || devices.length > 1) this.#owned.add(name);
    for (const other of [...patients, ...devices]) this.join(name, other);
  }

  /** That something of the patient names the Device. */
  uses(patient: string, device: string): void {
    if (this.groupOf(device) === this.groupOf(patient)) return;
    const users = this.#users.get(device) ?? new Set();
    if (users.size <= mostSharers) this.#users.set(device, users.add(patient));
  }

  /** Joins who uses a Device with whose it is; gives the Devices of the ward, which stay apart. */
  settle(): ReadonlySet<string> {
    const ofWard = new Set<string>();
    for (const [device, users] of this.#users) {
      if (!this.#present.has(device)) continue;
      if (!this.#owned.has(device) && users.size > mostSharers) ofWard.add(device);
      else for (const patient of users) this.join(patient, device);
    }
    this.#users.clear();
    return ofWard;
  }

  /** Who goes by another’s name. */
  joined(): Iterable<string> {
    return this.#up.keys();
  }
}

/** Patients before Devices, so that a group goes by a patient’s name where there is one. */
function before(a: string, b: string): boolean {
  const [isA, isB] = [a.startsWith('Patient/'), b.startsWith('Patient/')];
  return isA === isB ? a < b : isA;
}
