import { describe, expect, it } from 'vitest';
import { bundledPlan } from './bundled.js';
import { diffPolicies } from './diff.js';
import { readPolicy } from './read-policy.js';
import { policyTemplate } from './template.js';

describe('the starting policy', () => {
  const base = readPolicy([bundledPlan('base')]);
  const reading = readPolicy([bundledPlan('base'), policyTemplate()]);

  it('is read over the base without an error or a warning', () => {
    expect(reading.findings.filter(({ severity }) => severity !== 'information')).toEqual([]);
    expect(reading.ok).toBe(true);
  });

  it('has one example of each kind, a replaced and a switched-off rule of the base', () => {
    if (!reading.ok || !base.ok) throw new Error('refused');
    const own = reading.policy.rules.filter(({ origin }) => origin.layer === 1);
    expect(new Set(own.map(({ schedule }) => schedule.kind))).toEqual(
      new Set(['interval', 'at-once', 'anchor', 'chain', 'before', 'hold']),
    );
    expect(own.some(({ condition }) => condition.text !== '')).toBe(true);
    const holds = own.flatMap(({ schedule }) => (schedule.kind === 'hold' ? [schedule] : []));
    expect(holds.map(({ from }) => from?.finding).sort()).toEqual(['migration', undefined]);
    const { changed, switchedOff, removed } = diffPolicies(base.policy, reading.policy);
    expect(changed).toHaveLength(1);
    expect(switchedOff).toHaveLength(1);
    expect(removed).toEqual([]);
    for (const { notes } of reading.policy.replaced ?? []) expect(notes.join()).toContain('reason');
  });

  it('takes the title and the url that it is given, and gives a copy of its own', () => {
    const plan = policyTemplate({ title: 'Ward 3', url: 'https://ward.example/PlanDefinition/three' });
    expect(plan).toMatchObject({ title: 'Ward 3', url: 'https://ward.example/PlanDefinition/three' });
    plan.action?.splice(0);
    expect(policyTemplate().action).not.toEqual([]);
  });
});
