// Unit conversions against the UCUM reference library (@lhncbc/ucum-lhc), which shares no code with ours.
import { cellCountPerUl, frenchToMm, mmToFrench, pressureInKpa } from '@dwellward/calculators';
// @ts-expect-error The library ships no types; what is used of it is described below.
import ucumPackage from '@lhncbc/ucum-lhc';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

interface UcumUtilities {
  convertUnitTo(from: string, value: number, to: string): { status: string; toVal: number | null };
}

const ucum: UcumUtilities = ucumPackage.UcumLhcUtils.getInstance();

function reference(value: number, from: string, to: string): number {
  const result = ucum.convertUnitTo(from, value, to);
  if (result.status !== 'succeeded' || result.toVal === null)
    throw new Error(`UCUM refuses ${from} to ${to}`);
  return result.toVal;
}

const close = (ours: string, theirs: number, step: number): void => {
  expect(Math.abs(Number(ours) - theirs)).toBeLessThanOrEqual(step + Math.abs(theirs) * 1e-9);
};

const amount = fc.integer({ min: 1, max: 99_999 }).map((hundredths) => hundredths / 100);

describe('cell counts', () => {
  const units = ['/uL', '{cells}/uL', '10*6/L', '10^6/L', '10*3/uL', '10^3/uL', '10*9/L', '10^9/L'] as const;
  it.each(units)('from %s to /uL as the reference library', (countUnit) => {
    fc.assert(
      fc.property(amount, (count) => {
        close(cellCountPerUl({ count, countUnit }).value, reference(count, countUnit, '/uL'), 0);
      }),
    );
  });
  it('reads 200 /uL as exactly 0.2 10*9/L, where the reference library falls just below it', () => {
    expect(reference(200, '/uL', '10*9/L')).toBeLessThan(0.2);
    expect(cellCountPerUl({ count: '0.2', countUnit: '10*9/L' }).value).toBe('200');
  });
  it('does not take a laboratory’s G/L for gauss per litre', () => {
    expect(() => reference(1, 'G/L', '/uL')).toThrow();
    expect(cellCountPerUl({ count: '1', countUnit: 'G/L' }).value).toBe('1000');
  });
});

describe('pressures', () => {
  it.each(['kPa', 'bar', 'mm[Hg]', 'cm[H2O]', '[psi]'] as const)('from %s to kPa', (pressureUnit) => {
    fc.assert(
      fc.property(amount, (pressure) => {
        close(
          pressureInKpa({ pressure, pressureUnit }).value,
          reference(pressure, pressureUnit, 'kPa'),
          0.001,
        );
      }),
    );
  });
  it('puts the long-term limit of 25 psi at 172 kPa', () => {
    close(pressureInKpa({ pressure: 25, pressureUnit: '[psi]' }).value, 172, 0.5);
  });
});

describe('the French scale', () => {
  it('is UCUM’s Charrière, both ways', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 400 }), (tenths) => {
        close(frenchToMm({ french: tenths / 10 }).value, reference(tenths / 10, '[Ch]', 'mm'), 0.0005);
        close(mmToFrench({ outerDiameterMm: tenths / 30 }).value, reference(tenths / 30, 'mm', '[Ch]'), 0);
      }),
    );
  });
});

describe('lengths in inches', () => {
  it('stand where the scales put them: 1 inch is 2.54 cm, 6 inches are 15.24 cm', () => {
    close('2.54', reference(1, '[in_i]', 'cm'), 0);
    close('15.24', reference(6, '[in_i]', 'cm'), 0);
    close('25.4', reference(1, '[in_i]', 'mm'), 0);
  });
});
