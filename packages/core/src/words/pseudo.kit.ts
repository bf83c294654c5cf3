import type { Sentence, SentenceCode } from '../model/sentences.js';
import { english } from './english.js';
import type { Language, Speech } from './language.js';

/**
 * English with every sentence, and every part of one, in brackets: `⟦due by ⟦Wed 25 Nov 07:30⟧⟧`. What an output holds
 * outside of them did not come through a language. For tests only.
 */
export const pseudo: Language = {
  tag: 'qps',
  wordings: Object.fromEntries(
    Object.entries(english.wordings).map(([code, worded]) => [
      code,
      (given: Sentence, speech: Speech) =>
        `⟦${(worded as (given: Sentence, speech: Speech) => string)(given, speech)}⟧`,
    ]),
  ) as Record<SentenceCode, never>,
};

/** A text of the pseudo-language without all that is in brackets. */
export function outsideBrackets(text: string): string {
  let depth = 0;
  let outside = '';
  for (const sign of text) {
    if (sign === '⟦') depth += 1;
    else if (sign === '⟧') depth -= 1;
    else if (depth === 0) outside += sign;
  }
  if (depth !== 0) throw new Error('The brackets do not close: the text was cut.');
  return outside;
}
