// Enough to find it again in the record; what is longer is no code, time or name of care.
const longest = 80;

/** A text of the record as it may stand in a sentence: no longer than a row, and marked where it was cut. */
export function shortened(text: string): string {
  return text.length > longest ? `${text.slice(0, longest)}…` : text;
}
