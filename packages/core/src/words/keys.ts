import type { Name, Sentence } from '../model/sentences.js';

/** An order for names that is the same in every language: by the record's own names, then by their codes. */
export function nameKey(name: Name): string {
  switch (name.code) {
    case 'named':
      return name.name;
    case 'lumen-number':
      return `lumen ${name.number}`;
    default:
      return name.code;
  }
}

/**
 * An order for sentences that is the same in every language, and tells equal ones: by the text that somebody else wrote,
 * else by code and parameters.
 */
export function sentenceKey(sentence: Sentence): string {
  switch (sentence.code) {
    case 'policy-text':
    case 'calculator-text':
    case 'outside-text':
      return sentence.text;
    default:
      return JSON.stringify(sentence);
  }
}
