import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { isAtcCode, isLoincCode, isSnomedId, wrongCodesInJson, wrongCodesInText } from './standard-codes.js';
import { sourceFiles } from './source-files.js';

describe('a code of another’s system', () => {
  it.each(['175853000', '52124006', '1396546006', '281000220103'])('%s can be one of SNOMED CT', (code) => {
    expect(isSnomedId(code)).toBe(true);
  });
  it.each(['225749003', '175853001', '788163003', '6011000124100', '0123456', '12345'])(
    '%s can’t be one of SNOMED CT',
    (code) => {
      expect(isSnomedId(code)).toBe(false);
    },
  );
  it.each([
    ['751-8', true],
    ['29463-7', true],
    ['8310-5', true],
    ['751-7', false],
    ['29463-8', false],
  ])('%s can be one of LOINC: %s', (code, can) => {
    expect(isLoincCode(code)).toBe(can);
  });
  it.each([
    ['C01CA03', true],
    ['B05A', true],
    ['C1CA03', false],
    ['X01CA03', false],
  ])('%s can be one of ATC: %s', (code, can) => {
    expect(isAtcCode(code)).toBe(can);
  });
});

describe('the sources', () => {
  it('I11: hold no code that can’t be: what is charted by the right one would never be recognised', async () => {
    const wrong: string[] = [];
    let read = 0;
    for (const file of await sourceFiles(['ts', 'mjs', 'fsh', 'json', 'ndjson', 'md'])) {
      const text = await readFile(file, 'utf8');
      // That a code is wrong is said here.
      if (/tables\/standard-codes\.|inferred-types\.test\.ts$/.test(file)) continue;
      read += 1;
      const found = file.endsWith('.json') ? wrongCodesInJson(parsed(text)) : wrongCodesInText(text);
      wrong.push(...found.map((one) => `${file}: ${one}`));
    }
    expect(wrong).toEqual([]);
    expect(read).toBeGreaterThan(400);
  });
});

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // Input that is spoiled on purpose.
    return undefined;
  }
}
