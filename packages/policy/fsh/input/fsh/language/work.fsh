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

// A substance that the work uses or may use, by its code of CodeSystem/substance.
RuleSet: Uses(substance)
* extension[+].url = $work-substance
* extension[=].extension[+].url = "substance"
* extension[=].extension[=].valueCode = #{substance}

// The same, with a supply that is withheld where the patient may not stand it.
RuleSet: UsesIn(substance, supply)
* insert Uses({substance})
* extension[=].extension[+].url = "supply"
* extension[=].extension[=].valueString = "{supply}"

// The same, with a value that is worked out, and is withheld then.
RuleSet: UsesFor(substance, computed)
* insert Uses({substance})
* extension[=].extension[+].url = "computed"
* extension[=].extension[=].valueCode = #{computed}
