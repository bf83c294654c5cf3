// Numbers that look random and are the same for the same seed: a case is found again by its seed and number.

/** @param {number} seed @param {number} number of the case */
export function randomOf(seed, number) {
  let state = (Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(number + 1, 0xc2b2ae35)) >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (count) => Math.floor(next() * count);
  return { next, below, pick: (list) => list[below(list.length)], chance: (share) => next() < share };
}
