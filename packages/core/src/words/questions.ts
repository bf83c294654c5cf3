import type { DueItem } from '../model/care.js';
import type { Sentence } from '../model/sentences.js';

type Asking = Pick<DueItem, 'questions'>;

/** Every question of several items in full, each entry of the record once for each substance. */
export function questionsInFull(items: readonly Asking[]): readonly Sentence[] {
  const once = new Map<string, DueItem['questions'][number]>();
  for (const question of items.flatMap(({ questions }) => questions)) {
    const key = [question.substance, question.entry.ref].join('\u0000');
    if (!once.get(key)?.withheld) once.set(key, question);
  }
  return [...once].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, question]) => question);
}

/** The questions of one item in short, where they stand in full above it. */
export function questionsInShort({ questions }: Asking): readonly Sentence[] {
  const substances = [...new Set(questions.map(({ substance }) => substance))];
  return substances.length === 0 ? [] : [{ code: 'ask-first-of', substances }];
}
