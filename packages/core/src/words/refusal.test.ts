import { describe, expect, it } from 'vitest';
import { CoreError } from '../model/error.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { Refusal } from './refusal.js';

const thrownBy = (work: () => unknown): CoreError => {
  try {
    work();
  } catch (cause) {
    if (cause instanceof CoreError) return cause;
    throw cause;
  }
  throw new Error('nothing was thrown');
};

describe('an error of core', () => {
  it.each([
    ['no-instant', '2026-11-25', () => instantMs('2026-11-25')],
    ['no-zone', 'Mars/Base', () => new Calendar('Mars/Base')],
  ] as const)('%s tells what was given, what is accepted and what was behind it', (code, given, work) => {
    const error = thrownBy(work);
    expect(error).toMatchObject({ code, given, accepted: expect.stringContaining('such as') });
    expect(error.cause).toBeInstanceOf(RangeError);
  });

  it('a refusal names the lumens that there are, for a program and in English', () => {
    const lumens = [
      { ref: 'Device/red', name: { code: 'named', name: 'red' } },
      { ref: 'Device/white', name: { code: 'named', name: 'white' } },
    ] as const;
    const error = new Refusal({ code: 'no-such-lumen', line: 'Device/line', given: 'Device/blue', lumens });
    expect(error).toMatchObject({
      code: 'no-such-lumen',
      given: 'Device/blue',
      accepted: ['Device/red', 'Device/white'],
    });
    expect(error).toBeInstanceOf(CoreError);
    expect(error.message).toContain('Device/blue');
  });
});
