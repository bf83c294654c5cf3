import { randomUUID } from 'node:crypto';
import type { CareCard } from '@dwellward/core';
import type { Procedure } from 'fhir/r4.js';

/** A card as CDS Hooks 2.0 has it (https://cds-hooks.hl7.org/2.0/#card-attributes). */
export interface CardJson {
  readonly uuid: string;
  readonly summary: string;
  readonly indicator: CareCard['urgency'];
  readonly detail?: string;
  readonly source: CareCard['source'];
  readonly suggestions?: readonly SuggestionJson[];
  readonly selectionBehavior?: 'any';
}

interface SuggestionJson {
  readonly label: string;
  readonly uuid: string;
  readonly actions: readonly {
    readonly type: 'create';
    readonly description: string;
    readonly resource: Procedure;
  }[];
}

/** A card in the format of CDS Hooks. Its uuid is new each time: it names this showing of it, for the feedback. */
export function cardJson({ summary, urgency, parts, source, acts }: CareCard): CardJson {
  const suggestions = acts.map(({ label, procedures }) => ({
    label,
    uuid: randomUUID(),
    actions: procedures.map(({ text, resource }) => ({
      type: 'create' as const,
      description: text,
      resource,
    })),
  }));
  const detail = parts
    .flatMap(({ text, more }) => [
      `- ${markdownText(text)}`,
      ...more.map((one) => `  - ${markdownText(one)}`),
    ])
    .join('\n');
  return {
    uuid: randomUUID(),
    summary,
    indicator: urgency,
    ...(detail === '' ? {} : { detail }),
    source,
    ...(suggestions.length > 0 ? { suggestions, selectionBehavior: 'any' as const } : {}),
  };
}

/**
 * A text that Markdown shows as it is: names come from records, and none may become a link, a picture or markup. A
 * backslash before an ASCII mark takes its meaning (GitHub Flavored Markdown, 6.1 and 6.9).
 */
export function markdownText(text: string): string {
  return text
    .replace(/[\\`*_{}[\]<>|~&!@]/g, '\\$&')
    .replace(/:(?=\/\/)/g, '\\:')
    .replace(/www\./gi, (found) => `${found.slice(0, 3)}\\.`)
    .replace(/^(\s*)([#+-])/, '$1\\$2')
    .replace(/^(\s*\d+)([.)])/, '$1\\$2');
}
