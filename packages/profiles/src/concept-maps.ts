import type { ConceptMap, ConceptMapGroupElement } from 'fhir/r4.js';
import { activityCodes, activityRow } from './activity-queries.js';
import { codeSystem, standard } from './base.js';
import { displayOf } from './code-systems.js';
import { conformanceHead } from './conformance-head.js';
import { deviceCodes, insertionCodes } from './standard-codes.js';

/**
 * How codes of SNOMED CT are read without a map of a hospital’s own, as FHIR resources: Devices, and Procedures. The
 * insertion of one kind of line is narrower than ours, and a code that means care of a line only where it was done to one is
 * wider: `equivalence` says so.
 * @example
 * ```ts
 * conceptMaps().map(({ id }) => id); // ['snomed-device', 'snomed-procedure']
 * ```
 */
export function conceptMaps(): ConceptMap[] {
  const devices = [...deviceCodes].flatMap(([code, { type }]): ConceptMapGroupElement[] =>
    type === undefined ? [] : [{ code, target: [{ ...ours('lineType', type), equivalence: 'equivalent' }] }],
  );
  const procedures = activityCodes.flatMap((activity): ConceptMapGroupElement[] => {
    const { snomed = [], snomedOnLine = [] } = activityRow(activity);
    const target = ours('lineCareActivity', activity);
    return [
      ...snomed.map((code) => ({
        code,
        target: [{ ...target, equivalence: insertionCodes.has(code) ? 'wider' : 'equivalent' }],
      })),
      ...snomedOnLine.map((code) => ({
        code,
        target: [
          { ...target, equivalence: 'narrower', comment: 'Only of a Procedure that was done to a line.' },
        ],
      })),
    ] as ConceptMapGroupElement[];
  });
  return [
    conceptMap('snomed-device', 'Devices in SNOMED CT', codeSystem.lineType, devices),
    conceptMap('snomed-procedure', 'Procedures in SNOMED CT', codeSystem.lineCareActivity, procedures),
  ];
}

function ours(system: 'lineType' | 'lineCareActivity', code: string) {
  return { code, display: displayOf(system, code) };
}

function conceptMap(
  id: string,
  title: string,
  target: string,
  element: readonly ConceptMapGroupElement[],
): ConceptMap {
  return {
    ...conformanceHead('ConceptMap', id, title),
    description: `${title}: how they are read where no map of the hospital says otherwise.`,
    group: [{ source: standard.snomed, target, element: [...element] }],
  };
}
