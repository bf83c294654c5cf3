import { expect, it } from 'vitest';
import { capitalised, lastStep, sentence } from './sentence.js';

it.each([
  ['{element} is missing', 'url', 'url is missing.'],
  ['The meaning of {element} is not known', 'x', 'The meaning of x is not known.'],
  [' The step is empty. ', 'x', 'The step is empty.'],
  ['Is it?', 'x', 'Is it?'],
])('%s of %s is %s', (message, element, text) => {
  expect(sentence(message, element)).toBe(text);
});

it.each([
  ['PlanDefinition.action[3].condition[0]', 'condition'],
  ['PlanDefinition.url', 'url'],
  ['PlanDefinition', 'PlanDefinition'],
  ['', ''],
])('the last step of %s is %s', (path, step) => {
  expect(lastStep(path)).toBe(step);
});

it('a note becomes a message with a capital letter', () => {
  expect(capitalised('parts of a minute are dropped')).toBe('Parts of a minute are dropped');
});
