import { bloodDraw, type DrawOptions } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import { at, event, infusion, lineOf, policyOf, recordOf, zone, type Resources } from './line.js';
import { spoken } from '../../said.js';

// What makes a sample wrong, or too much. CLSI H21-A5 (from memory) for coagulation, the Royal Marsden Manual, chapter
// 13 (seen), for push–pull; the level of a drug from the lumen that it runs through: common practice, no source.

const policy = policyOf('blood-sampling');
const when = { asOf: at('12:00:00'), zone };
const planOf = (resources: Resources, options: Partial<DrawOptions> = {}) =>
  spoken(
    bloodDraw(
      recordOf(resources),
      { tests: [{ test: 'chemistry' }], lumen: 'Device/red', ...options },
      policy,
      when,
    ),
  );

describe('a coagulation sample', () => {
  it('has, before its discard and only there, a flush of 5 mL at least (CLSI H21-A5, from memory)', () => {
    const flushesOf = (red: number, test: 'coagulation' | 'chemistry') =>
      planOf(lineOf({ primingMl: { red } }), { tests: [{ test }] }).steps.filter((step) =>
        step.startsWith('Flush the lumen'),
      );
    const [before, after] = flushesOf(0.8, 'coagulation');
    expect(before).toContain('at least 5 mL');
    expect(after).toContain('at least 1.6 mL');
    expect(flushesOf(0.8, 'chemistry')[0]).toContain('at least 1.6 mL');
    expect(flushesOf(3, 'coagulation')[0]).toContain('at least 6 mL');
    const unknown = planOf(lineOf({ primingMl: {} }), { tests: [{ test: 'coagulation' }] });
    expect(unknown.steps.join(' ')).toMatch(/discard a volume that could not be worked out \(at least 5 mL;/);
    expect(unknown.discardMl).toBeUndefined();
  });
});

describe('a lumen that the drug ran through (common practice, no source)', () => {
  const top = (resources: Resources, test: 'drug-level' | 'chemistry' = 'drug-level') =>
    planOf([...lineOf(), ...resources], { tests: [{ test }] }).warnings;
  it.each([
    ['runs', [infusion('drip', 'red', at('08:00:00'))]],
    ['ran today', [infusion('drip', 'red', at('06:00:00'), at('07:00:00'))]],
    ['ran 24 hours ago', [infusion('drip', 'red', '2026-11-24T08:00:00+01:00', '2026-11-24T12:00:00+01:00')]],
    ['was charted as begun', [event('began', 'infusion-start', at('08:00:00'), 'red')]],
    ['ran through nobody said which', [infusion('drip', 'line', at('08:00:00'))]],
  ])('%s: said at the top of a draw for a level', (_, resources) => {
    const [first] = top(resources);
    expect(first).toMatch(/^Something runs through red.*Take it from a vein or from another lumen/);
    expect(top(resources, 'chemistry')).toEqual([]);
  });
  it.each([
    ['nothing ran', []],
    ['it ran through the other', [infusion('drip', 'white', at('08:00:00'))]],
    [
      'it ended before the last 24 hours',
      [infusion('drip', 'red', '2026-11-24T08:00:00+01:00', '2026-11-24T11:59:00+01:00')],
    ],
    ['it begins later', [infusion('drip', 'red', at('12:00:01'))]],
  ])('%s: not said', (_, resources) => {
    expect(top(resources)).toEqual([]);
  });
  it('what runs is stopped only where it may be: a vasopressor may not', () => {
    const running = planOf([...lineOf(), infusion('drip', 'white', at('08:00:00'))]).steps[1];
    expect(running).toBe(
      'Stop what runs, where it may stop. Find out what runs: “electrolytes” through white. If it keeps up the circulation, as a vasopressor does, or must not stop suddenly, never just stop it: call the responsible clinician now and move it to another line first, or draw from a vein. Anything else: stop it for the draw.',
    );
    expect(planOf(lineOf()).steps[1]).toContain('Look what runs: nothing is on record.');
  });
});

describe('a draw above the limit of a child', () => {
  // 10 kg and 2 years: 70 mL/kg (paediatric guidance page, seen) gives 700 mL; 3 % of it 21 mL.
  const child = lineOf({ weightKg: 10, birthDate: '2024-05-05', primingMl: { red: 0.8 } });

  // Push–pull, at least 3 times: Royal Marsden Manual, chapter 13 (seen); of a child 3 × dead space: common practice, no source.
  it('above the limit: said first, with the way that wastes nothing', () => {
    const warned = (test: 'chemistry' | 'coagulation', volumeMl: string) =>
      planOf(child, { tests: [{ test, volumeMl }] }).warnings;
    // 1.6 mL of discard, 21 mL a day.
    expect(warned('chemistry', '19.4')).toEqual([]);
    const [above, way] = warned('chemistry', '19.5');
    expect(above).toMatch(/^THIS DRAW IS ABOVE WHAT MAY STILL BE DRAWN TODAY: 21\.1 mL, .*21 mL may be/);
    expect(way).toMatch(/^Push–pull.*draw 2\.4 mL.*at least 3 times.*takes 19\.5 mL: that keeps within/);
    expect(warned('chemistry', '30')[1]).toMatch(/takes 30 mL: still above/);
    // A coagulation sample needs its discard (CLSI H21-A5, from memory).
    expect(warned('coagulation', '20')[1]).toMatch(/coagulation sample needs its discard/);
  });
});
