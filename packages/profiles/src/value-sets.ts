import type { ValueSet } from 'fhir/r4.js';
import { codeSystem } from './base.js';
import { codeSystems } from './code-systems.js';
import { conformanceHead } from './conformance-head.js';

type Include = NonNullable<ValueSet['compose']>['include'];

/**
 * The value sets that the profiles bind to, as FHIR resources, in the order of their ids: one for each code system, and
 * those that join or choose codes.
 * @example
 * ```ts
 * valueSets().some(({ url }) => url?.endsWith('/ValueSet/line-type')); // true
 * ```
 */
export function valueSets(): ValueSet[] {
  const whole = codeSystems()
    .filter(({ content }) => content === 'complete')
    .map(({ id = '', url = '', title = '' }) => valueSet(id, title, [{ system: url }]));
  return [...whole, putOn, activityKind].sort((a, b) => ((a.id ?? '') < (b.id ?? '') ? -1 : 1));
}

function valueSet(id: string, title: string, include: Include): ValueSet {
  return {
    ...conformanceHead('ValueSet', id, title),
    description: `${title}: the codes that the profiles of Dwellward take.`,
    compose: { include },
  };
}

const putOn = valueSet('put-on', 'Put on', [
  { system: codeSystem.dressingType },
  { system: codeSystem.securementType },
]);

// HL7 FHIR R4, request-resource-types: of these an activity here is one that is to be done, or one that must not be.
const activityKind = valueSet('activity-kind', 'Activity kind', [
  {
    system: 'http://hl7.org/fhir/request-resource-types',
    concept: [{ code: 'Task' }, { code: 'ServiceRequest' }],
  },
]);
