import type { ActivityDefinition, PlanDefinition } from 'fhir/r4.js';
import { activityTexts } from './generated/activities.js';
import { planTexts, type PlanName } from './generated/plans.js';

/** The name of a bundled policy. */
export type BundledPlanName = PlanName;

/**
 * What everybody gets unless a layer is left out by name: the base, and over it the care of lines in the first year of life,
 * the first steps in trouble, the treatment of a blocked lumen, and damage with its repair. Without them a charted
 * emergency is answered by nothing, and the idle line of an infant is flushed by no rule.
 */
export const defaultLayerNames = [
  'base',
  'first-year',
  'trouble',
  'occlusion',
  'repair-care',
] as const satisfies readonly PlanName[];

/** The name of a layer of the default. */
export type DefaultLayerName = (typeof defaultLayerNames)[number];

/** The name of a bundled choice layer. */
export type ChoiceLayerName = Extract<PlanName, `choice-${string}`>;

/** The name of a bundled layer to lay over the base. */
export type UnitLayerName = Exclude<PlanName, 'base' | ChoiceLayerName>;

/** Bundled layers of units and of care, to lay over the base. */
export const unitLayerNames: readonly UnitLayerName[] = [
  'blood-sampling',
  'common-practice',
  'dialysis',
  'first-year',
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
 * The readings of published sources that are a schedule or its work, one layer each, in the order of the
 * disagreements. `choices` says of each disagreement which of them there are and which the base takes.
 */
export const choiceLayerNames: readonly ChoiceLayerName[] = [
  'choice-set-96-hours',
  'choice-set-cdc-2002-72-hours',
  'choice-intermittent-set-cdc-unresolved',
  'choice-fat-emulsion-set-cdc-24-hours',
  'choice-blood-set-cdc-24-hours',
  'choice-blood-set-epic3-12-hours',
  'choice-parenteral-nutrition-set-96-hours',
  'choice-parenteral-nutrition-set-cdc-none',
  'choice-transparent-dressing-5-days',
  'choice-transparent-dressing-tunneled-weekly',
  'choice-connector-cdc-72-hours',
  'choice-chlorhexidine-dressing-cdc-18-years',
  'choice-chlorhexidine-dressing-shea-2-months',
  'choice-lock-saline',
  'choice-lock-heparin',
  'choice-port-8-weeks',
  'choice-port-3-months',
  'choice-dialysis-lock-heparin-1000',
  'choice-dialysis-lock-citrate-4',
  'choice-dialysis-lock-heparin-5000',
  'choice-dialysis-lock-weekly-enzyme',
];

/**
 * The bundled policies: `base` from published guidelines, the layers of units, and one layer for each published
 * reading that differs from the base (`choices` tells of them).
 */
export const bundledPlanNames: readonly BundledPlanName[] = ['base', ...unitLayerNames, ...choiceLayerNames];

/**
 * A bundled policy as a PlanDefinition of HL7 FHIR R4. Every call gives a copy of its own, which may be changed.
 * `base` cites its sources rule by rule; values marked `from memory` are to be checked before use.
 * @example
 * ```ts
 * bundledPlan('base').url; // 'https://dwellward.example/fhir/PlanDefinition/base'
 * ```
 */
export function bundledPlan(name: BundledPlanName): PlanDefinition {
  return JSON.parse(planTexts[name]) as PlanDefinition;
}

/**
 * The layers in force: those of the default first, less the ones left out, then the others in the order given; each once.
 *
 * @param layers names of bundled layers, or whatever else stands for a layer of one's own.
 * @param without names of the default's layers to leave out.
 * @example
 * ```ts
 * overDefault(['neutropenia'], ['trouble']).includes('trouble'); // false
 * ```
 */
export function overDefault(
  layers: readonly string[],
  without: readonly DefaultLayerName[] = [],
): readonly string[] {
  const names = new Set<string>([...defaultLayerNames, ...layers]);
  for (const name of without) names.delete(name);
  return [...names];
}

/**
 * Whether a name is that of a layer of the default.
 * @example
 * ```ts
 * isDefaultLayer('base'); // true
 * isDefaultLayer('neutropenia'); // false
 * ```
 */
export function isDefaultLayer(name: string): name is DefaultLayerName {
  return (defaultLayerNames as readonly string[]).includes(name);
}

/**
 * The plans of the default, to lay others over them: `readPolicy([...defaultPlans(), ours])`.
 *
 * @param without names of the default's layers to leave out.
 * @example
 * ```ts
 * defaultPlans(['trouble']).length < defaultPlans().length; // true
 * ```
 */
export function defaultPlans(without: readonly DefaultLayerName[] = []): PlanDefinition[] {
  return defaultLayerNames.filter((name) => !without.includes(name)).map(bundledPlan);
}

/**
 * The bundled ActivityDefinitions, which any plan may name by their url: what a Task carries, and for every activity
 * that can be forbidden one that forbids it, `no-ACTIVITY`.
 */
export const bundledActivities: readonly ActivityDefinition[] = activityTexts.map(
  (text) => JSON.parse(text) as ActivityDefinition,
);
