import { describe, expect, it } from 'vitest';
import { bundledPlan } from './bundled.js';
import { diffPolicies } from './diff.js';
import { readPolicy } from './read-policy.js';
import type { Rule } from './model.js';
import { policyTemplate, policyTemplateFsh } from './template.js';

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
    expect(new Set(own.map(({ effect, begins }) => `${effect} ${begins.kind}`))).toEqual(
      new Set([
        'ask interval',
        'ask triggered',
        'ask before',
        'ask planned',
        'forbid triggered',
        'forbid while',
      ]),
    );
    const triggers = own.flatMap(({ begins }) => (begins.kind === 'triggered' ? begins.by : []));
    expect(new Set(triggers.map(({ kind }) => kind))).toEqual(new Set(['finding', 'event']));
    const says = (has: (rule: Rule) => unknown) => own.filter((rule) => Boolean(has(rule))).length;
    expect(says(({ applicability }) => applicability.text)).toBe(2);
    expect(says(({ start }) => start)).toBe(1);
    expect(says(({ stop, group }) => stop && group)).toBe(2);
    expect(says(({ lasts }) => lasts)).toBe(1);
    expect(says(({ work }) => work.steps)).toBeGreaterThan(0);
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

  it('is written in FSH with the words that it needs, under the title and the url that are given', () => {
    const title = 'Ward "3" \\ $& north';
    const text = policyTemplateFsh({ title, url: 'https://ward.example/PlanDefinition/three' });
    expect(text).toContain('* title = "Ward \\"3\\" \\\\ $& north"');
    expect(text).toContain('* url = "https://ward.example/PlanDefinition/three"');
    const defined = new Set([...text.matchAll(/^RuleSet: (\w+)/gm)].map(([, name]) => name));
    const inserted = new Set([...text.matchAll(/\binsert (\w+)/g)].map(([, name]) => name));
    expect([...inserted].filter((name) => !defined.has(name))).toEqual([]);
    const aliases = new Set([...text.matchAll(/^Alias: (\S+)/gm)].map(([, name]) => name));
    const named = [...text.matchAll(/= (\$[\w-]+)/g)].map(([, name]) => name);
    expect(named.filter((name) => !aliases.has(name))).toEqual([]);
    expect(named).not.toEqual([]);
    const own = text.slice(0, text.indexOf('// ====='));
    for (const { id } of policyTemplate().action ?? []) expect(own).toContain(id);
    expect(own.split('\n').length).toBeLessThan(150);
  });
});
