import { describe, expect, it } from 'vitest';
import { readStep, stepText } from './steps.js';

describe('a step', () => {
  it.each([
    ["'Clamp the line.'", ['Clamp the line.']],
    ["'Flush with ' & %calculated.flushVolume & '.'", ['Flush with ', { calculated: 'flushVolume' }, '.']],
    ['%calculated.tubes', [{ calculated: 'tubes' }]],
    [
      "('Lock: ' & %calculated.lockVolume) & ' (' & %calculated.syringeSize & ')'",
      ['Lock: ', { calculated: 'lockVolume' }, ' (', { calculated: 'syringeSize' }, ')'],
    ],
  ])('reads %s', (expression, step) => {
    expect(readStep(expression)).toEqual({ ok: true, step });
  });

  it.each([
    ["'open", /not FHIRPath/, /single quotes/],
    ["' '", /empty/, /single quotes/],
    ['12', /more than texts/, /joined|join/],
    ["'Flush ' + %calculated.flushVolume", /more than texts/, /&/],
    ["'Flush ' & %calculated.flushVolum", /flushVolum is not a calculated value/, /calculated\.flushVolume/],
    ["'Count ' & %labs.anc", /more than texts/, /&/],
  ])('refuses %s', (expression, message, cure) => {
    const reading = readStep(expression);
    expect(reading).toMatchObject({
      ok: false,
      message: expect.stringMatching(message) as string,
      cure: expect.stringMatching(cure) as string,
    });
  });

  it('shows words in the place of what is still to be worked out', () => {
    const step = ['Flush with ', { calculated: 'flushVolume' }, '.'] as const;
    expect(stepText(step)).toBe('Flush with (the flush volume).');
    expect(stepText(step, () => '6.4 mL')).toBe('Flush with 6.4 mL.');
  });
});
