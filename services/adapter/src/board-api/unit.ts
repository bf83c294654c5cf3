import {
  dueCareOfEach,
  instantMs,
  nextChange,
  type LineCare,
  type LineRecord,
  type AsOf,
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

/** The unit, or the part of it that somebody may read. */
export interface ShownUnit {
  readonly policy: Policy;
  /** The moment that everything is told for. */
  readonly when: AsOf;
  readonly records: Records;
  /** The care of every line at this moment: windows pass while nothing is charted. */
  readonly cares: LineCare[];
  line(ref: string): LineOfUnit | undefined;
  /** @returns what ends the listening. */
  listen(listener: () => void): () => void;
}

/**
 * The unit as it was read last, patient by patient. It is a memory of what the adapter looked at, never a source: what
 * is charted goes to the FHIR server, and comes back by being read.
 */
export class Unit implements ShownUnit {
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

  get when(): AsOf {
    return { asOf: this.#asOf(), zone: this.#zone };
  }

  /** Takes what was read of a patient, and tells whoever listens. */
  saw(patient: string, computed: Computed): void {
    this.#patients.set(patient, { computed, cares: [], untilMs: -Infinity });
    for (const listener of this.#listeners) listener();
  }

  listen(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** References of everybody who was read. */
  get patients(): string[] {
    return [...this.#patients.keys()];
  }

  get records(): Records {
    return this.#recordsOf(() => true);
  }

  get cares(): LineCare[] {
    return this.#caresWhere(() => true);
  }

  line(ref: string): LineOfUnit | undefined {
    return this.#lineWhere(ref, () => true);
  }

  /** The part of it whose patients somebody may read. */
  only(mayRead: (patient: string) => boolean): ShownUnit {
    const recordsNow = () => this.#recordsOf(mayRead);
    const caresNow = () => this.#caresWhere(mayRead);
    const whenNow = () => this.when;
    return {
      policy: this.#policy,
      get when() {
        return whenNow();
      },
      get records() {
        return recordsNow();
      },
      get cares() {
        return caresNow();
      },
      line: (ref) => this.#lineWhere(ref, mayRead),
      listen: (listener) => this.listen(listener),
    };
  }

  #where(mayRead: (patient: string) => boolean): Kept[] {
    return [...this.#patients].flatMap(([patient, kept]) => (mayRead(patient) ? [kept] : []));
  }

  #recordsOf(mayRead: (patient: string) => boolean): Records {
    return recordsOfAll(this.#where(mayRead).map(({ computed }) => computed));
  }

  #caresWhere(mayRead: (patient: string) => boolean): LineCare[] {
    return this.#where(mayRead).flatMap((kept) => this.#caresOf(kept));
  }

  #lineWhere(ref: string, mayRead: (patient: string) => boolean): LineOfUnit | undefined {
    for (const kept of this.#where(mayRead)) {
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
