/** How many of a list that is in the order of time lie at or before a moment, or all before it. */
export function countUpTo(
  list: readonly { readonly ms: number }[],
  ms: number,
  which: 'at-or-before' | 'before' = 'at-or-before',
): number {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    const there = list[middle]?.ms ?? Infinity;
    if (which === 'before' ? there < ms : there <= ms) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The last of a list in the order of time that lies at or before a moment. */
export function lastUpTo<One extends { readonly ms: number }>(
  list: readonly One[],
  ms: number,
): One | undefined {
  return list[countUpTo(list, ms) - 1];
}

/** What lasts, in the order in which it began, with the latest end of what began up to each: what may last still. */
export class Lasting<One extends { readonly ms: number }> {
  readonly #latestEnds: number[] = [];

  /** @param endOf Infinity of what has no end; what never lasted ends at -Infinity. */
  constructor(
    readonly list: readonly One[],
    readonly endOf: (one: One) => number,
  ) {
    let latest = -Infinity;
    for (const one of list) this.#latestEnds.push((latest = Math.max(latest, endOf(one))));
  }

  /** Whether anything that began at or before a moment ends after another. */
  anyAfter(beganMs: number, endsAfterMs: number): boolean {
    return (this.#latestEnds[countUpTo(this.list, beganMs) - 1] ?? -Infinity) > endsAfterMs;
  }

  /** What began at or before a moment and ends at or after another, in the order of the list. */
  from(beganMs: number, endsMs: number): One[] {
    const found: One[] = [];
    for (let at = countUpTo(this.list, beganMs) - 1; at >= 0; at -= 1) {
      // Nothing further back lasts as long.
      if ((this.#latestEnds[at] ?? -Infinity) < endsMs) break;
      const one = this.list[at];
      if (one !== undefined && this.endOf(one) >= endsMs) found.push(one);
    }
    return found.reverse();
  }
}

// A timeline never changes, and facts are asked of it at every moment at which something did.
const memories = new WeakMap<object, Map<unknown, unknown>>();

/** What is worked out once for a timeline. @param key names it, and what it is of; or the very function that picks it. */
export function kept<Found>(timeline: object, key: unknown, work: () => Found): Found {
  let memory = memories.get(timeline);
  if (memory === undefined) memories.set(timeline, (memory = new Map()));
  if (memory.has(key)) return memory.get(key) as Found;
  const found = work();
  memory.set(key, found);
  return found;
}
