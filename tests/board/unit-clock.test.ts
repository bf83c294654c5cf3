import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { instantOf, localText } from '../../services/board/page/unit-clock.js';

const zones = ['Europe/Berlin', 'America/New_York', 'Asia/Kolkata', 'Australia/Lord_Howe', 'UTC'];

describe('the clock on the wall of the unit', () => {
  it('shows what was entered by it: the first of the two instants where it shows a time twice', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: Date.UTC(2020, 0, 1) / 60_000, max: Date.UTC(2035, 0, 1) / 60_000 }),
        (zone, minutes) => {
          const ms = minutes * 60_000;
          const local = localText(ms, zone);
          const back = Date.parse(instantOf(local, zone));
          expect(localText(back, zone)).toBe(local);
          expect(back).toBeLessThanOrEqual(ms);
          expect(ms - back).toBeLessThanOrEqual(3_600_000);
        },
      ),
    );
  });

  // Dates of the change by Directive 2000/84/EC: last Sundays of March and October, 01:00 UTC.
  it.each([
    ['2026-10-25T02:30', '2026-10-25T00:30:00.000Z'],
    ['2026-10-25T03:30', '2026-10-25T02:30:00.000Z'],
    ['2026-03-29T01:30', '2026-03-29T00:30:00.000Z'],
    ['2026-03-29T02:30', '2026-03-29T01:30:00.000Z'],
    ['2026-03-29T03:30', '2026-03-29T01:30:00.000Z'],
  ])('of Berlin at %s is %s', (local, instant) => {
    expect(instantOf(local, 'Europe/Berlin')).toBe(instant);
  });
});
