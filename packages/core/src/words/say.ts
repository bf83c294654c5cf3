import type { Sentence, SentenceCode } from '../model/sentences.js';
import type { Calendar } from '../timeline/calendar.js';
import type { Language, Speech } from './language.js';

/** Says a sentence; the same for the same language and zone. */
export type Say = (sentence: Sentence) => string;

/** Puts sentences into words of a language, times by the clock of the calendar's zone. */
export function speaker(language: Language, calendar: Calendar): Say {
  const say: Say = (sentence) => worded(sentence, language, speech);
  const speech: Speech = {
    calendar,
    say,
    list: (parts, between) => parts.map(say).join(between),
    instant: (at) => (typeof at === 'number' ? calendar.text(at) : at),
  };
  return say;
}

/** One sentence in words of a language. */
export function say(sentence: Sentence, language: Language, calendar: Calendar): string {
  return speaker(language, calendar)(sentence);
}

function worded<Code extends SentenceCode>(
  sentence: Sentence<Code>,
  { wordings }: Language,
  speech: Speech,
): string {
  return wordings[sentence.code](sentence, speech);
}
