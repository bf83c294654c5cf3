function distance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const substitution = (previous[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      current.push(Math.min(substitution, (previous[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1));
    }
    previous = current;
  }
  return previous[b.length] ?? 0;
}

/**
 * The known word closest to a mistyped one, or undefined where none is close: more than half of the letters
 * would have to change. Of equally close ones the first in the list.
 * @example
 * ```ts
 * nearest('dresing-change', ['dressing-change', 'flush']); // 'dressing-change'
 * ```
 */
export function nearest(word: string, known: readonly string[]): string | undefined {
  // A fact or a code has at most a few dozen letters; anything longer is not a slip of the pen.
  if (word.length > 60) return undefined;
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const d = distance(word.toLowerCase(), candidate.toLowerCase());
    if (d < least) {
      least = d;
      best = candidate;
    }
  }
  return best !== undefined && least <= Math.max(2, Math.floor(word.length / 2)) ? best : undefined;
}

/** `Did you mean x?`, or the whole list where nothing is close. */
export function suggestion(word: string, known: readonly string[]): string {
  const close = nearest(word, known);
  return close === undefined ? `Use one of: ${known.join(', ')}.` : `Did you mean ${close}?`;
}
