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
    const found = places(steps, [
      /^Only staff trained for dialysis catheters/,
      /^Before anything goes in, draw off the old lock.*1\.6 mL as printed on its limb/,
      /flush the lumen/,
      /lock it with/,
    ]);
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
    expect(draw.oldLockMl).toBe('1.6');
    expect(steps).toMatch(/to irrigate and clamp: none; the lock of a dialysis catheter stays where it is/);
    expect(steps).toContain('Lock the lumen with 1.6 mL, the volume printed on its limb, and no more');
  });
});

describe('C4: a draw from a dialysis line', () => {
  const draw = (given: Parameters<typeof lineOf>[0]) =>
    bloodDraw(
      recordOf(lineOf(given)),
      { tests: [{ test: 'chemistry', volumeMl: '4' }], lumen: 'Device/red' },
      policyOf('blood-sampling'),
      { asOf: at('12:00:00'), zone },
    );
  const stepsFor = (given: Parameters<typeof lineOf>[0]) => said(draw(given).steps);
  const type = 'tunneled-dialysis-catheter';

  it('C4: the old lock of a dialysis line is drawn off before anything goes in', () => {
    for (const each of types) {
      const steps = stepsFor({ type: each, primingMl: { red: 1.6, white: 1.7 } });
      const found = places(steps, [
        /^Clamp every lumen/,
        /^Only staff trained for dialysis catheters open one/,
        /^Before anything goes in, draw off the old lock.*1\.6 mL.*throw it away/,
        /^Flush the lumen/,
        /discard/,
        /^Fill the tubes/,
      ]);
      expect(found).not.toContain(-1);
      expect(found).toEqual([...found].sort((a, b) => a - b));
    }
  });

  it('C4: no other line is told of an old lock', () => {
    for (const other of ['tunneled-cvc', 'nontunneled-cvc', 'picc', 'implanted-port', 'midline']) {
      const steps = stepsFor({ type: other }).join('\n');
      expect(steps).not.toMatch(/lock.*(draw|throw)|old lock|dialysis/i);
    }
  });

  it('C4: a volume that is not on record is asked for, and no number stands in for it', () => {
    const steps = stepsFor({ type, primingMl: {} });
    expect(steps.find((step) => step.includes('old lock'))).toMatch(
      /whose volume is not on record \(read it from the limb before you go on; where none is printed, stop and ask\)/,
    );
    expect(draw({ type, primingMl: {} }).oldLockMl).toBeUndefined();
  });

  it('C4: what is drawn off counts as loss: 1.6 mL of lock, 3.2 mL of discard, 4 mL of sample', () => {
    expect(draw({ type, primingMl: { red: 1.6 } }).loss.thisDrawMl).toBe('8.8');
    expect(draw({ type, primingMl: {} }).loss.thisDrawMl).toBeUndefined();
  });

  it('C4: a line of unknown type is treated as one, and that is said first', () => {
    const unknown = draw({ type: 'no-such-type', primingMl: { red: 1.6 } });
    expect(said(unknown.warnings)[0]).toMatch(/^WHICH LINE THIS IS IS NOT ON RECORD/);
    expect(said(unknown.steps).join('\n')).toMatch(/draw off the old lock/);
    expect(unknown.irrigate).toEqual([]);
    expect(said(unknown.steps).join('\n')).toContain('Lock the lumen with 1.6 mL, the volume printed');
  });

  it('C4: at the end of a session too nothing goes in on top of an old lock', () => {
    const line = [
      ...lineOf({ type, primingMl: { red: 1.6, white: 1.7 } }),
      event('locked', 'lock', '2026-11-20T10:00:00+01:00', 'red'),
    ];
    const steps = stepsOf(itemOf(careOf(line, policyOf('dialysis'), at('12:00:00')), 'lock', 'red'));
    const found = places(steps, [
      /^Only staff trained/,
      /old lock is still in it.*1\.6 mL/,
      /flush the lumen/,
      /lock it with/,
    ]);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });
});

it('a tunneled catheter keeps the overfill of 20 % (Goossens 2015, seen)', () => {
  const line = [...lineOf(), event('locked', 'lock', '2026-11-18T10:00:00+01:00', 'red')];
  const lock = itemOf(careOf(line, policyOf(), at('12:00:00')), 'lock', 'red');
  expect(lock?.work.find(({ kind }) => kind === 'lock-volume')?.value).toBe('1');
});
