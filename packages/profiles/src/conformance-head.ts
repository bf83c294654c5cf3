import { base } from './base.js';

/** What the code systems, value sets and maps of the project have in common. */
export function conformanceHead<Type extends 'CodeSystem' | 'ValueSet' | 'ConceptMap'>(
  resourceType: Type,
  id: string,
  title: string,
) {
  return {
    resourceType,
    id,
    url: `${base}/${resourceType}/${id}`,
    version: '0.1.0',
    name: title.replace(/\s+(.)/g, (_, letter: string) => letter.toUpperCase()),
    title,
    status: 'draft',
    experimental: false,
    publisher: 'Dwellward',
  } as const;
}
