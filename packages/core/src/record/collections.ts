import { addTo } from '../model/gather.js';
import type { Ref } from '../model/record.js';
import type { Result } from './results.js';
import { momentKey } from './times.js';

/** A result with its place among those of its patient and the moment that it is of. */
interface Placed {
  readonly result: Result;
  readonly place: number;
  readonly moment: string;
}

/**
 * The results of a patient by what they were collected with: two that both name a specimen are of one collection where it
 * is the same, others where their time is. A year of daily counts is looked through once, and not once for each of them.
 */
export class Collections {
  readonly #placed = new Map<Result, Placed>();
  readonly #byRef = new Map<Ref, Result>();
  readonly #bySpecimen = new Map<Ref, Placed[]>();
  readonly #byMoment = new Map<string, Placed[]>();
  readonly #unnamedByMoment = new Map<string, Placed[]>();

  constructor(results: readonly Result[]) {
    for (const [place, result] of results.entries()) {
      const placed = { result, place, moment: momentKey(result.at) };
      this.#placed.set(result, placed);
      if (!this.#byRef.has(result.ref)) this.#byRef.set(result.ref, result);
      addTo(this.#byMoment, placed.moment, placed);
      if (result.specimen === undefined) addTo(this.#unnamedByMoment, placed.moment, placed);
      else addTo(this.#bySpecimen, result.specimen, placed);
    }
  }

  /** The first result of any of these resources. */
  firstOf(refs: readonly Ref[]): Result | undefined {
    const all = refs.flatMap((ref) => this.#byRef.get(ref) ?? []);
    return all.sort((a, b) => this.#placeOf(a) - this.#placeOf(b))[0];
  }

  /** Those of one collection with a result, itself among them, in their order. */
  with(result: Result): readonly Result[] {
    const { moment } = this.#placed.get(result) ?? { moment: momentKey(result.at) };
    const { specimen } = result;
    if (specimen === undefined) return (this.#byMoment.get(moment) ?? []).map((one) => one.result);
    return [...(this.#bySpecimen.get(specimen) ?? []), ...(this.#unnamedByMoment.get(moment) ?? [])]
      .sort((a, b) => a.place - b.place)
      .map((one) => one.result);
  }

  #placeOf(result: Result): number {
    return this.#placed.get(result)?.place ?? 0;
  }
}
