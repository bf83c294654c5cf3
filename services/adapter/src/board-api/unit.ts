import {
  dueCareOfEach,
  instantMs,
  nextChange,
  type LineCare,
  type LineRecord,
  type Records,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { recordsOfAll, type Computed } from '../due-care.js';

/** A line with its care, and the records that it was read with. */
export interface LineOfUnit {
  readonly line: LineRecord;
  readonly care: LineCare;
  readonly records: Records;
}

/** A patient as read last, with the care as worked out last, and until when that stays as it is. */
interface Kept {
  readonly computed: Computed;
  cares: readonly LineCare[];
  untilMs: number;
}

/** Care is worked out anew at least so often, milliseconds: facts that count days move on with no change of state. */
const longestMs = 15 * 60_000;

/**
 * The unit as it was read last, patient by patient. It is a memory of what the adapter looked at, never a source: what
 * is charted goes to the FHIR server, and comes back by being read.
 */
export class Unit {
  readonly #policy: Policy;
  readonly #zone: string;
  readonly #asOf: () => string;
  readonly #patients = new Map<string, Kept>();
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
    this.#patients.set(patient, { computed, cares: [], untilMs: -Infinity });
    for (const listener of this.#listeners) listener();
  }

  /** @returns what ends the listening. */
  listen(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  get records(): Records {
    return recordsOfAll([...this.#patients.values()].map(({ computed }) => computed));
  }

  /** The care of every line at this moment: windows pass while nothing is charted. */
  get cares(): LineCare[] {
    return [...this.#patients.values()].flatMap((kept) => this.#caresOf(kept));
  }

  line(ref: string): LineOfUnit | undefined {
    for (const kept of this.#patients.values()) {
      const { records } = kept.computed;
      const line = records.lines.find((one) => one.ref === ref);
      if (!line) continue;
      const care = this.#caresOf(kept).find((one) => one.line === ref);
      return care && { line, care, records };
    }
    return undefined;
  }

  /** Worked out again where something has changed its state since, and else kept: a unit is asked for again and again. */
  #caresOf(kept: Kept): readonly LineCare[] {
    const { when } = this;
    const nowMs = instantMs(when.asOf);
    if (nowMs >= kept.untilMs) {
      const { lines } = kept.computed.records;
      kept.cares = dueCareOfEach(lines, this.#policy, when);
      const changes = lines.flatMap((line, at) => {
        const care = kept.cares[at];
        const next = care && !care.notComputed ? nextChange(line, care, this.#policy, when) : undefined;
        return next === undefined ? [] : [instantMs(next)];
      });
      kept.untilMs = Math.min(nowMs + longestMs, ...changes);
    }
    return kept.cares;
  }
}
