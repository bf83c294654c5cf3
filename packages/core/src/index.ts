export * from './board/index.js';
export * from './cards/index.js';
export * from './chart/index.js';
export { dueCare } from './due/due-care.js';
export { dueCareOfEach } from './due/due-care-of-each.js';
export { applyPlan, type ApplyOptions } from './apply/apply-plan.js';
export { Calendar, instantMs } from './timeline/calendar.js';
export { nextPolicyChange, policyAt } from './due/in-force.js';
export { nextChange } from './due/next-change.js';
export { CoreError, type CoreErrorCode, type CoreErrorFields, type InputErrorCode } from './model/error.js';
export type * from './model/care.js';
export type { CardHook, NotReadBecause } from './model/sentences/cards.js';
export { plainCare, type ComputedCare } from './plain/plain-care.js';
export { renderDraw } from './draw/render-draw.js';
export { renderExplanation, type ExplainedLine } from './explain/render-explanation.js';
export { renderRepair } from './repair/render-repair.js';
export { bloodDraw, drawTests, hasDrawSteps } from './draw/blood-draw.js';
export type * from './draw/model.js';
export { explain, planOf, ruleUri, type Explanation } from './explain/explain.js';
export { allIssues, dueBundle, dueResources } from './fhir/due-bundle.js';
export { carePolicies, policiesOf, policyKey } from './fhir/own.js';
export { transactionFor, type Reconciliation } from './fhir/transaction.js';
export { lineTokens, type LineTokens } from './record/search-tokens.js';
export * from './handover/index.js';
export type { ResourceEntry } from './model/resource-entry.js';
export { CodeMaps, type MapFinding } from './mapping/code-maps.js';
export { readCodeMaps, type CodeMapReading, type GivenMap } from './mapping/read-code-maps.js';
export type * from './model/record.js';
export { isResourceType } from './record/choices.js';
export { readResourceTypes } from './record/shapes.js';
export { readRecords, type ReadOptions } from './record/read-records.js';
export * from './codes/index.js';
export { renderPreview, type PreviewTextOptions } from './preview/render-preview.js';
export {
  itemOf,
  previewPolicy,
  type PolicyPreview,
  type PreviewChange,
  type PreviewKind,
} from './preview/preview-policy.js';
export {
  hasRepairSteps,
  repairJudgement,
  repairsOn,
  type JudgedPrecondition,
  type RepairJudgement,
  type RepairOptions,
} from './repair/repair-judgement.js';
export { priorityOf } from './rules/priority.js';
export { renderTable, type TableOptions } from './table/render-table.js';
export { fhirVersionOf, fhirVersions, versionOfProfiles, type FhirVersion } from './versions/fhir-version.js';
export { english } from './words/english.js';
export { inWords } from './words/in-words.js';
export { wrap } from './words/layout.js';
export type { Language, Speech, Wordings } from './words/language.js';
export { noLineFound, notUnderstoodSaid } from './words/not-understood.js';
export { eachOnOneLine, forTerminal, oneLine, safeJson } from './words/safe-text.js';
export { Refusal } from './words/refusal.js';
export { say, speaker, type Say } from './words/say.js';
export type { Sentence, SentenceCode, Sentences } from './model/sentences.js';
