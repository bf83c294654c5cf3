import { readdirSync, readFileSync } from 'node:fs';
import { lintPlan, readPolicy, type LintFinding } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';

/*
 * Source: the example PlanDefinitions of HL7 FHIR R4, package hl7.fhir.r4.examples 4.0.1 (CC0-1.0);
 * fixtures/published/plan-definition/README.md says what was left out of them.
 */
const folder = new URL('../../fixtures/published/plan-definition/', import.meta.url);
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => [name, JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as unknown] as const);

/** Every leaf of a resource by its path, as the findings write it. */
function leavesOf(value: unknown, path: string): readonly string[] {
  if (Array.isArray(value)) return value.flatMap((one, index) => leavesOf(one, `${path}[${index}]`));
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value).flatMap(([name, one]) => leavesOf(one, `${path}.${name}`));
  }
  return [path];
}

/**
 * The elements that a finding is about. One about the language of an expression refuses the whole condition, one about
 * the type of a trigger the whole trigger, one about the relationship of a related action the whole of that. One about
 * the plan or an action as a whole would explain too much.
 */
function elementOf({ path }: LintFinding): string | undefined {
  if (/^PlanDefinition(\.action\[\d+\])*$/.test(path)) return undefined;
  return path
    .replace(/(\.condition\[\d+\])\.expression\.language$/, '$1')
    .replace(/(\.trigger\[\d+\])\.type$/, '$1')
    .replace(/(\.relatedAction\[\d+\])\.relationship$/, '$1');
}

function isAbout(finding: LintFinding, leaf: string): boolean {
  const element = elementOf(finding);
  return (
    element !== undefined &&
    (leaf === element || leaf.startsWith(`${element}.`) || leaf.startsWith(`${element}[`))
  );
}

/** Elements that change nothing of what is asked for, each with the reason. Reviewed: nothing is added in passing. */
const accounted: readonly (readonly [RegExp, string])[] = [
  [/^\.resourceType$/, 'says what it is, and is checked'],
  [/^\.(url|version|title|name|status)$/, 'kept: the origin of every rule, and the state of the plan'],
  [/^\.effectivePeriod\.(start|end)$/, 'kept: when the layer is in force'],
  [/^\.(id|identifier\[\d+\]\.(use|system|value))$/, 'names of the file elsewhere; the url is the identity'],
  [/^\.text\.(status|div)$/, 'narrative: says again for people what the elements say'],
  [/^\.(description|purpose|usage|copyright)$/, 'words about the plan for people'],
  [/^\.(date|approvalDate|lastReviewDate|experimental|publisher)$/, 'how the plan came about'],
  [/^\.type\.(text|coding\[\d+\]\.(system|code|display))$/, 'what kind of document it is'],
  [
    /^\.(topic|jurisdiction)\[\d+\]\.(text|coding\[\d+\]\.(system|code|display))$/,
    'for finding it in a catalogue',
  ],
  [/^\.(author|contact)\[\d+\]\.(name|telecom\[\d+\]\.(system|use|value))$/, 'who wrote it'],
  [
    /^\.relatedArtifact\[\d+\]\.(type|display|citation|url|resource)$/,
    'what it cites and came from; what it needs is reported',
  ],
  [/^(\.action\[\d+\]){2}\.id$/, 'kept: the id of a rule in a group'],
  [
    /^(\.action\[\d+\])+\.(title|description|textEquivalent)$/,
    'words for people; the title is kept as the reason on the Task',
  ],
  [
    /^(\.action\[\d+\])+\.definitionCanonical$/,
    'read: where it leads nowhere or outside of the plan it is reported',
  ],
  [
    /^\.contained\[\d+\]\.(resourceType|id|status|description)$/,
    'names the definition that an action points to',
  ],
];

function unexplained(plan: unknown, findings: readonly LintFinding[]): readonly string[] {
  return leavesOf(plan, 'PlanDefinition').filter((leaf) => {
    const below = leaf.slice('PlanDefinition'.length);
    return (
      !accounted.some(([pattern]) => pattern.test(below)) &&
      !findings.some((finding) => isAbout(finding, leaf))
    );
  });
}

describe('the example PlanDefinitions of HL7 FHIR R4', () => {
  it('are 17', () => expect(examples).toHaveLength(17));

  it.each(examples)('%s: every element is kept, accounted for, or named by a finding', (_, plan) => {
    expect(unexplained(plan, readPolicy([plan]).findings)).toEqual([]);
    expect(unexplained(plan, lintPlan(plan))).toEqual([]);
  });

  it.each(examples)('%s: is refused as a policy for lines, with a cure for everything', (_, plan) => {
    const { ok, findings } = readPolicy([plan]);
    expect(ok).toBe(false);
    for (const { path, message, cure } of findings) {
      expect(path).toMatch(/^PlanDefinition/);
      expect(message.trim()).not.toBe('');
      expect(cure.trim()).not.toBe('');
    }
  });

  it.each(examples)('%s: an element that is put into it does not go by in silence', (_, plan) => {
    const example = plan as { readonly action?: readonly object[]; readonly url?: string };
    const [first = {}, ...others] = example.action ?? [];
    const more = {
      ...example,
      goal: [{ description: { text: 'x' } }],
      action: [{ ...first, timingAge: { value: 1 } }, ...others],
    };
    const paths = lintPlan(more).map(({ path }) => path);
    expect(paths).toContain('PlanDefinition.goal');
    expect(paths).toContain('PlanDefinition.action[0].timingAge');
  });

  it('has a reason for every element that is only accounted for, and uses each', () => {
    const leaves = examples.flatMap(([, plan]) => leavesOf(plan, ''));
    for (const [pattern, reason] of accounted) {
      expect(reason).not.toBe('');
      expect([String(pattern), leaves.some((leaf) => pattern.test(leaf))]).toEqual([String(pattern), true]);
    }
  });

  // The zika example says so itself: useContext age from 12 years. A policy that dropped it would ask of children too.
  it('tells that a plan’s useContext does not limit whom it is applied to', () => {
    const zika = examples.find(([name]) => name === 'zika-virus-intervention.json')?.[1];
    expect(lintPlan(zika)).toContainEqual(
      expect.objectContaining({ severity: 'warning', path: 'PlanDefinition.useContext' }),
    );
  });
});
