import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convertUnit } from './units.js';

// Factors are kept: an annotation that nobody has used makes a unit new, and changes nothing else of it.
let annotations = 0;
const fresh = (unit = '') => `${unit}{new${(annotations += 1)}}`;

describe('convertUnit', () => {
  // Factors from the definitions of UCUM and of the international avoirdupois pound (0.45359237 kg exactly).
  it.each([
    ['200', '{cells}/uL', '10*9/L', '0.2'],
    ['200', '/uL', '10*9/L', '0.2'],
    ['200', '/mm3', '10*9/L', '0.2'],
    ['0.2', '10*3/uL', '10*9/L', '0.2'],
    ['199', '{cells}/uL', '10*9/L', '0.199'],
    ['0.2', '10*9/L', '/uL', '200'],
    ['150', '10*3/uL', '10*9/L', '150'],
    ['1', '[lb_av]', 'kg', '0.45359237'],
    ['3500', 'g', 'kg', '3.5'],
    ['0.7', 'mL', 'uL', '700'],
    ['-0.5', 'g', 'kg', '-0.0005'],
    ['1e3', 'g', 'kg', '1'],
    ['123456789012', '{cells}/uL', '10*9/L', '123456789.012'],
    ['37', 'Cel', '[degF]', '98.6'],
    ['1.5', 'kg', 'kg', '1.5'],
  ])('%s %s in %s is %s', (value, from, to, expected) => {
    expect(convertUnit(value, from, to)).toEqual({ ok: true, value: expected });
  });

  it.each([
    ['0.2', 'G/l', '10*9/L'],
    ['0.2', 'kg', '10*9/L'],
    ['0.2', '', '10*9/L'],
    ['0.2', 'nonsense', '10*9/L'],
    ['low', '10*9/L', '10*9/L'],
    ['', 'kg', 'g'],
    ['Infinity', 'kg', 'g'],
    ['0x10', 'kg', 'g'],
  ])('refuses "%s" "%s" to "%s" with a reason', (value, from, to) => {
    const converted = convertUnit(value, from, to);
    expect(converted.ok).toBe(false);
    if (!converted.ok) expect(converted.reason).not.toBe('');
  });

  it.each([
    ['.5', 'kg', 'g', '500'],
    ['.55', 'kg', 'g', '550'],
    ['+1.', 'kg', 'g', '1000'],
    ['1E+3', 'g', 'kg', '1'],
    ['1e-12', 'kg', 'g', '0'],
    ['1000e-3', 'kg', 'g', '1000'],
    [' 2 ', 'kg', 'g', '2000'],
    ['-0', 'kg', 'kg', '0'],
    // A temperature has no factor: its zero is elsewhere.
    ['0', 'Cel', 'K', '273.15'],
    ['98.6', '[degF]', 'Cel', '37'],
    ['-40', 'Cel', '[degF]', '-40'],
  ])('reads “%s” %s in %s as %s, twice alike', (value, from, to, expected) => {
    expect(convertUnit(value, from, to)).toEqual({ ok: true, value: expected });
    expect(convertUnit(value, from, to)).toEqual({ ok: true, value: expected });
  });

  it.each([
    ['1', '10*9 /L', '10*9/L', 'a blank'],
    ['1', '10*9/L', 'kg()', 'empty brackets'],
    ['1', '{cells}2/uL', '10*9/L', 'number after an annotation'],
    ['1', 'kg', '10*9/L', 'kg'],
    ['1', 'nonsense', '10*9/L', 'nonsense'],
    ['1.e', 'kg', 'g', '"1.e" is not a decimal number'],
    ['1e1000', 'kg', 'g', 'is not a decimal number'],
    ['x1', 'kg', 'g', 'is not a decimal number'],
    ['1x', 'kg', 'g', 'is not a decimal number'],
    ['1 2', 'kg', 'g', 'is not a decimal number'],
    ['1e999', 'Cel', '[degF]', "1e999 Cel can't be converted to [degF]"],
  ])('says why “%s” %s has no value in %s, each time', (value, from, to, why) => {
    for (let time = 0; time < 2; time += 1) {
      const converted = convertUnit(value, from, to);
      expect(converted.ok ? '' : converted.reason).toContain(why);
    }
  });

  it('keeps on where laboratories send thousands of units', () => {
    for (let power = 0; power < 2_050; power += 1) convertUnit('1', fresh('nonsense'), 'kg');
    expect(convertUnit('200', '{cells}/uL', '10*9/L')).toEqual({ ok: true, value: '0.2' });
  });

  it('reads a unit that it has not met before, and the next time alike', () => {
    const [cells, degrees, grams] = [`/uL${fresh()}`, `Cel${fresh()}`, `g${fresh()}`];
    for (let time = 0; time < 2; time += 1) {
      expect(convertUnit('200', cells, '10*9/L')).toEqual({ ok: true, value: '0.2' });
      expect(convertUnit('37', degrees, '[degF]')).toEqual({ ok: true, value: '98.6' });
      expect(convertUnit('1', grams, '10*9/L').ok).toBe(false);
      const refused = convertUnit('1', grams, '10*9/L');
      expect(refused.ok ? '' : refused.reason).toContain(grams);
    }
  });

  it('meets every count that a laboratory prints exactly, there and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), (cells) => {
        const there = convertUnit(String(cells), '{cells}/uL', '10*9/L');
        expect(there).toEqual({ ok: true, value: String(cells / 1000) });
        if (there.ok)
          expect(convertUnit(there.value, '10*9/L', '{cells}/uL')).toEqual({
            ok: true,
            value: String(cells),
          });
      }),
    );
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), fc.string(), (value, from, to) => {
        expect(typeof convertUnit(value, from, to).ok).toBe('boolean');
      }),
    );
  });
});
