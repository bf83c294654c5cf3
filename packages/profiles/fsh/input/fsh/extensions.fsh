// What the Tasks, Flags and DetectedIssues carry that the standard has no element for.

RuleSet: OnWritten
* insert About
* ^context[+].type = #element
* ^context[=].expression = "Task"
* ^context[+].type = #element
* ^context[=].expression = "Flag"
* ^context[+].type = #element
* ^context[=].expression = "DetectedIssue"

Extension: WorkedOut
Id: worked-out
Title: "Worked out"
Description: "Names what was worked out when the resource was last written: the same text, the same facts."
* insert OnWritten
* value[x] 1..1
* value[x] only string

Extension: CarePolicyOf
Id: care-policy
Title: "Care policy"
Description: "The plans, each with its version, by which the resource was last worked out."
* insert OnWritten
* value[x] 1..1
* value[x] only canonical
