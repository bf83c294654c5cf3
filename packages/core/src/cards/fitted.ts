/** CDS Hooks 2.0, card attributes: a summary has fewer than 140 characters. */
export const longestSummary = 139;

/** A text cut to a length at a blank, with a sign that it was; itself where it fits. */
export function fitted(text: string, most = longestSummary): string {
  if (text.length <= most) return text;
  const room = text.slice(0, most - 1);
  const blank = room.lastIndexOf(' ');
  // One long word is cut within, but no pair of surrogates is.
  const cut = blank > most / 2 ? room.slice(0, blank) : room.replace(/[\ud800-\udbff]$/, '');
  return `${cut}…`;
}
