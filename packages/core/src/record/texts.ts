/**
 * Whether a text names one of some things: a word of it begins as one of `words` does, whatever the capitals; of words
 * that are all capitals only the whole word in capitals counts. It is a hint and no more: “no allergy to latex” names it.
 */
export function meansOneOf(texts: readonly string[], words: readonly string[]): boolean {
  return texts.some((text) => words.some((word) => names(text, word)));
}

function names(text: string, word: string): boolean {
  const capitals = word === word.toUpperCase();
  const where = capitals ? text : text.toLowerCase();
  for (let at = where.indexOf(word); at >= 0; at = where.indexOf(word, at + 1)) {
    if (isLetter(where.charAt(at - 1))) continue;
    if (!capitals || !isLetter(where.charAt(at + word.length))) return true;
  }
  return false;
}

function isLetter(character: string): boolean {
  return character.toLowerCase() !== character.toUpperCase();
}
