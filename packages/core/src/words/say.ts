import type { Sentence, SentenceCode } from '../model/sentences.js';
import type { Calendar } from '../timeline/calendar.js';
import type { Language, Speech } from './language.js';
import { eachOnOneLine } from './safe-text.js';

/** Says a sentence; the same for the same language and zone. */
export type Say = (sentence: Sentence) => string;

/**
 * Puts sentences into words of a language, times by the clock of the calendar's zone.
 * @example
 * ```ts
 * const words = speaker(english, new Calendar('Europe/Berlin'));
 * words({ code: 'moment', at: '2026-11-25T07:30:00+01:00' }); // 'Wed 25 Nov 2026 07:30'
 * ```
 */
export function speaker(language: Language, calendar: Calendar): Say {
  const say: Say = (sentence) => worded(sentence, language, speech);
  const speech: Speech = {
    calendar,
    say,
    list: (parts, between) => parts.map(say).join(between),
    instant: (at) => say({ code: 'moment', at }),
  };
  return say;
}

/**
 * One sentence in words of a language.
 * @example
 * ```ts
 * say({ code: 'moment', at: when.asOf }, english, new Calendar(when.zone)); // 'Wed 25 Nov 2026 07:30'
 * ```
 */
export function say(sentence: Sentence, language: Language, calendar: Calendar): string {
  return speaker(language, calendar)(sentence);
}

function worded<Code extends SentenceCode>(
  sentence: Sentence<Code>,
  { wordings }: Language,
  speech: Speech,
): string {
  // Names and texts of the record and the policy are other people's: none of them may leave its place.
  return wordings[sentence.code](eachOnOneLine(sentence) as Sentence<Code>, speech);
}
