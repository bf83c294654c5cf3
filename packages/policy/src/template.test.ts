import { describe, expect, it } from 'vitest';
import { bundledPlan } from './bundled.js';
import { diffPolicies } from './diff.js';
import { readPolicy } from './read-policy.js';
import type { Rule } from './model.js';
import { policyExamples, policyExamplesFsh, policyTemplate, policyTemplateFsh } from './template.js';

const base = readPolicy([bundledPlan('base')]);

describe('the starting policy', () => {
  it('P1: changes nothing, and says that it is a draft without a rule', () => {
    const reading = readPolicy([bundledPlan('base'), policyTemplate()]);
    expect(reading.findings.map(({ severity, code }) => [severity, code])).toEqual([
      ['warning', 'not-approved'],
      ['warning', 'no-action'],
    ]);
    if (!reading.ok || !base.ok) throw new Error('refused');
    const { added, removed, changed, switchedOff } = diffPolicies(base.policy, reading.policy);
    expect([added, removed, changed, switchedOff]).toEqual([[], [], [], []]);
    expect(reading.policy.layers[1]).toMatchObject({ unapproved: 'draft' });
  });
});

describe('the examples of rules', () => {
  const examples = policyExamples();
  const written = JSON.parse(
    JSON.stringify(examples)
      .replaceAll(/Replace this by your unit’s reason[^"]*/g, 'The unit decided it for a reason of its own.')
      .replaceAll('replace this by the source that your unit goes by.', 'decided by the unit.'),
  ) as unknown;
  const reading = readPolicy([bundledPlan('base'), written]);

  it('P1: are refused as they stand, for their sources and reasons are still to be written', () => {
    const { ok, findings } = readPolicy([bundledPlan('base'), examples]);
    expect(ok).toBe(false);
    const errors = findings.filter(({ severity }) => severity === 'error');
    expect(new Set(errors.map(({ code }) => code))).toEqual(new Set(['placeholder', 'loosened']));
  });

  it('are read over the base once they are written, with a warning of what they loosen', () => {
    expect(reading.ok).toBe(true);
    expect(reading.findings.map(({ severity, code, ruleId }) => [severity, code, ruleId])).toEqual([
      ['warning', 'not-approved', undefined],
      ['warning', 'loosened-with-reason', 'external-length-measurement'],
      ['warning', 'loosened-with-reason', 'access-needle-change'],
    ]);
  });

  it('are one of each kind, a replaced and a switched-off rule of the base among them', () => {
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
});

describe('what is printed to begin with', () => {
  it('takes the title and the url that it is given, and gives a copy of its own', () => {
    const plan = policyTemplate({ title: 'Ward 3', url: 'https://ward.example/PlanDefinition/three' });
    expect(plan).toMatchObject({ title: 'Ward 3', url: 'https://ward.example/PlanDefinition/three' });
    plan.name = 'changed';
    expect(policyTemplate().name).toBe('OurUnit');
  });

  it.each([
    ['the starting plan', policyTemplateFsh, policyTemplate()],
    ['the examples', policyExamplesFsh, policyExamples()],
  ])(
    'is FSH with the words that it needs, under the title and the url that are given: %s',
    (_, fsh, plan) => {
      const title = 'Ward "3" \\ $& north';
      const text = fsh({ title, url: 'https://ward.example/PlanDefinition/three' });
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
      for (const { id } of plan.action ?? []) expect(own).toContain(id);
      expect(own.split('\n').length).toBeLessThan(150);
    },
  );
});
