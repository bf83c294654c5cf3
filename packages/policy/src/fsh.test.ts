import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bundledPlan, bundledPlanNames, readPolicy, type Begins, type Rule } from './index.js';

// That the JSON is what the FSH says is checked where the compiler is: `npm run plans -- --check`.

const folder = new URL('../fsh/input/fsh/', import.meta.url);
const files = (readdirSync(folder, { recursive: true }) as string[])
  .filter((name) => name.endsWith('.fsh'))
  .map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }));

const rules = bundledPlanNames.flatMap((name): { readonly plan: string; readonly rule: Rule }[] => {
  const reading = readPolicy([bundledPlan(name)]);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy.rules.map((rule) => ({ plan: name, rule }));
});

/** When it begins, without what is found or done. */
function manner(begins: Begins): unknown {
  if (begins.kind !== 'triggered') return begins;
  return { kind: begins.kind, after: begins.after, by: begins.by.map(({ kind }) => kind).sort() };
}

/** A rule without its names, its activity, what it is done to and what begins it. */
function remainder({ rule }: (typeof rules)[number]): string {
  const { effect, begins, start, applicability, stop, lasts, whenUnknown } = rule;
  const { lead, minimumSpacing, priority, participants, citations, notes } = rule;
  return JSON.stringify([
    ...[effect, manner(begins), start?.text, applicability.text, stop?.text, lasts, whenUnknown],
    ...[lead, minimumSpacing, priority, participants, citations, notes],
  ]);
}

describe('the FSH of the bundled plans', () => {
  it('has no two rules that differ only in activity, finding or scope, but side by side in a group', ({
    task,
  }) => {
    const alike = rules.flatMap((one, i) =>
      rules
        .slice(i + 1)
        .filter((other) => one.plan === other.plan && remainder(one) === remainder(other))
        .filter((other) => one.rule.group === undefined || one.rule.group !== other.rule.group)
        .map((other) => `${one.plan}: ${one.rule.id} and ${other.rule.id}`),
    );
    expect(alike).toEqual([]);
    task.meta.figure = `${alike.length} among ${rules.length} rules`;
  });

  it('takes at most 20 lines a rule, with all that the rules share', ({ task }) => {
    const lines = files
      .filter(({ name }) => !['template.fsh', 'examples.fsh'].includes(name))
      .flatMap(({ text }) => text.split('\n'))
      .filter((line) => line.trim() !== '');
    expect(rules.length).toBeGreaterThan(150);
    expect(lines.length / rules.length).toBeLessThanOrEqual(20);
    task.meta.figure = `${(lines.length / rules.length).toFixed(1)}, of ${lines.length} lines and ${rules.length} rules; counted is every line that is not blank, comments, ActivityDefinitions and RuleSets among them`;
  });

  it('writes no step, supply, caution, source or note twice', () => {
    const written = files
      .filter(({ name }) => !['template.fsh', 'examples.fsh'].includes(name))
      .flatMap(({ text }) =>
        [
          ...text.matchAll(
            /insert ((?:Computed)?Step|Supply|Caution|Seen|FromMemory|CommonPractice|Note|Reason)\((.*)\)$/gm,
          ),
        ]
          .map(([, , words]) => words ?? '')
          .filter((words) => !words.includes('{')),
      );
    expect(written.length).toBeGreaterThan(300);
    const twice = written.filter((words, i) => written.indexOf(words) !== i);
    expect(twice).toEqual([]);
  });

  it('uses every word that it defines', () => {
    const all = files.map(({ text }) => text).join('\n');
    const defined = [...all.matchAll(/^RuleSet: (\w+)/gm)].map(([, name]) => name);
    expect(new Set(defined).size).toBe(defined.length);
    const inserted = new Set([...all.matchAll(/\binsert (\w+)/g)].map(([, name]) => name));
    expect(defined.filter((name) => !inserted.has(name))).toEqual([]);
  });
});
