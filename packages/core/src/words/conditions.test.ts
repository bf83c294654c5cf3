import { bundledPlan, bundledPlanNames, compileCondition, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { Calendar } from '../timeline/calendar.js';
import { english } from './english.js';
import { say } from './say.js';

const worded = (meaning: string) =>
  say({ code: 'condition', meaning }, english, new Calendar('Europe/Berlin'));

describe('a condition in words', () => {
  it.each([
    ["%line.type = 'picc'", 'the line is a peripherally inserted central catheter'],
    [
      "%line.type != 'implanted-port' or %line.accessed",
      'the line is not an implanted port or a needle is in the port',
    ],
    ["%line.dressing != 'no-dressing'", 'a dressing is on'],
    ["%labs.anc < 0.2 '10*9/L'", 'the neutrophil count is below 0.2 10^9/L'],
    [
      "%labs.platelets < 20 '10*9/L' or %labs.inr > 2 '1'",
      'the platelet count is below 20 10^9/L or the INR is above 2',
    ],
    ["%latest.bodyTemperature >= 38.0 'Cel'", 'the latest body temperature is at least 38.0 °C'],
    ["(%labs.anc < 0.2 '10*9/L').not()", 'the neutrophil count is at least 0.2 10^9/L'],
    ['%line.dwellDays <= 1', 'the line has been in for at most 1 day'],
    ['%lumen.dosesGiven < 1', 'no dose was given for the blockage since the lumen was last found open'],
    [
      '%lumen.dosesGiven >= 2',
      'at least 2 doses were given for the blockage since the lumen was last found open',
    ],
    ['%last.tipConfirmation.empty()', 'no tip confirmation is on record'],
    ['%last.tipConfirmation >= %began', 'a tip confirmation was done since'],
    ['%found.bloodReturn.brisk > %began', 'blood return (brisk) was found since'],
    ['%line.removedDays.exists().not()', 'the line is in place'],
    ['%answered.exists()', 'it was put right'],
    [
      "%lumen.use = 'infusing' and %lumen.infusate = 'blood'",
      'the lumen is infusing and blood or blood product runs through the lumen',
    ],
    [
      '%last.occlusionTreatment.exists() and %began >= %last.occlusionTreatment + 120 minutes',
      'an occlusion treatment is on record and it began 2 hours or more after the last occlusion treatment',
    ],
    ["%patient.setting in ('home' | 'ambulatory')", 'the patient is looked after in: home or clinic'],
    ['', 'always'],
  ])('P3: %s', (expression, words) => {
    expect(worded(expression)).toBe(words);
  });

  it('P3: turns about with “not”, part by part', () => {
    expect(worded("(%line.sutured and %labs.anc < 0.5 '10*9/L').not()")).toBe(
      'there are no stitches or the neutrophil count is at least 0.5 10^9/L',
    );
  });

  it('P3: of every bundled rule has words, and no expression in them', () => {
    const texts = bundledPlanNames.flatMap((name) => {
      const reading = readPolicy([...(name === 'base' ? [] : [bundledPlan('base')]), bundledPlan(name)]);
      if (!reading.ok) throw new Error(name);
      return reading.policy.rules.flatMap(({ applicability, start, stop }) =>
        [applicability, start, stop].flatMap((condition) => (condition ? [worded(condition.meaning)] : [])),
      );
    });
    expect(texts.length).toBeGreaterThan(100);
    for (const text of texts) expect(text).not.toMatch(/%|'|\(\)|expression|[a-z][A-Z]|\bCel\b|10\*/);
  });

  it('P3: that has no words is named as one, and never shown to a nurse as an expression', () => {
    const odd = compileCondition(['(%line.lumenCount + 1) > 3'], { kind: 'applicability' });
    expect(odd.ok).toBe(true);
    expect(worded('(%line.lumenCount + 1) > 3')).toBe('what its owner wrote as an expression is true');
  });
});
