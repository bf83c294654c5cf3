import { bundledActivities, bundledPlan, bundledPlanNames, policyTemplate } from '@dwellward/policy';
import { readFileSync } from 'node:fs';
import type { ElementDefinition, PlanDefinition } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { figure } from '../figure.js';
import { declarations } from './declarations.js';
import { elementsOf, firstSentence, requiredCodesOf } from './r4-elements.js';

// docs/policy-elements.md puts what R4 says beside what is read here, for every element, code and extension in use. What R4 says
// comes from its StructureDefinitions and CodeSystems.

const developers = readFileSync(new URL('../../docs/policy-elements.md', import.meta.url), 'utf8');

/** The rows of the table with this heading, each as the texts of its cells. */
function table(...heading: readonly string[]): string[][] {
  const head = `| ${heading.join(' | ')} |\n`;
  const start = developers.indexOf(head);
  if (start < 0) throw new Error(`docs/policy-elements.md has no table ${heading.join(', ')}.`);
  const [, , ...rows] = developers.slice(start).split('\n\n')[0]!.trim().split('\n');
  return rows.map((row) =>
    row
      .slice(2, -2)
      .split(' | ')
      .map((cell) => cell.replaceAll('\\|', '|')),
  );
}

/** A sentence without the links that it has in R4, which lead nowhere here. */
const unlinked = (text: string) => text.replace(/\[([^\]]*)\]\([^)]*\)/g, '$1');
const urlOf = (extension: unknown) => (extension as { readonly url: string }).url;
const code = (cell = '') => cell.replaceAll('`', '');

const ofAUnit = JSON.parse(
  readFileSync(new URL('../../fixtures/policy/PlanDefinition-lanternfern.json', import.meta.url), 'utf8'),
) as PlanDefinition;
const uses = [
  ...[...bundledPlanNames.map(bundledPlan), policyTemplate(), ofAUnit].flatMap((plan) =>
    elementsOf('PlanDefinition', plan),
  ),
  ...bundledActivities.flatMap((activity) => elementsOf('ActivityDefinition', activity)),
];
const elements = new Map(
  uses.map(({ path, definition }) => [path, unlinked(firstSentence(definition.definition ?? ''))]),
);
const codes = requiredCodesOf(uses);

/** The types of an extension’s value; of one that has parts, each part with its own. */
function valuesOf(declared: readonly ElementDefinition[]): string {
  const types = (of: ElementDefinition | undefined) =>
    (of?.type ?? []).map(({ code: type }) => type).join(', ');
  const own = declared.find(({ path }) => path === 'Extension.value[x]');
  if (own?.max !== '0') return types(own);
  return declared
    .flatMap(({ path, sliceName }) =>
      path === 'Extension.extension' && sliceName !== undefined ? [sliceName] : [],
    )
    .map(
      (part) => `${part} ${types(declared.find(({ id }) => id === `Extension.extension:${part}.value[x]`))}`,
    )
    .join(', ');
}

describe('the tables of what each element means', () => {
  it('have every element in use and no other, with R4’s own sentence', (context) => {
    const rows = table('element', 'R4 (4.0.1) says', 'here');
    expect(Object.fromEntries(rows.map(([name, r4]) => [code(name), r4]))).toEqual(
      Object.fromEntries(elements),
    );
    expect(rows).toHaveLength(elements.size);
    expect(rows.filter(([, , here = '']) => here.trim() === '')).toEqual([]);
    figure(context, `${rows.length} elements`);
  });

  it('have every code in use and no other, with R4’s own sentence', (context) => {
    const rows = table('element, code', 'R4 (4.0.1) says', 'here');
    expect(Object.fromEntries(rows.map(([name, r4]) => [code(name), r4]))).toEqual(Object.fromEntries(codes));
    expect(rows).toHaveLength(codes.size);
    expect(rows.filter(([, , here = '']) => here.trim() === '')).toEqual([]);
    figure(context, `${rows.length} codes`);
  });

  it('have every extension in use and no other, as it is declared', (context) => {
    // The parts of an extension have names that are no urls.
    const used = new Set(
      uses.flatMap(({ type, path, value }) =>
        type === 'Extension' && path !== 'Extension.extension' ? [urlOf(value)] : [],
      ),
    );
    expect(declarations.map(({ url }) => url).sort()).toEqual([...used].sort());
    const rows = table('extension', 'on', 'value', 'says').map((row) => row.map(code));
    expect(rows).toEqual(
      declarations.map(({ id, context: places = [], snapshot, description }) => [
        id,
        places.map(({ expression }) => expression).join(', '),
        valuesOf(snapshot?.element ?? []),
        description,
      ]),
    );
    figure(context, `${rows.length} extensions`);
  });
});

describe('the reading of R4', () => {
  // From https://hl7.org/fhir/R4: plandefinition-definitions.html, valueset-action-condition-kind.html.
  it('names an element by the type that has it, and takes the first sentence', () => {
    const [action, trigger] = elementsOf('PlanDefinition', {
      action: [{ trigger: [{ type: 'data-added' }] }],
    });
    expect(action?.path).toBe('PlanDefinition.action');
    expect(trigger?.path).toBe('PlanDefinition.action.trigger');
    expect(trigger?.definition.definition).toBe('A description of when the action should be triggered.');
    expect(firstSentence('See e.g. this. And that.')).toBe('See e.g. this.');
    const [, condition] = elementsOf('PlanDefinition', { action: [{ condition: [{ kind: 'stop' }] }] });
    expect(
      requiredCodesOf(elementsOf('PlanDefinition', { action: [{ condition: [{ kind: 'stop' }] }] })),
    ).toEqual(
      new Map([
        [
          'PlanDefinition.action.condition.kind stop',
          'The condition is a stop, or exit condition for the action.',
        ],
      ]),
    );
    expect(condition?.path).toBe('PlanDefinition.action.condition');
  });

  it('does not take an element or a code that R4 does not have', () => {
    expect(() => elementsOf('PlanDefinition', { action: [{ forbid: true }] })).toThrow(
      'R4 has no PlanDefinition.action.forbid.',
    );
    expect(() =>
      requiredCodesOf(elementsOf('PlanDefinition', { action: [{ condition: [{ kind: 'forbid' }] }] })),
    ).toThrow('R4 has no code forbid');
  });
});
