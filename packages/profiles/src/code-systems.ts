import type { CodeSystem } from 'fhir/r4.js';
import { base, codeSystem } from './base.js';
import { chartedItemConcepts, findingValueConcepts } from './charted-items.js';
import { lineCareActivities } from './activity-queries.js';
import * as codes from './codes.js';
import { conformanceHead } from './conformance-head.js';
import { activityProperties, findingProperties, type ConceptProperties } from './concept-properties.js';
import { lineFindings } from './findings.js';
import { substanceConcepts } from './substances.js';

const titles: Record<keyof typeof codeSystem, [title: string, concepts: readonly codes.Concept[]]> = {
  lineType: ['Line type', codes.lineTypes],
  lineProperty: ['Line property', codes.lineProperties],
  lineCareActivity: ['Line care activity', lineCareActivities],
  lineFinding: ['Line finding', lineFindings],
  dressingType: ['Dressing type', codes.dressingTypes],
  securementType: ['Securement type', codes.securementTypes],
  dressingCondition: ['Dressing condition', codes.dressingConditions],
  connectorCondition: ['Connector condition', codes.connectorConditions],
  lineSite: ['Line site', codes.lineSites],
  findingValue: ['Finding value', findingValueConcepts],
  chartedItem: ['Charted item', chartedItemConcepts],
  chartedText: ['Charted text', []],
  infusate: ['Infusate', codes.infusates],
  taskInput: ['Task input', codes.taskInputs],
  taskOutput: ['Task output', codes.taskOutputs],
  dueState: ['Due state', codes.dueStates],
  lumenState: ['Lumen state', codes.lumenStates],
  closingReason: ['Closing reason', codes.closingReasons],
  hold: [
    'Hold',
    lineCareActivities.map(([code, display]) => [
      code,
      `No ${display.toLowerCase()} for now`,
      `${display} must wait.`,
    ]),
  ],
  recordIssue: ['Record issue', codes.recordIssues],
  substance: ['Substance', substanceConcepts],
};

const properties: Partial<Record<keyof typeof codeSystem, ConceptProperties>> = {
  lineCareActivity: activityProperties,
  lineFinding: findingProperties,
};

/**
 * The project’s code systems as FHIR resources, in the order of their names.
 * @example
 * ```ts
 * codeSystems().find(({ name }) => name === 'LineType')?.concept?.map(({ code }) => code).includes('picc'); // true
 * ```
 */
export function codeSystems(): CodeSystem[] {
  return Object.entries(titles).map(([key, [title, concepts]]) => {
    const url = codeSystem[key as keyof typeof codeSystem];
    const { defined = [], of = () => [] } = properties[key as keyof typeof codeSystem] ?? {};
    const id = url.slice(`${base}/CodeSystem/`.length);
    return {
      ...conformanceHead('CodeSystem', id, title),
      description: `${title}: the codes of Dwellward.`,
      caseSensitive: true,
      // A hospital’s texts are its own: none is listed.
      ...(concepts.length === 0
        ? ({ content: 'not-present' } as const)
        : ({ content: 'complete', count: concepts.length } as const)),
      ...(defined.length > 0 ? { property: [...defined] } : {}),
      ...(concepts.length === 0 ? {} : { concept: concepts.map(conceptOf(of)) }),
    };
  });
}

const conceptOf =
  (of: ConceptProperties['of']) =>
  ([code, display, definition]: codes.Concept) => {
    const property = of(code);
    return { code, display, definition, ...(property.length > 0 ? { property } : {}) };
  };

/**
 * The display of a code, or the code itself where it is not one of ours.
 * @example
 * ```ts
 * displayOf('lineType', 'picc'); // 'Peripherally inserted central catheter'
 * ```
 */
export function displayOf(system: keyof typeof codeSystem, code: string): string {
  return titles[system][1].find(([known]) => known === code)?.[1] ?? code;
}

/**
 * A Coding of one of the project’s code systems, with its display.
 * @example
 * ```ts
 * coding('lineCareActivity', 'flush').display; // 'Flush'
 * ```
 */
export function coding(system: keyof typeof codeSystem, code: string) {
  return { system: codeSystem[system], code, display: displayOf(system, code) };
}
