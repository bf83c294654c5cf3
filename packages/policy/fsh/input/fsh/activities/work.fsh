// The words that an ActivityDefinition is written in: what a Task carries. The steps stand in the order in which they
// are done.

// Care that is asked for. Its first caution is that others come first.
RuleSet: Work(id, activity, title)
* url = "https://dwellward.example/fhir/ActivityDefinition/{id}"
* version = "0.1.0"
* title = "{title}"
* status = #active
* publisher = "Dwellward"
* kind = #Task
* intent = #plan
* code = $activity#{activity}
* insert Caution([[Local policy, the instructions of the device and of each drug, and the responsible clinician come first.]])

// Care that is forbidden.
RuleSet: Forbidden(activity, title)
* url = "https://dwellward.example/fhir/ActivityDefinition/no-{activity}"
* version = "0.1.0"
* title = "{title}"
* status = #active
* publisher = "Dwellward"
* kind = #ServiceRequest
* intent = #plan
* doNotPerform = true
* code = $activity#{activity}

// A volume or a size that is worked out for the lumen: flush-volume, lock-volume, syringe-size, thrombolytic-dose.
RuleSet: Computes(value)
* extension[+].url = $work-computed
* extension[=].valueCode = #{value}

RuleSet: Step(text)
* extension[+].url = $work-step
* extension[=].valueString = "{text}"

// A step with values that are worked out: FHIRPath text, such as 'Flush with ' & %calculated.flushVolume & '.'
RuleSet: ComputedStep(expression)
* extension[+].url = $work-step
* extension[=].valueExpression.language = #text/fhirpath
* extension[=].valueExpression.expression = "{expression}"

RuleSet: Supply(text)
* extension[+].url = $work-supply
* extension[=].valueString = "{text}"

RuleSet: Caution(text)
* extension[+].url = $work-caution
* extension[=].valueString = "{text}"
