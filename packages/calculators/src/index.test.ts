import { describe, expect, it } from 'vitest';
import {
  absoluteNeutrophilCount,
  dwellDays,
  flushVolume,
  lockVolume,
  lumenVolume,
  minimumSyringeSize,
  practiceValue,
} from './index.js';
import * as everything from './index.js';

describe('the calculators that the rest of the project builds on', () => {
  it('counts neutrophils as the surveillance manual’s example does', () => {
    const input = { leucocytesPerUl: '2000', segmentedPercent: 20, bandsPercent: '20' };
    expect(absoluteNeutrophilCount(input).value).toBe('800');
  });
  it('holds 0.141 mL in 50 cm of 0.6 mm', () => {
    expect(lumenVolume({ innerDiameterMm: 0.6, lengthCm: '50' }).value).toBe('0.141');
  });
  it('flushes with at least twice the volume', () => {
    expect(flushVolume({ catheterVolumeMl: '0.61', addOnVolumeMl: '0.2' }).value).toBe('1.7');
  });
  it('locks by either published reading', () => {
    const input = { catheterVolumeMl: '0.6', addOnVolumeMl: '0.8' };
    expect(lockVolume(input).value).toBe('1.68');
    expect(lockVolume({ ...input, overfill: 'catheter' }).value).toBe('1.52');
  });
  it('asks for a 10 mL barrel', () => {
    expect(minimumSyringeSize().value).toBe('10');
  });
  it('counts calendar days across a leap day', () => {
    expect(dwellDays({ insertedOn: '2024-02-28', asOfDate: '2024-03-01' }).value).toBe(2);
  });
});

it('C21: values of older practice are looked up as what they are, and no calculator works by them', () => {
  expect(practiceValue({ of: 'cap-needle-longest' }).guidance.length).toBeGreaterThan(20);
  expect(practiceValue({ of: 'granulocytes-for-daily-dressing' }).guidance.length).toBeGreaterThan(20);
  for (const gone of ['capNeedleLength', 'dressingByGranulocytes'])
    expect(everything).not.toHaveProperty(gone);
});
