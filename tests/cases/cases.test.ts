import { dueCare, readRecords, type DueItem, type LineCare } from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { caseNames, readCase, type Entry, type ExpectedItem } from './read-case.js';

// README.md says what a case is. Expectations are worked out by hand from the source and list only what the case is
// about.

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
function answer(item: DueItem, asked: ExpectedItem): Record<string, unknown> {
  const unknown = item.remarks.some(({ code }) => code === 'protective-reading');
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

function asked(item: ExpectedItem): Record<string, unknown> {
  const times = ['dueBy', 'opens', 'dueByUnheld'];
  return Object.fromEntries(
    Object.entries(item).flatMap(([key, value]) => {
      if (key === 'times') return [];
      if (key === 'others') return [[key, [...(value as string[])].sort()]];
      return [[key, times.includes(key) ? instant(value as string) : value]];
    }),
  );
}

function checkItem(care: LineCare, want: ExpectedItem): void {
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

describe.each(caseNames)('%s', (name) => {
  const { entries, expected: want, policy, source } = readCase(name);
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
        const hold = inForce.find(
          (each) => each.activity === activity && (because === undefined || each.because === because),
        );
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
