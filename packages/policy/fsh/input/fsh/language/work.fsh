// The words that an ActivityDefinition is written in: what a Task carries. The steps stand in the order in which they
// are done.

// Care that is asked for: what its ActivityDefinition says of itself. Its first caution is that others come first.
RuleSet: OwnWork(activity, title)
* title = "{title}"
* status = #active
* kind = #Task
* intent = #plan
* code = $activity#{activity}
* insert Caution([[Local policy, the instructions of the device and of each drug, and the responsible clinician come first.]])

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
