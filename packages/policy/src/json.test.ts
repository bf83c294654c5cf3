import { expect, it } from 'vitest';
import { shown } from './json.js';

// What was given stands in the message about it, in one line that can be read.
it.each<[unknown, string]>([
  [7, '7'],
  [null, 'null'],
  [true, 'true'],
  ['two words', 'two words'],
  [{ a: [1] }, '{"a":[1]}'],
  ['a'.repeat(58), 'a'.repeat(58)],
])('%j is shown as %s', (value, text) => {
  expect(shown(value).replaceAll('"', '')).toBe(text.replaceAll('"', ''));
});

it('what is longer than a line is cut off, and says so', () => {
  const cut = shown(Array.from({ length: 100 }, () => 1));
  expect(cut).toHaveLength(60);
  expect(cut.endsWith('1,...')).toBe(true);
});

it('what no text can be made of is shown all the same', () => {
  const circle: Record<string, unknown> = {};
  circle['circle'] = circle;
  expect(shown(circle)).toBe('object');
  expect(shown(undefined)).toBe('undefined');
});
