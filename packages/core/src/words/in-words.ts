import type { Sentence } from '../model/sentences.js';
import { english } from './english.js';
import type { Say } from './say.js';

/**
 * Plain data with every sentence in it put into words: for scripts, which read data and not codes of sentences.
 * @example
 * ```ts
 * const words = speaker(english, new Calendar('Europe/Berlin'));
 * inWords({ at: { code: 'moment', at: '2026-11-25T07:30:00+01:00' } }, words); // { at: 'Wed 25 Nov 2026 07:30' }
 * ```
 */
export function inWords(value: unknown, say: Say): unknown {
  if (Array.isArray(value)) return value.map((one: unknown) => inWords(one, say));
  if (typeof value !== 'object' || value === null) return value;
  if (isSentence(value)) return say(value);
  return Object.fromEntries(
    Object.entries(value).map(([name, one]: [string, unknown]) => [name, inWords(one, say)]),
  );
}

function isSentence(value: object): value is Sentence {
  return 'code' in value && typeof value.code === 'string' && Object.hasOwn(english.wordings, value.code);
}
