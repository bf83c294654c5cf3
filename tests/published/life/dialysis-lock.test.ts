import { bloodDraw } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import { at, careOf, event, itemOf, lineOf, places, policyOf, recordOf, stepsOf, zone } from './line.js';
import { said } from '../../said.js';

// The lock of a dialysis catheter is strong: 1000 units/mL of heparin or citrate 4 %, the fill volume printed on the
// limb (KDOQI 2019, from memory). It is drawn off before the catheter is used, so that it does not reach the
// circulation (a dialysis catheter's instructions, seen). An overfill of 20 % is right only where the lock does no
// harm there (Goossens 2015, Table 4, seen).

const types = ['tunneled-dialysis-catheter', 'nontunneled-dialysis-catheter'] as const;

describe.each(types)('the lock of a %s', (type) => {
  const line = [
    ...lineOf({ type, primingMl: { red: 1.6, white: 1.7 } }),
    event('locked', 'lock', '2026-11-22T10:00:00+01:00', 'red'),
    event('locked-too', 'lock', '2026-11-22T10:00:00+01:00', 'white'),
  ];
  const lock = itemOf(careOf(line, policyOf(), at('12:00:00')), 'lock', 'red');
  const steps = stepsOf(lock);

  it('is the fill volume and no more', () => {
    expect(lock?.work.find(({ kind }) => kind === 'lock-volume')?.value).toBe('1.6');
    expect(steps.join('\n')).toContain('lock it with 1.6 mL');
    expect(steps.join('\n')).not.toContain('1.92');
  });

  it('is drawn off before anything is flushed in', () => {
    const found = places(steps, [/^Draw off the old lock/, /flush the lumen/, /lock it with/]);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });

  it('stays in the other lumen at a blood draw, and comes out of this one first', () => {
    const draw = bloodDraw(
      recordOf(line),
      { tests: [{ test: 'chemistry' }], lumen: 'Device/red' },
      policyOf('blood-sampling'),
      { asOf: at('12:00:00'), zone },
    );
    expect(draw.irrigate).toEqual([]);
    const steps = said(draw.steps).join('\n');
    expect(steps).toMatch(/Of a dialysis catheter draw off the lock and throw it away before this flush/);
    expect(steps).toMatch(
      /Irrigate and clamp no other lumen: the lock of a dialysis catheter stays where it is/,
    );
    expect(steps).toContain('Lock the lumen with 1.6 mL');
  });
});

it('a tunneled catheter keeps the overfill of 20 % (Goossens 2015, seen)', () => {
  const line = [...lineOf(), event('locked', 'lock', '2026-11-18T10:00:00+01:00', 'red')];
  const lock = itemOf(careOf(line, policyOf(), at('12:00:00')), 'lock', 'red');
  expect(lock?.work.find(({ kind }) => kind === 'lock-volume')?.value).toBe('0.96');
});
