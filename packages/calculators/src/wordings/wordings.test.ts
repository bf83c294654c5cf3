import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CatalogEntry, type CalculatorName, calculators } from '../catalog.js';
import type { Specs } from '../lib/input.js';

// Every sentence that a calculator says, as it was last read through: of its card, and of each answer whose numbers
// ../recorded holds. Mutants don't meet this test. After changing a sentence on purpose: `npx vitest run
// packages/calculators -u`, then read what changed in the text files.

const names = Object.keys(calculators) as CalculatorName[];

function inputLines(specs: Specs, prefix = ''): string[] {
  return Object.entries(specs).flatMap(([name, spec]) => [
    `${prefix}${name}: ${spec.accepted}; ${spec.about}`,
    ...(spec.kind === 'list' ? inputLines(spec.of, `${prefix}${name}[].`) : []),
  ]);
}

/** Every text with a blank in it, and every caution and step, each with the place where it stands. */
function sentences(value: unknown, place: string): string[] {
  if (typeof value === 'string')
    return value.includes(' ') || /^(caution|step)s\b/.test(place) ? [`  ${place}: ${value}`] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => {
    const inner = Array.isArray(value) ? place : [place, key].filter(Boolean).join('.');
    return sentences(each, inner);
  });
}

/** The inputs of the recorded answers: as read from JSON they are what a caller from outside gives. */
function recordedInputs(name: CalculatorName): unknown[] {
  const record = readFileSync(new URL(`../recorded/${name}.ndjson`, import.meta.url), 'utf8');
  const [, ...answers] = record.trimEnd().split('\n');
  return answers.map((line) => (JSON.parse(line) as { input: unknown }).input);
}

function wordingsOf(name: CalculatorName): string {
  const { run, title, formula, unit, source, cautions, refuses, inputs } = calculators[name] as CatalogEntry;
  const answers = recordedInputs(name).flatMap((input) => {
    const result = run(input);
    // What the card says already is not said again.
    const raised = result.cautions.filter((each) => !cautions.includes(each));
    const own = { ...result, cautions: raised, source: result.source === source ? '' : result.source };
    return ['', JSON.stringify(input), ...sentences(own, '')];
  });
  const lines = [
    title,
    `formula: ${formula}`,
    `unit: ${unit}`,
    `source: ${source}`,
    ...cautions.map((each) => `caution: ${each}`),
    ...refuses.map((each) => `refuses: ${each}`),
    ...inputLines(inputs).map((each) => `input ${each}`),
    ...answers,
  ];
  return lines.map((line) => `${line}\n`).join('');
}

describe('every sentence, word for word as recorded', () => {
  it.each(names)('%s', async (name) => {
    const wordings = wordingsOf(name);
    expect(recordedInputs(name).length).toBeGreaterThan(0);
    await expect(wordings).toMatchFileSnapshot(`${name}.txt`);
  });
});
