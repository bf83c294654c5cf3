import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bundledPlan, readPolicy, type BundledPlanName, type Policy } from '@dwellward/policy';
import { z } from 'zod';

const root = fileURLToPath(new URL('.', import.meta.url));

const expectedItem = z.strictObject({
  activity: z.string(),
  /** The lumen, where there are several. */
  target: z.string().optional(),
  scope: z.string().optional(),
  dueBy: z.string().optional(),
  opens: z.string().optional(),
  state: z.string().optional(),
  /** The winning rule, and the others that held, in any order. */
  rule: z.string().optional(),
  others: z.array(z.string()).optional(),
  countedFrom: z.strictObject({ basis: z.string(), ref: z.string().optional() }).optional(),
  /** The time as recorded, where the item must say that it was imprecise. */
  imprecise: z.string().optional(),
  dueByUnheld: z.string().optional(),
  /** Whether the winner held only by its reading of an unknown fact: then the item must say so. */
  byUnknown: z.boolean().optional(),
  basedOn: z.string().optional(),
  facts: z.array(z.strictObject({ fact: z.string(), refs: z.array(z.string()) })).optional(),
  /** How many such items there are; one where absent. */
  times: z.number().int().optional(),
});

const expectedHold = z.strictObject({
  activity: z.string(),
  /** Null where it ends with an event. */
  until: z.string().nullable().optional(),
  because: z.string().optional(),
});

const expectedLumen = z.strictObject({
  lumen: z.string(),
  state: z.string(),
  since: z.string().optional(),
  /** What else holds at once, the most serious first; not looked at where absent. */
  also: z.array(z.string()).optional(),
});

const expected = z.strictObject({
  asOf: z.string(),
  zone: z.string(),
  layers: z.array(z.string()).nonempty(),
  line: z.string(),
  items: z.array(expectedItem),
  /** Activities for which there is no item. */
  absent: z.array(z.string()).optional(),
  /** The same of one target. */
  noItem: z.array(z.strictObject({ activity: z.string(), target: z.string() })).optional(),
  issues: z.array(z.string()).optional(),
  /** That there is no issue at all. */
  noIssues: z.literal(true).optional(),
  /** Every hold in force, or none. */
  holds: z.array(expectedHold).optional(),
  closed: z.string().optional(),
  /** What every lumen is like, in the order of the lumens. */
  lumens: z.array(expectedLumen).optional(),
});

export type ExpectedItem = z.infer<typeof expectedItem>;
export type Expected = z.infer<typeof expected>;

export interface Entry {
  readonly resource: unknown;
  readonly fullUrl?: string;
}

export interface Case {
  readonly entries: readonly Entry[];
  readonly expected: Expected;
  readonly policy: Policy;
  readonly source: string;
}

/** The folders beside this file, in order. */
export const caseNames = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .sort();

/** Reads a case; throws, with its name, where a file is missing, ill-formed, or read by nothing. */
export function readCase(name: string): Case {
  const files = readdirSync(root + name);
  const inputFile = files.includes('input.json') ? 'input.json' : 'input.ndjson';
  const want = expected.parse(json(`${name}/expected.json`));
  const known = [inputFile, 'expected.json', 'source.md', ...want.layers];
  const stray = files.filter((file) => !known.includes(file));
  if (stray.length > 0) throw new Error(`${name}: nothing reads ${stray.join(', ')}.`);
  return {
    entries: inputFile === 'input.json' ? bundleEntries(name) : ndjsonEntries(name),
    expected: want,
    policy: policyOf(name, want.layers),
    source: readFileSync(`${root}${name}/source.md`, 'utf8'),
  };
}

const json = (path: string): unknown => parse(readFileSync(root + path, 'utf8'), path);

function parse(text: string, place: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (cause) {
    throw new Error(`${place}: ${(cause as Error).message}`, { cause });
  }
}

function ndjsonEntries(name: string): Entry[] {
  const path = `${name}/input.ndjson`;
  const lines = readFileSync(root + path, 'utf8')
    .trimEnd()
    .split('\n');
  return lines.map((line, i) => ({ resource: parse(line, `${path}, line ${i + 1}`) }));
}

const bundleEntries = (name: string): Entry[] => (json(`${name}/input.json`) as { entry: Entry[] }).entry;

function policyOf(name: string, layers: readonly string[]): Policy {
  const reading = readPolicy(
    layers.map((layer) =>
      layer.endsWith('.json') ? json(`${name}/${layer}`) : bundledPlan(layer as BundledPlanName),
    ),
  );
  if (!reading.ok) {
    throw new Error(`${name}: the policy is refused: ${JSON.stringify(reading.findings, undefined, 2)}`);
  }
  return reading.policy;
}
