import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { dueCare, readRecords, type DueItem, type LineCare } from '@dwellward/core';
import { bundledPlan, readPolicy, type BundledPlanName, type Policy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { said } from '../said.js';

// A case is a folder: `input.json` (a Bundle), the case's own plans, `expected.json`, and `source.md`, one line that
// says where the expectation comes from. Its name says the rule and the edge. Expectations are worked out by hand from
// the source and list only what the case is about.

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

const names = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .sort();

const json = (path: string): unknown => JSON.parse(readFileSync(root + path, 'utf8'));

function policyOf(name: string, layers: readonly string[]): Policy {
  const reading = readPolicy(
    layers.map((layer) =>
      layer.endsWith('.json') ? json(`${name}/${layer}`) : bundledPlan(layer as BundledPlanName),
    ),
  );
  if (!reading.ok)
    throw new Error(`The policy is refused: ${JSON.stringify(reading.findings, undefined, 2)}`);
  return reading.policy;
}

interface Entry {
  readonly resource: unknown;
  readonly fullUrl?: string;
}

function careOf(
  entries: readonly Entry[],
  line: string,
  policy: Policy,
  when: { asOf: string; zone: string },
) {
  const records = readRecords(entries);
  const record = records.lines.find(({ ref }) => ref === line);
  if (!record)
    throw new Error(`${line} is not among ${records.lines.map(({ ref }) => ref).join(', ') || 'no lines'}.`);
  return { care: dueCare(record, policy, when), recordIssues: records.issues };
}

const instant = (text: string | undefined) => (text === undefined ? undefined : new Date(text).toISOString());

/** What the case asks of an item, as the item answers it, in the same form. */
function answer(item: DueItem, asked: z.infer<typeof expectedItem>): Record<string, unknown> {
  const unknown = said(item.remarks).some((remark) => /not known/i.test(remark));
  const all: Record<string, unknown> = {
    activity: item.activity,
    target: item.target.ref,
    scope: item.target.scope,
    dueBy: instant(item.dueBy),
    opens: instant(item.opens),
    state: item.state,
    rule: item.rule.id,
    others: item.others.map(({ rule }) => rule.id).sort(),
    countedFrom: {
      basis: item.countedFrom.basis,
      ...(asked.countedFrom?.ref === undefined ? {} : { ref: item.countedFrom.ref }),
    },
    imprecise: item.remarks.length > 0 ? item.countedFrom.imprecise?.text : undefined,
    dueByUnheld: instant(item.dueByUnheld),
    byUnknown: unknown,
    basedOn: item.basedOn,
    facts: (asked.facts ?? []).map(({ fact }) => ({
      fact,
      refs: item.facts.find((use) => use.fact === fact)?.refs ?? [],
    })),
  };
  return Object.fromEntries(Object.keys(asked).flatMap((key) => (key === 'times' ? [] : [[key, all[key]]])));
}

function asked(item: z.infer<typeof expectedItem>): Record<string, unknown> {
  const times = ['dueBy', 'opens', 'dueByUnheld'];
  return Object.fromEntries(
    Object.entries(item).flatMap(([key, value]) => {
      if (key === 'times') return [];
      if (key === 'others') return [[key, [...(value as string[])].sort()]];
      return [[key, times.includes(key) ? instant(value as string) : value]];
    }),
  );
}

function checkItem(care: LineCare, want: z.infer<typeof expectedItem>): void {
  const found = care.items.filter(
    ({ activity, target }) =>
      activity === want.activity &&
      (want.target === undefined || target.ref === want.target) &&
      (want.scope === undefined || target.scope === want.scope),
  );
  expect(
    found.map((item) => answer(item, want)),
    `${want.activity} ${want.target ?? want.scope ?? ''}`,
  ).toEqual(Array.from({ length: want.times ?? 1 }, () => asked(want)));
}

describe.each(names)('%s', (name) => {
  const want = expected.parse(json(`${name}/expected.json`));
  const entries = (json(`${name}/input.json`) as { entry: Entry[] }).entry;
  const policy = policyOf(name, want.layers);
  const run = (given: readonly Entry[]) => careOf(given, want.line, policy, want);

  it('is as expected', () => {
    const { care, recordIssues } = run(entries);
    for (const item of want.items) checkItem(care, item);
    for (const activity of want.absent ?? []) {
      expect(
        care.items.filter((item) => item.activity === activity),
        activity,
      ).toEqual([]);
    }
    for (const { activity, target } of want.noItem ?? []) {
      const found = care.items.filter((item) => item.activity === activity && item.target.ref === target);
      expect(found, `${activity} ${target}`).toEqual([]);
    }
    const codes = [...recordIssues, ...care.issues].map(({ code }) => code);
    if (want.noIssues) expect(codes).toEqual([]);
    for (const code of want.issues ?? []) expect(codes).toContain(code);
    if (want.holds) {
      const inForce = care.holds.filter(
        ({ until }) => until === undefined || new Date(until) > new Date(want.asOf),
      );
      expect(inForce.length).toBe(want.holds.length);
      for (const { activity, until, because } of want.holds) {
        const hold = inForce.find((each) => each.activity === activity);
        expect(hold, activity).toBeDefined();
        if (until !== undefined) expect(instant(hold?.until)).toBe(instant(until ?? undefined));
        if (because !== undefined) expect(hold?.because).toBe(because);
      }
    }
    if (want.lumens) {
      const found = care.lumens.map(({ lumen, state, since, also }, i) => ({
        lumen,
        state,
        ...(want.lumens?.[i]?.since === undefined ? {} : { since: instant(since) }),
        ...(want.lumens?.[i]?.also === undefined ? {} : { also: also.map((one) => one.state) }),
      }));
      expect(found).toEqual(
        want.lumens.map(({ since, ...rest }) => ({
          ...rest,
          ...(since === undefined ? {} : { since: instant(since) }),
        })),
      );
    }
    expect(care.closed).toBe(want.closed);
    expect(care.inPlace).toBe(want.closed === undefined);
  });

  it('is the same whatever the order of the resources', () => {
    // As text: byte for byte, also in the order of keys.
    expect(JSON.stringify(run([...entries].reverse()))).toBe(JSON.stringify(run(entries)));
  });

  it('says in one line where the expectation comes from', () => {
    const source = readFileSync(`${root}${name}/source.md`, 'utf8');
    expect(source.trim().split('\n')).toHaveLength(1);
    expect(source.length).toBeGreaterThan(20);
    const asks =
      want.items.length +
      (want.absent ?? []).length +
      (want.noItem ?? []).length +
      (want.holds ? 1 : 0) +
      (want.lumens ? 1 : 0) +
      (want.closed ? 1 : 0);
    expect(asks, 'a case expects something').toBeGreaterThan(0);
  });
});
