import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { demoFiles, demoUnit, demoUpdate } from '@dwellward/fixtures';
import type { FhirResource } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { faultsOf } from './r4-validators.js';

const folder = fileURLToPath(new URL('../../fixtures/', import.meta.url));
describe('the demo unit', () => {
  const resources = [demoUnit(), demoUpdate()].flatMap((bundle): FhirResource[] =>
    (bundle.entry ?? []).flatMap(({ resource }) => (resource ? [resource] : [])),
  );

  it('is valid R4 in every resource, by two independent validators', () => {
    expect(resources.length).toBeGreaterThan(300);
    const against = resources.flatMap((resource) =>
      faultsOf(resource).map((fault) => `${resource.resourceType}/${resource.id ?? ''}: ${fault}`),
    );
    expect(against).toEqual([]);
  });

  it('is a pair of valid collection Bundles', () => {
    for (const bundle of [demoUnit(), demoUpdate()]) {
      expect(bundle.type).toBe('collection');
      expect(faultsOf(bundle)).toEqual([]);
    }
  });

  it('would be refused by the validators with a fault in it', () => {
    const procedure = resources.find((each) => each.resourceType === 'Procedure')!;
    expect(faultsOf({ ...procedure, performedDateTime: 5 } as never)).not.toEqual([]);
    expect(faultsOf({ ...procedure, status: 'finished' } as never)).not.toEqual([]);
  });

  it('gives every entry a full URL, and its resource an id that no other has', () => {
    const keys = resources.map((each) => `${each.resourceType}/${each.id ?? ''}`);
    expect(new Set(keys).size).toBe(keys.length);
    for (const { fullUrl, resource } of demoUnit().entry ?? []) {
      expect(fullUrl?.endsWith(`/${resource?.resourceType ?? ''}/${resource?.id ?? ''}`)).toBe(true);
    }
  });

  it('points only to what is there, but for the one lumen that the line does not have', () => {
    const keys = new Set(resources.map((each) => `${each.resourceType}/${each.id ?? ''}`));
    const pointed = new Set(
      [
        ...JSON.stringify(resources).matchAll(
          /"reference":"(?:https:\/\/lanternfern\.example\/fhir\/)?([^"#]+)"/g,
        ),
      ].map((match) => match[1]),
    );
    expect([...pointed].filter((each) => !keys.has(each!))).toEqual(['Device/hemlock-tunneled-green']);
  });

  it('covers every line-type, dressing and number of lumens', () => {
    const text = JSON.stringify(demoUnit());
    for (const code of [
      'tunneled-cvc',
      'nontunneled-cvc',
      'picc',
      'implanted-port',
      'tunneled-dialysis-catheter',
      'nontunneled-dialysis-catheter',
      'midline',
      'gauze-dressing',
      'transparent-dressing',
      'chlorhexidine-dressing',
    ]) {
      expect(text, code).toContain(`"code":"${code}"`);
    }
    const devices = resources.filter((each) => each.resourceType === 'Device');
    const lines = devices.filter((each) => !each.parent);
    expect(lines.length).toBeGreaterThanOrEqual(18);
    expect(resources.filter((each) => each.resourceType === 'Patient').length).toBeGreaterThanOrEqual(14);
    const childCounts = lines.map(
      (each) => devices.filter((child) => child.parent?.reference === `Device/${each.id ?? ''}`).length,
    );
    expect(new Set(childCounts)).toEqual(new Set([0, 1, 2, 3]));
  });
});

describe('the committed files', () => {
  it('are in step with the builder', () => {
    for (const [path, text] of demoFiles())
      expect(readFileSync(folder + path, 'utf8') === text, path).toBe(true);
    const inFolder = readdirSync(`${folder}lanternfern-unit-ndjson`).map(
      (name) => `lanternfern-unit-ndjson/${name}`,
    );
    expect(inFolder.sort()).toEqual(
      [...demoFiles().keys()].filter((path) => path.endsWith('.ndjson')).sort(),
    );
  });
});
