import { chartedBundle, readRecords } from '@dwellward/core';
import { demoUnit } from '@dwellward/fixtures';
import { findingCodes, findingRow, saysWell, valuesOf, writtenProfile } from '@dwellward/profiles';
import type { FhirResource } from 'fhir/r4.js';
import { expect, it } from 'vitest';
import { allFaultsOf } from './profiles.js';

// What is charted on the board, against two independent validators and our own profiles: every finding in each of its
// values, and an act with all that can be said of it.

const { lines } = readRecords(demoUnit().entry ?? []);
const fine = { first: [], second: [], profile: [] };
const line = lines.find(({ ref }) => ref === 'Device/alder-tunneled');
if (!line) throw new Error('The demo unit has lost a line.');

const findings = findingCodes
  .filter((finding) => findingRow(finding).component === undefined)
  .flatMap((finding) => {
    const { kind } = findingRow(finding);
    if (kind === 'quantity') return [{ finding, quantity: '36.5' }];
    const values = valuesOf(finding);
    return values === undefined ? [{ finding }] : values.map((value) => ({ finding, value }));
  });

it('every finding in each of its values is a valid Observation, and is read back without a doubt', () => {
  expect(findings.length).toBeGreaterThan(30);
  for (const [at, finding] of findings.entries()) {
    const { entry = [] } = chartedBundle(
      {
        id: `c-${at}`,
        line: line.ref,
        ...(findingRow(finding.finding).scope === 'lumen' ? { lumen: line.lumens[0]?.ref ?? '' } : {}),
        findings: [finding],
        at: '2026-11-25T07:00:00+01:00',
        by: 'N. Nurse',
        note: 'seen at the bedside',
      },
      line,
    );
    const [resource] = entry.map((one) => one.resource as FhirResource | undefined);
    if (!resource) throw new Error('Nothing was made of it.');
    expect(allFaultsOf(resource, [writtenProfile.finding]), JSON.stringify(finding)).toEqual(fine);
    const again = readRecords([...(demoUnit().entry ?? []), { resource: { ...resource, id: `c-${at}` } }]);
    const about = [
      ...again.issues.map((one) => one.resource),
      ...again.notUnderstood.flatMap((one) => one.examples),
    ];
    expect(about, JSON.stringify(finding)).not.toContain(`Observation/c-${at}`);
    const read = again.lines
      .find(({ ref }) => ref === line.ref)
      ?.findings.find(({ ref }) => ref === `Observation/c-${at}`);
    expect(read?.finding, JSON.stringify(finding)).toBe(finding.finding);
    const { value } = finding as { value?: string };
    if (value !== undefined && !saysWell(finding.finding, value)) expect(read?.values).toContain(value);
  }
});

it('an act with all that can be said of it is a valid Procedure', () => {
  const { entry = [] } = chartedBundle(
    {
      id: 'c',
      line: line.ref,
      activity: 'dressing-change',
      findings: [],
      at: '2026-11-25T07:00:00+01:00',
      by: 'N. Nurse',
      putOn: 'gauze-dressing',
      note: 'damp before',
    },
    line,
  );
  const [resource] = entry.map((one) => one.resource as FhirResource | undefined);
  expect(resource && allFaultsOf(resource, [writtenProfile.careEvent])).toEqual(fine);
});
