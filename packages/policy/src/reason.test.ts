import { expect, it } from 'vitest';
import { isPlaceholder, saysWhy } from './reason.js';

// A loosened rule is kept only with a reason: a text that keeps the place of one must not pass for it.
it.each([
  '',
  '  ',
  '...',
  '–',
  'TODO',
  'todo: ask the pharmacist',
  '- FIXME later',
  '>> tbd after the meeting',
  'xxx',
  'XXXXX',
  'n/a',
  'N. / A.',
  'na',
  'None.',
  '(reason)',
  'placeholder',
  'Lorem ipsum',
  'Replace this with the reason.',
  '[reason of the unit]',
  '<why we do so>',
  '{{ why }}',
])('“%s” keeps the place of a reason', (text) => {
  expect(isPlaceholder(text)).toBe(true);
  expect(isPlaceholder(` ${text}\n`)).toBe(true);
});

it.each([
  'Agreed in our infection control meeting.',
  'None of our lines is used daily',
  'The todo list of our ward round covers it',
  'Lines of children [see the protocol of the unit]',
  '[Protocol 7] of our haemodialysis unit',
  'We do it (as agreed) on Mondays',
  'Method agreed with tbdx, our supplier',
  'nurses agreed',
  'xx',
])('“%s” does not', (text) => {
  expect(isPlaceholder(text)).toBe(false);
});

it.each([
  ['Agreed with pharmacists', true],
  ['Agreed with', false],
  ['a b c d', false],
  ['12 34 56', false],
  ['', false],
  ['感染管理会議', true],
  ['感染管理会', false],
  ['ตกลงกับทีม', true],
])('“%s” says why: %s', (text, expected) => {
  expect(saysWhy(text)).toBe(expected);
});
