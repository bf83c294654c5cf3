import type { Sentence } from '../model/sentences.js';
import type { RefusalSentences } from '../model/sentences/draw.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from './english.js';
import { say } from './say.js';

/** Nothing was worked out, with why and what to do instead: as data, and in English for whoever reads logs. */
export class Refusal extends RangeError {
  override readonly name = 'Refusal';
  readonly sentence: Sentence<keyof RefusalSentences>;

  constructor(sentence: Sentence<keyof RefusalSentences>) {
    // Times in it are instants with their own offsets: no zone is needed to say them.
    super(say(sentence, english, new Calendar('UTC')));
    this.sentence = sentence;
  }

  /** Which refusal it is. */
  get code(): keyof RefusalSentences {
    return this.sentence.code;
  }
}
