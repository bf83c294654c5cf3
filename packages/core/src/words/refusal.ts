import { CoreError, type CoreErrorFields } from '../model/error.js';
import type { Sentence } from '../model/sentences.js';
import type { NamedLumen, RefusalSentences } from '../model/sentences/draw.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from './english.js';
import { say } from './say.js';

/** Nothing was worked out, with why and what to do instead: as data, and in English for whoever reads logs. */
export class Refusal extends CoreError {
  override readonly name = 'Refusal';
  declare readonly code: keyof RefusalSentences;
  readonly sentence: Sentence<keyof RefusalSentences>;

  constructor(sentence: Sentence<keyof RefusalSentences>) {
    // Times in it are instants with their own offsets: no zone is needed to say them.
    super(sentence.code, say(sentence, english, new Calendar('UTC')), fieldsOf(sentence));
    this.sentence = sentence;
  }
}

function fieldsOf(sentence: Sentence<keyof RefusalSentences>): CoreErrorFields {
  const refs = (lumens: readonly NamedLumen[]) => lumens.map(({ ref }) => ref);
  switch (sentence.code) {
    case 'no-test-named':
    case 'no-steps-of-a-draw':
    case 'no-steps-of-a-repair':
      return {};
    case 'say-which-lumen':
    case 'say-which-damaged-lumen':
      return { accepted: refs(sentence.lumens) };
    case 'no-such-lumen':
      return { given: sentence.given, accepted: refs(sentence.lumens) };
    case 'no-draw-from-line':
      return { given: sentence.line };
    case 'no-draw-from-lumen':
      return { given: sentence.lumen.ref, accepted: refs(sentence.others) };
  }
}
