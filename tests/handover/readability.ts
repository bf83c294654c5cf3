/**
 * Flesch reading ease: 206.835 − 1.015 × words per sentence − 84.6 × syllables per word.
 * R. Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948), 221–233. On its scale 60 to 70 is
 * plain English for readers of 13 to 15 years, 70 to 80 fairly easy, 80 to 90 easy, above 90 easy at 11 years.
 */
export function fleschReadingEase({ words, sentences, syllables }: Counts): number {
  return 206.835 - 1.015 * (words / sentences) - 84.6 * (syllables / words);
}

export interface Counts {
  readonly words: number;
  readonly sentences: number;
  readonly syllables: number;
}

/**
 * Counts as the method tells: contractions, numbers, signs and abbreviations are one word, numbers and signs one
 * syllable; of a word with two ways to say it the one with fewer syllables counts. Only full stops, question and
 * exclamation marks end a sentence: that makes sentences longer, and the score lower, than Flesch’s own rule.
 * `strict` splits vowels that English often says apart (re-al, med-i-a): more syllables, a lower score.
 */
export function countsOf(text: string, strict = false): Counts {
  const words = text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word));
  const sentences = text.split(/[.!?]+(?=\s|$)/).filter((part) => /[\p{L}\p{N}]/u.test(part));
  return {
    words: words.length,
    sentences: sentences.length,
    syllables: words.reduce((sum, word) => sum + syllablesOf(word, strict), 0),
  };
}

function syllablesOf(word: string, strict: boolean): number {
  const letters = word.toLowerCase().replace(/[^a-z]/g, '');
  if (letters.length <= 3) return 1;
  const spoken = letters
    // A silent e: line, tube, tubes, shape; not table, needle.
    .replace(/(?<=[aeiouy].*)(?<![l])e(?:s|d)?$/, (end, at: number) =>
      end === 'ed' && /[td]$/.test(letters.slice(0, at))
        ? end
        : end === 'es' && /[szxh]$/.test(letters.slice(0, at))
          ? end
          : '',
    )
    .replace(/(?<=[aeiouy])le$/, 'l');
  const groups = spoken.match(/[aeiouy]+/g) ?? [];
  const apart = strict ? (spoken.match(/i[aou]|e[ou](?!s)|ua|[aeiou]y[aeiou]/g) ?? []).length : 0;
  return Math.max(1, groups.length + apart);
}

/**
 * Flesch–Kincaid grade: 0.39 × words per sentence + 11.8 × syllables per word − 15.59, the school grade (US) that reads a
 * text. J. P. Kincaid and others, Derivation of new readability formulas, Research Branch Report 8-75 (1975).
 */
export function schoolGrade({ words, sentences, syllables }: Counts): number {
  return 0.39 * (words / sentences) + 11.8 * (syllables / words) - 15.59;
}
