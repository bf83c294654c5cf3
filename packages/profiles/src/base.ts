/** The canonical base of everything Dwellward defines. `.example` is reserved (RFC 2606); no domain is owned. */
export const base = 'https://dwellward.example/fhir';

/** Code system canonicals of this project. */
export const codeSystem = {
  lineType: `${base}/CodeSystem/line-type`,
  lineProperty: `${base}/CodeSystem/line-property`,
  lineCareActivity: `${base}/CodeSystem/line-care-activity`,
  lineFinding: `${base}/CodeSystem/line-finding`,
  dressingType: `${base}/CodeSystem/dressing-type`,
  securementType: `${base}/CodeSystem/securement-type`,
  dressingCondition: `${base}/CodeSystem/dressing-condition`,
  connectorCondition: `${base}/CodeSystem/connector-condition`,
  lineSite: `${base}/CodeSystem/line-site`,
  findingValue: `${base}/CodeSystem/finding-value`,
  chartedItem: `${base}/CodeSystem/charted-item`,
  /** In a map of codes: the text of a record that has no code, as it is written. */
  chartedText: `${base}/CodeSystem/charted-text`,
  infusate: `${base}/CodeSystem/infusate`,
  taskInput: `${base}/CodeSystem/task-input`,
  taskOutput: `${base}/CodeSystem/task-output`,
  dueState: `${base}/CodeSystem/due-state`,
  lumenState: `${base}/CodeSystem/lumen-state`,
  closingReason: `${base}/CodeSystem/closing-reason`,
  hold: `${base}/CodeSystem/hold`,
  substance: `${base}/CodeSystem/substance`,
  recordIssue: `${base}/CodeSystem/record-issue`,
} as const;

/** Identifier systems that make a written resource the same one the next time it is computed. */
export const identifierSystem = {
  dueItem: `${base}/due-item`,
  /** Tasks that are done in one visit share it. */
  visit: `${base}/visit`,
  hold: `${base}/hold`,
  lumenWarning: `${base}/lumen-warning`,
  recordIssue: `${base}/record-issue`,
  provenance: `${base}/provenance`,
  /** What was charted on the unit’s board: the same in two requests says that they are one. */
  charted: `${base}/charted`,
} as const;

/** Extensions of PlanDefinition and ActivityDefinition that carry what the standard has no element for. */
export const policyExtension = {
  ruleScope: `${base}/StructureDefinition/rule-scope`,
  ruleLead: `${base}/StructureDefinition/rule-lead`,
  ruleMinimumSpacing: `${base}/StructureDefinition/rule-minimum-spacing`,
  ruleWhenUnknown: `${base}/StructureDefinition/rule-when-unknown`,
  labStaleAfter: `${base}/StructureDefinition/lab-stale-after`,
  namedExpression: `${base}/StructureDefinition/named-expression`,
  sourceCertainty: `${base}/StructureDefinition/source-certainty`,
  workComputed: `${base}/StructureDefinition/work-computed`,
  workStep: `${base}/StructureDefinition/work-step`,
  workSupply: `${base}/StructureDefinition/work-supply`,
  workCaution: `${base}/StructureDefinition/work-caution`,
  workSubstance: `${base}/StructureDefinition/work-substance`,
} as const;

/** Extensions of the Tasks, Flags and DetectedIssues that are written: what the standard has no element for. */
export const writtenExtension = {
  /** Names what was worked out when it was last written here: the same text, the same facts. */
  workedOut: `${base}/StructureDefinition/worked-out`,
  /** The plans, each with its version, by which a Task was last worked out. */
  carePolicy: `${base}/StructureDefinition/care-policy`,
} as const;

/** Profiles that what is written declares in `meta.profile`. */
export const writtenProfile = {
  dueCareTask: `${base}/StructureDefinition/due-care-task`,
  holdFlag: `${base}/StructureDefinition/hold-flag`,
  lumenFlag: `${base}/StructureDefinition/lumen-flag`,
  recordIssue: `${base}/StructureDefinition/record-issue`,
  provenance: `${base}/StructureDefinition/due-care-provenance`,
  careEvent: `${base}/StructureDefinition/line-care-event`,
  finding: `${base}/StructureDefinition/line-finding`,
} as const;

/** Systems and extensions of others that are used by name. */
export const standard = {
  loinc: 'http://loinc.org',
  snomed: 'http://snomed.info/sct',
  ucum: 'http://unitsofmeasure.org',
  atc: 'http://www.whocc.no/atc',
  rxnorm: 'http://www.nlm.nih.gov/research/umls/rxnorm',
  icd10cm: 'http://hl7.org/fhir/sid/icd-10-cm',
  icd9cm: 'http://hl7.org/fhir/sid/icd-9-cm',
  hpo: 'http://human-phenotype-ontology.org',
  flagDetail: 'http://hl7.org/fhir/StructureDefinition/flag-detail',
} as const;
