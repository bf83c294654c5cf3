import type { DueItem } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import { at, careOf, event, finding, lineOf, policyOf, stepsOf, type Resources } from './line.js';

// The position that the first steps ask for. That a piece of catheter calls for none, and air for the left side: an
// expert in a forum (reported), emedicine 761367 (seen).

const policy = policyOf('trouble', 'occlusion', 'repair-care', 'removal', 'post-insertion');

const out = event('out', 'removal', at('08:00:00'));
const air = finding('air', 'air-entry', at('09:00:00'));
const bleeding = finding('bleeding', 'bleeding', at('09:00:00'));
const retained = finding('retained', 'removed-catheter', at('09:00:00'), 'incomplete');

const openOf = (...resources: Resources): DueItem[] =>
  careOf([...lineOf(), ...resources], policy, at('09:05:00')).items.filter(
    ({ state, heldBy }) => (state === 'due' || state === 'overdue') && heldBy === undefined,
  );

describe('the position in first steps', () => {
  it('C11: nobody is let up while the site bleeds, with air in the vein or with a piece of the line in the body', () => {
    const upAt = (...more: Resources) =>
      careOf([...lineOf(), out, ...more], policy, at('09:05:00')).items.find(
        ({ activity }) => activity === 'getting-up',
      )?.state;
    expect(upAt()).toBe('overdue');
    for (const trouble of [bleeding, air, retained]) expect(upAt(trouble), trouble.id).toBe('held');
    expect(upAt(bleeding, finding('stopped', 'bleeding', at('09:03:00'), 'absent'))).toBe('overdue');
  });

  it('C11: a piece of the line in the body calls for no position', () => {
    const item = openOf(retained).find(({ activity }) => activity === 'retained-catheter-response');
    expect(stepsOf(item).join(' ')).not.toMatch(/left side|flat|lying|lie down/i);
    expect(stepsOf(item)[0]).toMatch(/^Keep the patient and the limb still/);
  });

  it('C20: in an arrest the patient lies flat on the back, and no step puts the head down', () => {
    const steps = stepsOf(openOf(air).find(({ activity }) => activity === 'air-entry-response'));
    expect(steps.join(' ')).toMatch(/No pulse: flat on the back and resuscitate/);
    expect(steps.join(' ')).not.toMatch(/head down/i);
  });
});
