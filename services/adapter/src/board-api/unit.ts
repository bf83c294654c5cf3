import { dueCareOfEach, type LineCare, type LineRecord, type Records } from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import type { Computed } from '../due-care.js';

/** A line with its care, and the records that it was read with. */
export interface LineOfUnit {
  readonly line: LineRecord;
  readonly care: LineCare;
  readonly records: Records;
}

/**
 * The unit as it was read last, patient by patient. It is a memory of what the adapter looked at, never a source: what
 * is charted goes to the FHIR server, and comes back by being read.
 */
export class Unit {
  readonly #policy: Policy;
  readonly #zone: string;
  readonly #asOf: () => string;
  readonly #computed = new Map<string, Computed>();
  readonly #listeners = new Set<() => void>();

  constructor(policy: Policy, zone: string, asOf: () => string) {
    this.#policy = policy;
    this.#zone = zone;
    this.#asOf = asOf;
  }

  get policy(): Policy {
    return this.#policy;
  }

  /** The moment that everything is told for. */
  get when() {
    return { asOf: this.#asOf(), zone: this.#zone };
  }

  /** Takes what was read of a patient, and tells whoever listens. */
  saw(patient: string, computed: Computed): void {
    this.#computed.set(patient, computed);
    for (const listener of this.#listeners) listener();
  }

  /** @returns what ends the listening. */
  listen(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  get records(): Records {
    const all = [...this.#computed.values()].map(({ records }) => records);
    return {
      lines: all.flatMap(({ lines }) => lines),
      issues: all.flatMap(({ issues }) => issues),
      notUnderstood: all.flatMap(({ notUnderstood }) => notUnderstood),
      otherBusiness: all.flatMap(({ otherBusiness }) => otherBusiness),
      unitStays: all.flatMap(({ unitStays }) => unitStays),
    };
  }

  /** The care of every line at this moment: windows pass while nothing is charted. */
  cares(records: Records): LineCare[] {
    return dueCareOfEach(records.lines, this.#policy, this.when);
  }

  line(ref: string): LineOfUnit | undefined {
    for (const { records } of this.#computed.values()) {
      const line = records.lines.find((one) => one.ref === ref);
      const [care] = line ? dueCareOfEach([line], this.#policy, this.when) : [];
      if (line && care) return { line, care, records };
    }
    return undefined;
  }
}
