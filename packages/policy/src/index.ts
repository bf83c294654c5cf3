export type { Condition, ConditionKind, Ending, Truth } from './condition.js';
export { conditionParts, type ComparedTime, type Comparison, type ConditionPart } from './condition-parts.js';
export {
  always,
  compileCondition,
  type ConditionOptions,
  type ConditionProblem,
  type ConditionReading,
} from './condition-compile.js';
export {
  camelCase,
  factKind,
  factKinds,
  factNames,
  factSubject,
  isFactName,
  type CareSetting,
  type FactName,
  type Facts,
  type FactSubject,
  type FoundName,
  type Kind,
  type LastName,
  type LatestName,
  type QuantityRange,
  type StaticFactName,
  type StaticFacts,
  type TimeFactName,
  type TimeRange,
  type TriggerFactName,
} from './facts.js';
export { findingsReadBy, readsFinding, type FindingRead } from './findings-read.js';
export type * from './model.js';
export { scheduleText, spanText, timedOf, type Timed } from './schedule-text.js';
export { calculatedNames, readStep, stepText, type StepReading } from './steps.js';
export { readSpan, type DurationReading } from './spans.js';
export {
  readTiming,
  type Recurrence,
  type TimingOptions,
  type TimingProblem,
  type TimingReading,
} from './timing.js';
export { nearest } from './nearest.js';
export { convertUnit, type Conversion } from './units.js';
export type { LintFinding } from './findings.js';
export { lintCodes, type LintCode } from './lint-codes.js';
export { lintPlan, readPolicy, type PolicyOptions, type PolicyReading } from './read-policy.js';
export {
  asksTheSame,
  diffPolicies,
  ruleDifferences,
  type ChangedRule,
  type PolicyDiff,
  type RuleDifference,
} from './diff.js';
export {
  policyExamples,
  policyExamplesFsh,
  policyTemplate,
  policyTemplateFsh,
  type TemplateOptions,
} from './template.js';
export {
  bundledActivities,
  bundledPlan,
  bundledPlanNames,
  choiceLayerNames,
  defaultLayerNames,
  defaultPlans,
  isDefaultLayer,
  overDefault,
  unitLayerNames,
  type BundledPlanName,
  type ChoiceLayerName,
  type DefaultLayerName,
  type UnitLayerName,
} from './bundled.js';
export { defaultPolicy } from './default-policy.js';
export { choices, type Choice, type ChoicePlace, type ChoiceReading } from './choices.js';
