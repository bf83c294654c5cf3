export type { Condition, Truth } from './condition.js';
export { compileCondition, type ConditionProblem, type ConditionReading } from './condition-compile.js';
export {
  factKinds,
  factWords,
  type CareSetting,
  type FactName,
  type Facts,
  type QuantityRange,
} from './facts.js';
export type * from './model.js';
export { scheduleText, spanText } from './schedule-text.js';
export { calculatedNames, readStep, stepText, type StepReading } from './steps.js';
export { readSpan, type DurationReading } from './spans.js';
export { readTiming, type TimingOptions, type TimingProblem, type TimingReading } from './timing.js';
export { convertUnit, type Conversion } from './units.js';
export type { LintFinding } from './findings.js';
export { lintPlan, readPolicy, type PolicyReading } from './read-policy.js';
export {
  asksTheSame,
  diffPolicies,
  ruleDifferences,
  type ChangedRule,
  type PolicyDiff,
  type RuleDifference,
} from './diff.js';
export { policyTemplate, type TemplateOptions } from './template.js';
export {
  bundledPlan,
  bundledPlanNames,
  unitLayerNames,
  type BundledPlanName,
  type UnitLayerName,
} from './bundled.js';
export { choices, type Choice, type ChoicePlace, type ChoiceReading } from './choices.js';
export { choiceLayerNames, type ChoiceLayerName } from './choice-layers.js';
