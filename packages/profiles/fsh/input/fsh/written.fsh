// What is written: Tasks for the work queues that the record system has, Flags for what must not be done, DetectedIssues for
// what a person has to look at. Each is found again by its identifier, and each says by which policy it was worked out.

RuleSet: Written(system, policies)
* insert About
* extension contains WorkedOut named workedOut 1..1 and CarePolicyOf named carePolicy {policies}
// Brings their elements into the snapshot, for readers that do not look into the declaration.
* extension[workedOut].url ^short = "Names what was worked out"
* extension[carePolicy].url ^short = "Names the plans"
* identifier 1..*
* identifier ^slicing.discriminator.type = #value
* identifier ^slicing.discriminator.path = "system"
* identifier ^slicing.rules = #open
* identifier contains own 1..1
* identifier[own].system 1..1
* identifier[own].system = "{system}"
* identifier[own].value 1..1

Profile: DueCareTask
Parent: Task
Id: due-care-task
Title: "Due care"
Description: "Care that a line needs: what, on what, from when, by when, with what, and why. It advises: local policy, the instructions of the device and of each drug, and the licensed clinician come first."
* insert Written(https://dwellward.example/fhir/due-item, 1..*)
* instantiatesUri MS
* instantiatesUri ^short = "The rule: the canonical of its plan with the id of the action, behind #"
* status MS
* businessStatus MS
* businessStatus from $due-state (extensible)
* businessStatus ^short = "How far it is: upcoming, due, overdue or held; a hospital’s own steps of work may stand there instead"
* intent MS
* priority 1..1 MS
* code 1..1 MS
* code from $line-care-activity (required)
* description 1..1 MS
* focus 1..1 MS
* focus only Reference(Device or Appointment or ServiceRequest or Procedure)
* for 1..1 MS
* for only Reference(Patient)
* authoredOn 1..1 MS
* lastModified 1..1 MS
* reasonCode 1..1 MS
* reasonCode.text 1..1
* restriction 1..1 MS
* restriction.period 1..1 MS
* restriction.period.end 1..1
* restriction.period ^short = "From when it may be done, and by when it is due"
* input.type from $task-input (required)
* output.type from $task-output (required)

Profile: HoldFlag
Parent: Flag
Id: hold-flag
Title: "Hold"
Description: "What must not be done to a line or a lumen for now, since when and why. The lumen stands in the standard’s extension flag-detail."
* insert Written(https://dwellward.example/fhir/hold, 0..*)
* code from $hold (required)
* code.text 1..1
* subject only Reference(Patient)
* period 1..1 MS
* period.start 1..1

Profile: LumenFlag
Parent: Flag
Id: lumen-flag
Title: "State of a lumen"
Description: "A lumen that is blocked, that gives no blood, or that is broken. The lumen stands in the standard’s extension flag-detail."
* insert Written(https://dwellward.example/fhir/lumen-warning, 0..*)
* code from $lumen-state (required)
* code.text 1..1
* subject only Reference(Patient)

Profile: RecordIssue
Parent: DetectedIssue
Id: record-issue
Title: "Issue of the record"
Description: "What was given and not understood, what contradicts itself, and what no rule of the policy answers."
* insert Written(https://dwellward.example/fhir/record-issue, 0..*)
* code 1..1 MS
* code from $record-issue (required)
* severity 1..1 MS
* detail 1..1 MS
* identified[x] 1..1
* identified[x] only dateTime

Profile: DueCareProvenance
Parent: Provenance
Id: due-care-provenance
Title: "Source of due care"
Description: "From which resources of the record, and by which policy, a Task was worked out."
* insert About
* target only Reference(DueCareTask)
* policy MS
* entity MS
* entity.role = #source
