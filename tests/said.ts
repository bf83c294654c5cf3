import { Calendar, english, inWords, speaker, type Sentence, type SentenceCode } from '@dwellward/core';

const say = speaker(english, new Calendar('Europe/Berlin'));

/** Sentences in English, by the clock of the tests’ unit. */
export const said = (sentences: readonly Sentence[]): string[] => sentences.map(say);

/** The same data with text where it has sentences. */
export type Spoken<Value> = Value extends { readonly code: SentenceCode }
  ? string
  : Value extends readonly (infer One)[]
    ? readonly Spoken<One>[]
    : Value extends object
      ? { readonly [Key in keyof Value]: Spoken<Value[Key]> }
      : Value;

/** An answer as a reader has it: every sentence in English. */
export const spoken = <Value>(answer: Value): Spoken<Value> => inWords(answer, say) as Spoken<Value>;
