import { dueCare, readCodeMaps, readRecords, type LineRecord } from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { defaultPolicy } from '@dwellward/policy';
import type { Patient } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { chartedActs, flowsheetOf } from './flowsheet.js';

// What the demo unit’s own record asks for is what is expected of the chart, wherever such a chart can tell it.

const policy = defaultPolicy();
const when = { asOf: demoInstant, zone: demoZone };
const unit = demoUnit();
const records = readRecords(unit.entry ?? []);
const patients = (unit.entry ?? []).flatMap(({ resource }) =>
  resource?.resourceType === 'Patient' ? [resource as Patient] : [],
);

/** Of patients with one line, so that the columns of a stay are that line’s; what only a Device tells is left out. */
const lines = records.lines.filter(
  ({ patient, type, planned }) =>
    type !== undefined &&
    planned === undefined &&
    records.lines.filter((other) => other.patient.ref === patient.ref).length === 1,
);
/** The same lines as far as the chart has rows for them: the acts, on the line as a whole. */
const asCharted = (line: LineRecord): LineRecord => ({
  ...line,
  lumens: [{ ref: line.ref, device: line.ref, name: { code: 'the-lumen' } }],
  events: line.events
    .filter(({ activity }) => chartedActs.some((one) => one === activity))
    .map(({ lumen: _, ...event }) => event),
  findings: [],
  infusions: [],
  orders: [],
  patient: { ...line.patient, measurements: [], alerts: [], stays: [], drawn: [] },
});
const { bundle, map } = flowsheetOf(lines, patients);
const reading = readCodeMaps([{ name: 'bellwether.json', resource: map }]);
const maps = reading.ok ? reading.maps : undefined;
const is = readRecords(bundle.entry ?? [], maps === undefined ? {} : { maps });

const wanted: ReadonlySet<string> = new Set([
  'dressing-change',
  'needleless-connector-change',
  'administration-set-change',
  'necessity-review',
]);
const itemsOf = (line: LineRecord) =>
  dueCare(line, policy, when)
    .items.filter(({ activity }) => wanted.has(activity))
    .map(({ activity, state, opens, dueBy }) => ({ activity, state, opens, dueBy }))
    .sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));

describe('an intensive-care flowsheet without any Device or Procedure', () => {
  it('is mapped, and has no line without its map', () => {
    expect(reading.findings).toEqual([]);
    expect(JSON.stringify(bundle)).not.toMatch(/"resourceType":"(Device|Procedure)"|dwellward\.example/);
    const without = readRecords(bundle.entry ?? []);
    expect(without.lines).toEqual([]);
  });

  it('gives a line for each, of its type', () => {
    expect(lines.length).toBeGreaterThan(8);
    const told = (all: readonly LineRecord[]) =>
      all.map(({ patient, type }) => `${patient.ref} ${type}`).sort();
    expect(told(is.lines)).toEqual(told(lines));
  });

  it.each(lines.map((line) => [line.patient.ref, line] as const))(
    '%s: the same dressing, connector, set and necessity items as the record that it was made from',
    (patient, line) => {
      const worked = is.lines.find((one) => one.patient.ref === patient);
      const expected = itemsOf(asCharted(line));
      expect(expected.length).toBeGreaterThan(1);
      expect(worked === undefined ? [] : itemsOf(worked)).toEqual(expected);
    },
  );

  it('says of each line that it was worked out, and what the chart does not tell of it', () => {
    const said = is.issues
      .filter(({ code }) => code === 'assumed')
      .map(({ line, resource }) => line ?? resource);
    for (const { ref } of is.lines) expect(said.filter((one) => one === ref)).toHaveLength(1);
  });

  it('keeps the name of a line when rows are added, and whatever their order', () => {
    const fewer = (bundle.entry ?? []).filter(
      ({ resource }) => !resource?.id?.endsWith('necessity-review-1'),
    );
    const names = (of: typeof fewer) =>
      readRecords(of, maps === undefined ? {} : { maps })
        .lines.map(({ ref }) => ref)
        .sort();
    expect(names([...fewer].reverse())).toEqual(is.lines.map(({ ref }) => ref).sort());
  });
});
