import { dueCare, readRecords, type DueItem } from '@dwellward/core';
import {
  demoInstant,
  demoPolicyLayers,
  demoUnit,
  demoUpdate,
  demoUpdateInstant,
  demoZone,
} from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';

// Worked out by hand from the builder's times, the intervals of the bundled policy and the order of the rules.

function policy() {
  const reading = readPolicy(demoPolicyLayers.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const applied = policy();

function careAt(asOf: string, ...bundles: readonly ReturnType<typeof demoUnit>[]) {
  const { lines, issues } = readRecords(
    bundles.flatMap(({ entry }) =>
      (entry ?? []).map(({ fullUrl, resource }) => ({ resource, fullUrl: fullUrl! })),
    ),
  );
  const care = lines.map((line) => dueCare(line, applied, { asOf, zone: demoZone }));
  return {
    care,
    items: care.flatMap(({ items }) => items),
    issues: [...issues, ...care.flatMap((one) => one.issues)],
  };
}

function find(items: readonly DueItem[], line: string, activity: string, lumen?: string) {
  const found = items.filter(
    (item) =>
      item.line === `Device/${line}` &&
      item.activity === activity &&
      (lumen === undefined || item.target.ref === `Device/${line}-${lumen}`),
  );
  expect(found, `${line} ${activity}`).toHaveLength(1);
  return { dueBy: new Date(found[0]!.dueBy).toISOString(), state: found[0]!.state, item: found[0]! };
}

const at = (text: string) => new Date(text).toISOString();

describe('the demo unit at its instant', () => {
  const { care, items, issues } = careAt(demoInstant, demoUnit());

  it('is a good ward: much is up to date, some is due, little is overdue, little is held', () => {
    const count = (state: string) => items.filter((item) => item.state === state).length;
    // An infusion after a repair, and the flush and the lock of a lumen that was found blocked.
    expect(count('held')).toBe(3);
    expect(count('overdue')).toBeGreaterThanOrEqual(3);
    expect(count('overdue') / items.length).toBeLessThan(0.1);
    expect(count('due')).toBeGreaterThanOrEqual(10);
    expect(count('upcoming') / items.length).toBeGreaterThan(0.5);
  });

  it.each([
    ['larch-tunneled', 'dressing-change', undefined, '2026-11-25T09:00:00+01:00', 'due'],
    ['spindle-picc', 'dressing-change', undefined, '2026-11-25T06:30:00+01:00', 'overdue'],
    ['medlar-subclavian', 'dressing-change', undefined, '2026-11-25T00:00:00+01:00', 'overdue'],
    ['buckthorn-jugular', 'dressing-change', undefined, '2026-11-25T06:50:00+01:00', 'overdue'],
    ['dogwood-tunneled', 'dressing-change', undefined, '2026-11-25T11:10:00+01:00', 'due'],
    ['tamarisk-picc', 'dressing-change', undefined, '2026-11-25T10:00:00+01:00', 'due'],
    ['hemlock-tunneled', 'dressing-change', undefined, '2026-11-26T10:00:00+01:00', 'upcoming'],
    ['tamarisk-picc', 'site-assessment', undefined, '2026-11-25T16:00:00+01:00', 'upcoming'],
    // The sets of fat emulsion alone and of red cells, by the shortest life that a source gives; and their bags.
    ['alder-tunneled', 'administration-set-change', 'white', '2026-11-25T07:50:00+01:00', 'due'],
    ['alder-tunneled', 'administration-set-change', 'red', '2026-11-25T09:40:00+01:00', 'upcoming'],
    ['alder-tunneled', 'bag-change', 'white', '2026-11-25T08:00:00+01:00', 'due'],
    ['alder-tunneled', 'bag-change', 'red', '2026-11-25T09:50:00+01:00', 'upcoming'],
    ['sycamore-dialysis', 'lock', 'red', '2026-11-27T12:05:00+01:00', 'upcoming'],
    ['quince-midline', 'flush', undefined, '2026-11-25T08:15:00+01:00', 'due'],
    ['hornbeam-tunneled', 'infusion-start', undefined, '2026-11-25T08:00:00+01:00', 'held'],
    ['hornbeam-tunneled', 'splint-removal', undefined, '2026-11-27T06:35:00+01:00', 'upcoming'],
    ['whitebeam-port', 'flush', undefined, '2026-11-27T10:55:00+01:00', 'due'],
    // Removed the day before yesterday at 15:30: its site should have been looked at 24 hours later.
    ['dogwood-picc', 'site-assessment', undefined, '2026-11-24T15:30:00+01:00', 'overdue'],
  ] as [string, string, string | undefined, string, string][])(
    '%s: %s %s by %s, %s',
    (line, activity, lumen, dueBy, state) => {
      const found = find(items, line, activity, lumen);
      expect(found.dueBy).toBe(at(dueBy));
      expect(found.state).toBe(state);
    },
  );

  it('closes the removed line and reports what can’t be used', () => {
    expect(care.find(({ line }) => line === 'Device/dogwood-picc')?.closed).toBe('line-removed');
    expect(issues.map(({ code, resource }) => `${code} ${resource}`).sort()).toEqual([
      'no-insertion Device/cypress-picc',
      'unknown-lumen Procedure/hemlock-tunneled-green-flush-1125-0510',
      'unknown-unit Observation/dogwood-dipper-751-8-1125-0545',
    ]);
  });
});

describe('the demo unit an hour later', () => {
  const before = careAt(demoUpdateInstant, demoUnit()).items;
  const after = careAt(demoUpdateInstant, demoUnit(), demoUpdate()).items;

  it('has brought the gauze dressing of the patient whose count fell forward, as the same item', () => {
    const [was, is] = [before, after].map((items) => find(items, 'hemlock-tunneled', 'dressing-change'));
    expect(was!.dueBy).toBe(at('2026-11-26T10:00:00+01:00'));
    expect(is!.dueBy).toBe(at('2026-11-25T10:00:00+01:00'));
    expect(is!.state).toBe('due');
    expect(is!.item.id).toBe(was!.item.id);
    expect(is!.item.movedBy).toContain('Observation/hemlock-heron-751-8-1125-0740');
  });

  it('has met the damp dressing by its change, and made the next one', () => {
    const [was, is] = [before, after].map((items) => find(items, 'buckthorn-jugular', 'dressing-change'));
    expect(was!.state).toBe('overdue');
    expect(is!.dueBy).toBe(at('2026-12-02T08:05:00+01:00'));
    expect(is!.item.id).not.toBe(was!.item.id);
  });

  it('says which event met the item that was open', () => {
    const open = find(before, 'buckthorn-jugular', 'dressing-change').item;
    const care = careAt(demoUpdateInstant, demoUnit(), demoUpdate()).care;
    const met = care.flatMap((one) => one.met).filter(({ id }) => id === open.id);
    expect(met.map(({ by }) => by)).toEqual(['Procedure/buckthorn-jugular-dressing-change-1125-0805']);
  });

  it('has changed nothing else', () => {
    const rest = (items: readonly DueItem[]) =>
      items
        .filter(
          ({ line, activity }) => activity !== 'dressing-change' || !/hemlock|buckthorn-jugular/.test(line),
        )
        .map(({ id, dueBy, state }) => `${id} ${dueBy} ${state}`);
    expect(rest(after)).toEqual(rest(before));
  });
});
