import { dueBundle, dueCare, readRecords, type FhirVersion, type ResourceEntry } from '@dwellward/core';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { elsewhere, named } from './accounted.js';
import { examplesOf, partsOf, type Resource } from './packages.js';

// The examples of HL7: packages hl7.fhir.r4.examples, .r4b.examples, .r5.examples and hl7.fhir.uv.ips, CC0. US Core has no
// package in the registry.

const reading = readPolicy([bundledPlan('base'), bundledPlan('neutropenia')]);
if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
const { policy } = reading;
const when = { asOf: '2026-11-25T07:30:00+01:00', zone: 'Europe/Berlin' };

const packages: readonly (readonly [name: string, version: FhirVersion, files: number])[] = [
  ['hl7.fhir.r4.examples', 'R4', 5000],
  ['hl7.fhir.r4b.examples', 'R4B', 2500],
  ['hl7.fhir.r5.examples', 'R5', 2500],
  ['hl7.fhir.uv.ips', 'R4', 100],
];

/** Of these each one has to be in a line or listed. */
const mustBeAccounted = ['Device', 'Procedure'];

/** All that is done with a record, from reading to writing. */
function throughAll(entries: readonly ResourceEntry[]) {
  const records = readRecords(entries);
  const cares = records.lines.map((line) => dueCare(line, policy, when));
  if (cares.length > 0) dueBundle(records, cares, policy, when);
  return records;
}

/** A line of whoever a resource is about. */
function lineOf({ subject, patient }: Resource): ResourceEntry[] {
  const whose = (subject ?? patient) as { reference?: string } | undefined;
  if (whose?.reference === undefined) return [];
  const type = { coding: [{ system: 'http://snomed.info/sct', code: '445085009' }] };
  return [{ resource: { resourceType: 'Device', id: 'a-line', type, patient: whose } }];
}

/** The resource and those that it contains, by their references. */
function* withContained(resource: Resource): Generator<readonly [ref: string, type: string]> {
  const own = `${resource.resourceType}/${resource.id}`;
  yield [own, resource.resourceType];
  for (const one of (resource['contained'] ?? []) as readonly Resource[])
    yield [`${own}#${one.id}`, one.resourceType];
}

describe.each(packages)('%s', (name, version, atLeast) => {
  it('is read, file by file: nothing throws, and each Device and Procedure is in a line or listed', () => {
    const lost: string[] = [];
    const unread: string[] = [];
    const counts = new Map<string, number>();
    let files = 0;
    for (const { file, resource } of examplesOf(name)) {
      files += 1;
      for (const part of partsOf(resource)) {
        const records = throughAll([part]);
        unread.push(
          ...records.issues
            .filter(({ sentence }) =>
              ['element-left-out', 'another-version', 'one-of-several-elements'].includes(sentence.code),
            ) // prettier-ignore
            .map((issue) => `${file} ${issue.resource} ${issue.path} ${JSON.stringify(issue.sentence)}`),
        );
        // As it came, and beside a line of the same patient: what is charted of somebody with a line must be heard.
        const beside = throughAll([part, ...lineOf(part.resource)]);
        for (const type of mustBeAccounted) {
          const all = [...withContained(part.resource)].filter(([, one]) => one === type);
          counts.set(type, (counts.get(type) ?? 0) + all.length);
          for (const read of [records, beside]) {
            const told = named(read);
            const silent = all.filter(([ref]) => !told.has(ref));
            if (silent.length > elsewhere(read, type)) lost.push(...silent.map(([ref]) => `${file}: ${ref}`));
          }
        }
      }
    }
    console.log(
      `${name}: ${files} files; ${[...counts].map(([type, n]) => `${n - lost.filter((one) => one.includes(`: ${type}/`)).length} of ${n} ${type}`).join(', ')}`,
    );
    expect(lost).toEqual([]);
    // HL7’s own examples are valid: what of them can’t be read is our fault.
    expect(unread).toEqual([]);
    expect(files).toBeGreaterThan(atLeast);
  });

  it('is read as one record, whichever version is said, and nothing of it is silent', () => {
    const entries: ResourceEntry[] = [];
    for (const { resource } of examplesOf(name))
      // The definitions are no record; they would only fill the memory.
      for (const part of partsOf(resource))
        if (
          !/Definition$|^(ValueSet|CodeSystem|SearchParameter|ConceptMap)$/.test(part.resource.resourceType)
        )
          entries.push(part);
    const records = throughAll(entries);
    const told = named(records);
    for (const type of mustBeAccounted) {
      const refs = new Set(
        entries.flatMap(({ resource }) =>
          [...withContained(resource as Resource)].filter(([, one]) => one === type).map(([ref]) => ref),
        ),
      );
      const silent = [...refs].filter((ref) => !told.has(ref));
      expect(silent.length, `${type}: ${silent.join()}`).toBeLessThanOrEqual(elsewhere(records, type));
    }
    expect(readRecords(entries, { fhirVersion: version }).lines).toEqual(records.lines);
  });
});
