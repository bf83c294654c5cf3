import { readFileSync, readdirSync } from 'node:fs';
import type { StructureDefinition } from 'fhir/r4.js';

const resources = new URL('../../packages/policy/resources/', import.meta.url);

/** The StructureDefinitions of the extensions that plans and ActivityDefinitions have. */
export const declarations: readonly StructureDefinition[] = readdirSync(resources)
  .filter((name) => name.startsWith('StructureDefinition-'))
  .map((name) => JSON.parse(readFileSync(new URL(name, resources), 'utf8')) as StructureDefinition);
