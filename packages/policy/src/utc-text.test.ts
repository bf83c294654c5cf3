import fc from 'fast-check';
import { expect, it } from 'vitest';
import { utcText } from './utc-text.js';

it.each([
  [0, '1970-01-01T00:00:00.000Z'],
  [-1, '1969-12-31T23:59:59.999Z'],
  [951_782_400_000, '2000-02-29T00:00:00.000Z'],
  [4_107_542_399_999, '2100-02-28T23:59:59.999Z'],
  [4_107_542_400_000, '2100-03-01T00:00:00.000Z'],
  [-62_135_596_800_000, '0001-01-01T00:00:00.000Z'],
  [253_402_300_799_999, '9999-12-31T23:59:59.999Z'],
])('%i is %s', (ms, text) => {
  expect(utcText(ms)).toBe(text);
});

it('is what the language itself writes, for every time that FHIR can name', () => {
  fc.assert(
    fc.property(fc.integer({ min: -62_135_596_800_000, max: 253_402_300_799_999 }), (ms) => {
      expect(utcText(ms)).toBe(new Date(ms).toISOString());
    }),
  );
});
