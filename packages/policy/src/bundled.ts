import type { PlanDefinition } from 'fhir/r4.js';
import { plan as base } from './plans/base.js';
import { plan as neutropenia } from './plans/neutropenia.js';
import { plan as repairCare } from './plans/repair-care.js';

const plans = { base, neutropenia, 'repair-care': repairCare } as const;

/** The name of a bundled policy. */
export type BundledPlanName = keyof typeof plans;

/** The bundled policies: `base` from published guidelines, the others unit layers to lay over it. */
export const bundledPlanNames: readonly BundledPlanName[] = ['base', 'neutropenia', 'repair-care'];

/**
 * A bundled policy as a PlanDefinition of HL7 FHIR R4. Every call gives a copy of its own, which may be changed.
 * `base` cites its sources rule by rule; values marked `from memory` are to be checked before use.
 */
export function bundledPlan(name: BundledPlanName): PlanDefinition {
  return JSON.parse(JSON.stringify(plans[name])) as PlanDefinition;
}
