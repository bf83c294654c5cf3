import type { Sentence, SentenceCode, When } from '../model/sentences.js';
import type { Calendar } from '../timeline/calendar.js';

/** What a language has at hand while it words a sentence. */
export interface Speech {
  /** The clock of the unit: times are said by it. */
  readonly calendar: Calendar;
  /** A part of the sentence, or a sentence within it, in the same language. */
  readonly say: (part: Sentence) => string;
  /** Several parts one after the other, with the same between each two. */
  readonly list: (parts: readonly Sentence[], between: string) => string;
  /** A moment with its day, its year and the time on the clock of the unit. */
  readonly instant: (at: When) => string;
}

/** The wordings of some sentences: none may be missing, which the compiler checks. */
export type Wordings<Codes extends SentenceCode> = {
  readonly [Code in Codes]: (given: Sentence<Code>, speech: Speech) => string;
};

/** A language: a wording for every sentence there is. */
export interface Language {
  /** BCP 47, for what carries it: `en`. */
  readonly tag: string;
  readonly wordings: Wordings<SentenceCode>;
}
