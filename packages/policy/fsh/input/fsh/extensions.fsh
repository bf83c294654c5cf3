// Every extension that a bundled plan or ActivityDefinition uses.

RuleSet: Described(element)
* ^status = #active
* ^experimental = false
* ^publisher = "Dwellward"
* ^context.type = #element
* ^context.expression = "{element}"

Extension: RuleScope
Id: rule-scope
Title: "Rule scope"
Description: "What the activity of an action is done to: line, lumen, exit-site or incision. It may stand several times; where none stands it is the line."
* insert Described(PlanDefinition.action)
* value[x] only code

Extension: RuleLead
Id: rule-lead
Title: "Rule lead"
Description: "How long before it is due the activity may be done. Where none stands it is a quarter of the interval."
* insert Described(PlanDefinition.action)
* value[x] only Duration

Extension: RuleMinimumSpacing
Id: rule-minimum-spacing
Title: "Rule minimum spacing"
Description: "The activity is done no sooner than so long after the last time."
* insert Described(PlanDefinition.action)
* value[x] only Duration

Extension: RuleWhenUnknown
Id: rule-when-unknown
Title: "Rule when unknown"
Description: "How a condition on a fact that is not known is read: protective, as true, where none stands; default, as false, with the reason in the documentation."
* insert Described(PlanDefinition.action)
* value[x] only code

Extension: LabStaleAfter
Id: lab-stale-after
Title: "Laboratory result stale after"
Description: "After this long a laboratory result is stale: a normal value becomes unknown, a low one stays low."
* insert Described(PlanDefinition)
* value[x] only Duration

Extension: NamedExpression
Id: named-expression
Title: "Named expression"
Description: "An expression under a name: %name stands for it in every condition of the plan."
* insert Described(PlanDefinition)
* value[x] only Expression
* valueExpression.name 1..1
* valueExpression.expression 1..1

Extension: SourceCertainty
Id: source-certainty
Title: "Source certainty"
Description: "How sure a source is: seen, its text was read; from-memory, it was not, check it before use; common-practice, no source was published."
* insert Described(RelatedArtifact)
* value[x] only code

Extension: WorkComputed
Id: work-computed
Title: "Work: computed value"
Description: "A value that is worked out for the lumen: flush-volume, lock-volume, syringe-size or thrombolytic-dose."
* insert Described(ActivityDefinition)
* value[x] only code

Extension: WorkStep
Id: work-step
Title: "Work: step"
Description: "What to do, in order: text, or a FHIRPath text with values that are worked out."
* insert Described(ActivityDefinition)
* value[x] only string or Expression

Extension: WorkSupply
Id: work-supply
Title: "Work: supply"
Description: "What to bring."
* insert Described(ActivityDefinition)
* value[x] only string

Extension: WorkCaution
Id: work-caution
Title: "Work: caution"
Description: "What to mind."
* insert Described(ActivityDefinition)
* value[x] only string

Extension: WorkSubstance
Id: work-substance
Title: "Work: substance"
Description: "A drug, an antiseptic or a material that the work uses or may use. Where an allergy or a problem of the patient speaks against it the clinician is asked first, and the values and supplies named here are withheld."
* insert Described(ActivityDefinition)
* extension contains
    substance 1..1 and
    computed 0..* and
    supply 0..*
* extension[substance].value[x] only code
* extension[computed].value[x] only code
* extension[supply].value[x] only string
