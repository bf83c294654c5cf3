// What a unit may write: the pages for the policy owner say it element by element.

Profile: CarePolicy
Parent: PlanDefinition
Id: care-policy-plan
Title: "Care policy"
Description: "A layer of the policy: its actions are rules that ask for an activity or forbid it. Read in full; what is not kept of it is said."
* insert About
* url 1..1 MS
* version 1..1 MS
* title 1..1 MS
* status MS
* action 1..* MS
* action.id MS
* action.code MS
* action.documentation MS
* action.condition.expression.language = #text/fhirpath
* action.definition[x] only canonical

Profile: CareActivity
Parent: ActivityDefinition
Id: care-activity
Title: "Care activity"
Description: "What the work of a rule is: steps, supplies, cautions and what is worked out; or, as a ServiceRequest that must not be performed, what a rule forbids."
* insert About
* url 1..1 MS
* kind 1..1 MS
* kind from https://dwellward.example/fhir/ValueSet/activity-kind (required)
* code 1..1 MS
* code from $line-care-activity (required)
* doNotPerform MS
