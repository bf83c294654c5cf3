import type { ActivityDefinition, PlanDefinition } from 'fhir/r4.js';
import { choiceLayerNames, choiceLayers, type ChoiceLayerName } from './choice-layers.js';
import { choicePlan } from './choice-plan.js';
import { plan as base } from './plans/base.js';
import { plan as bloodSampling } from './plans/blood-sampling.js';
import { plan as commonPractice } from './plans/common-practice.js';
import { plan as dialysis } from './plans/dialysis.js';
import { plan as homeCare } from './plans/home-care.js';
import { plan as infant } from './plans/infant.js';
import { plan as intensiveCare } from './plans/intensive-care.js';
import { plan as neutropenia } from './plans/neutropenia.js';
import { plan as occlusion } from './plans/occlusion.js';
import { plan as postInsertion } from './plans/post-insertion.js';
import { plan as preparation } from './plans/preparation.js';
import { plan as removal } from './plans/removal.js';
import { plan as repairCare } from './plans/repair-care.js';
import { plan as trouble } from './plans/trouble.js';

const plans = {
  base,
  'blood-sampling': bloodSampling,
  'common-practice': commonPractice,
  dialysis,
  'home-care': homeCare,
  infant,
  'intensive-care': intensiveCare,
  neutropenia,
  occlusion,
  'post-insertion': postInsertion,
  preparation,
  removal,
  'repair-care': repairCare,
  trouble,
} as const;

/** The name of a bundled layer to lay over the base. */
export type UnitLayerName = Exclude<keyof typeof plans, 'base'>;

/** The name of a bundled policy. */
export type BundledPlanName = keyof typeof plans | ChoiceLayerName;

/** Bundled layers of units and of care, to lay over the base. */
export const unitLayerNames: readonly UnitLayerName[] = [
  'blood-sampling',
  'common-practice',
  'dialysis',
  'home-care',
  'infant',
  'intensive-care',
  'neutropenia',
  'occlusion',
  'post-insertion',
  'preparation',
  'removal',
  'repair-care',
  'trouble',
];

/**
 * The bundled policies: `base` from published guidelines, the layers of units, and one layer for each published
 * reading that differs from the base (`choices` tells of them).
 */
export const bundledPlanNames: readonly BundledPlanName[] = ['base', ...unitLayerNames, ...choiceLayerNames];

/**
 * A bundled policy as a PlanDefinition of HL7 FHIR R4. Every call gives a copy of its own, which may be changed.
 * `base` cites its sources rule by rule; values marked `from memory` are to be checked before use.
 */
export function bundledPlan(name: BundledPlanName): PlanDefinition {
  if (isPlan(name)) return JSON.parse(JSON.stringify(plans[name])) as PlanDefinition;
  return choicePlan(name, choiceLayers[name], bundledPlan('base'));
}

function isPlan(name: BundledPlanName): name is keyof typeof plans {
  return Object.hasOwn(plans, name);
}

/** The bundled ActivityDefinitions, which any plan may name by their url. */
export const bundledActivities: readonly ActivityDefinition[] = [];
