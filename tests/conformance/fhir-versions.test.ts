import { dueCare, readRecords, type ReadOptions, type Records, type ResourceEntry } from '@dwellward/core';
import {
  demoInstant,
  demoPolicyLayers,
  demoUnit,
  demoUpdate,
  demoUpdateInstant,
  demoZone,
} from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import type { Bundle, FhirResource } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { asR5 } from './as-r5.js';

const reading = readPolicy(demoPolicyLayers.map((name) => bundledPlan(name)));
if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
const { policy } = reading;

const bundles = [demoUnit(), demoUpdate()];
const inR4: ResourceEntry[] = bundles.flatMap(({ entry = [] }) =>
  entry.map(({ resource, fullUrl }) => ({ resource, fullUrl: fullUrl! })),
);
const inR5: ResourceEntry[] = bundles.flatMap((bundle) => asR5(bundle as Bundle<FhirResource>));

/** Due care of all lines, as plain data. */
function care(entries: readonly ResourceEntry[], options?: ReadOptions) {
  const records = readRecords(entries, options);
  const at = (asOf: string) => records.lines.map((line) => dueCare(line, policy, { asOf, zone: demoZone }));
  return { records, cares: [...at(demoInstant), ...at(demoUpdateInstant)] };
}

// What R5 calls otherwise is named as it came.
const renamed = ({ lines, issues, notUnderstood }: Records): unknown =>
  JSON.parse(
    JSON.stringify({ lines, issues, notUnderstood }).replaceAll('DeviceUsage/', 'DeviceUseStatement/'),
  );

const frozen = <T>(value: T): T => {
  if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
  return value;
};

describe('the demo unit as an R5 server has it', () => {
  const plain = care(inR4);

  it('is R5 in earnest: nothing of a Device, a Procedure or an Encounter is left as R4 has it', () => {
    const text = JSON.stringify(inR5);
    for (const element of [
      'deviceName',
      'performedDateTime',
      'usedCode',
      'effectivePeriod',
      'DeviceUseStatement',
    ])
      expect(text).not.toContain(`"${element}"`);
    const types = new Set(inR5.map(({ resource }) => (resource as { resourceType: string }).resourceType));
    expect([...types]).toEqual(expect.arrayContaining(['DeviceAssociation', 'DeviceUsage']));
  });

  it('has the same due care, item by item, and says nothing more', () => {
    const other = care(frozen(inR5));
    expect(plain.cares.flatMap(({ items }) => items).length).toBeGreaterThan(300);
    expect(other.cares).toEqual(plain.cares);
    expect(renamed(other.records)).toEqual(renamed(plain.records));
  });

  it('has it too where the version is said', () => {
    expect(care(inR5, { fhirVersion: 'R5' }).cares).toEqual(plain.cares);
    expect(care(inR4, { fhirVersion: 'R4B' }).records).toEqual(plain.records);
  });

  it('has it too where every other resource comes from an R4 server', () => {
    const named = (entries: readonly ResourceEntry[]) =>
      new Map(entries.map((one) => [one.fullUrl ?? '', one]));
    const [r4, r5] = [named(inR4), named(inR5)];
    const mixed = [...r4].map(([url, entry], i) => (i % 2 === 0 ? entry : (r5.get(url) ?? entry)));
    expect(
      care([...mixed, ...inR5.filter(({ fullUrl }) => fullUrl?.includes('DeviceAssociation'))]).cares,
    ).toEqual(plain.cares);
  });

  it('taken for R4 is read as R5 all the same, and that is said once', () => {
    const { cares, records } = care(inR5, { fhirVersion: 'R4' });
    expect(cares).toEqual(plain.cares);
    const said = records.issues.filter(({ sentence }) => sentence.code === 'another-version');
    expect(said).toHaveLength(1);
    expect(said[0]!.sentence).toMatchObject({
      said: 'R4',
      found: 'R5',
      elements: expect.arrayContaining(['Device.type', 'Procedure.occurrenceDateTime']) as string[],
    });
  });
});
