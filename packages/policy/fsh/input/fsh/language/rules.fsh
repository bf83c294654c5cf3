// The words that a rule is written in. A rule is an action of a plan:
//
//   * action[+]
//     * insert Ask(site-assessment-daily, site-assessment, site-assessment)
//     * title = "Look at the exit site"
//     * insert On(exit-site)
//     * insert While(%hasExitSite)
//     * insert Every(1, d)
//     * documentation[+] insert FromMemory(INS, [[INS 2021: at least daily; from memory]])
//
// A group is an action with actions of its own: what it says counts for each of them. Text with a comma or a bracket
// stands in double square brackets.

// --- What it is

// It asks for an activity. The ActivityDefinition says with which steps, supplies and cautions.
RuleSet: Ask(id, activity, definition)
* id = "{id}"
* code = $activity#{activity}
* definitionCanonical = "https://dwellward.example/fhir/ActivityDefinition/{definition}"

// The same with an ActivityDefinition that the plan itself contains.
RuleSet: AskOwn(id, activity, definition)
* id = "{id}"
* code = $activity#{activity}
* definitionCanonical = "#{definition}"

// It forbids an activity.
RuleSet: Ban(id, activity)
* id = "{id}"
* code = $activity#{activity}
* definitionCanonical = "https://dwellward.example/fhir/ActivityDefinition/no-{activity}"

// What it is done to: line, lumen, exit-site, incision. The line where nothing is said; may be said several times.
RuleSet: On(scope)
* extension[+].url = $rule-scope
* extension[=].valueCode = #{scope}

// --- When it begins

// So long after the last time.
RuleSet: Every(number, unit)
* timingTiming.repeat.frequency = 1
* timingTiming.repeat.period = {number}
* timingTiming.repeat.periodUnit = #{unit}

// On a day of the week; say Hour as well.
RuleSet: EveryWeekOn(day)
* timingTiming.repeat.dayOfWeek[+] = #{day}

// At a time of day, such as 20:00:00.
RuleSet: Hour(time)
* timingTiming.repeat.timeOfDay[+] = "{time}"

// So many times since the insertion at most, and for so long after the insertion at most.
RuleSet: AtMost(times, number, unit)
* timingTiming.repeat.count = {times}
* timingTiming.repeat.boundsDuration = {number} '{unit}'

// Once, so long after the insertion. What was done before that time counts.
RuleSet: Once(number, unit)
* insert Every({number}, {unit})
* insert AtMost(1, {number}, {unit})

// With a finding; with any value that says that it is there, or with the values of WithValue. Several are: any of them.
RuleSet: WhenFound(finding)
* trigger[+].type = #data-added
* trigger[=].data[+].type = #Observation
* trigger[=].data[=].codeFilter[+].path = "code"
* trigger[=].data[=].codeFilter[=].code = $finding#{finding}

RuleSet: WithValue(code)
* trigger[=].data.codeFilter[1].path = "value"
* trigger[=].data.codeFilter[1].code[+] = {code}

// With an act, once it was done.
RuleSet: WhenDone(activity)
* trigger[+].type = #data-added
* trigger[=].data[+].type = #Procedure
* trigger[=].data[=].codeFilter[+].path = "code"
* trigger[=].data[=].codeFilter[=].code = $activity#{activity}

// When the act itself is ordered: how it is done, and what others count back from. It makes no item of its own.
RuleSet: WhenOrdered(activity)
* trigger[+].type = #data-added
* trigger[=].data[+].type = #ServiceRequest
* trigger[=].data[=].codeFilter[+].path = "code"
* trigger[=].data[=].codeFilter[=].code = $activity#{activity}

// So long after the finding or the act; at once where nothing is said.
RuleSet: After(number, unit)
* timingDuration = {number} '{unit}'

// As soon as possible, and so long after the finding or the act at the latest: it is due from then on.
RuleSet: Within(number, unit)
* insert After({number}, {unit})
* insert Lead({number}, {unit})

// So long before the time for which the act of another rule is planned.
RuleSet: Before(rule, number, unit)
* relatedAction[+].actionId = "{rule}"
* relatedAction[=].relationship = #before-start
* relatedAction[=].offsetDuration = {number} '{unit}'

// Judged at the moment of the finding or the act; a later value does not undo it.
RuleSet: Start(expression)
* condition[+].kind = #start
* condition[=].expression.language = #text/fhirpath
* condition[=].expression.expression = "{expression}"

// --- While it applies, and what ends it

// It applies while this is true. Several are joined by and.
RuleSet: While(expression)
* condition[+].kind = #applicability
* condition[=].expression.language = #text/fhirpath
* condition[=].expression.expression = "{expression}"

// This ends it. An ask also ends once it is done.
RuleSet: Until(expression)
* condition[+].kind = #stop
* condition[=].expression.language = #text/fhirpath
* condition[=].expression.expression = "{expression}"

// How long a ban lasts.
RuleSet: For(number, unit)
* timingTiming.repeat.boundsDuration = {number} '{unit}'

// --- Its window

// It may be done so long before it is due; a quarter of the interval where nothing is said.
RuleSet: Lead(number, unit)
* extension[+].url = $rule-lead
* extension[=].valueDuration = {number} '{unit}'

// It is done no sooner than so long after the last time.
RuleSet: NotSoonerThan(number, unit)
* extension[+].url = $rule-minimum-spacing
* extension[=].valueDuration = {number} '{unit}'

// A condition on what is not known counts as false, not as true. Give the Reason.
RuleSet: OnlyIfKnown
* extension[+].url = $rule-when-unknown
* extension[=].valueCode = #default

// --- The plan

// What a plan says of itself. It is named by base/PlanDefinition/id; versions of one plan have one id.
RuleSet: Layer(id, base, version, title)
* id = "{id}"
* url = "{base}/PlanDefinition/{id}"
* version = "{version}"
* title = "{title}"
* type = $plan-type#clinical-protocol "Clinical Protocol"
* status = #active

// A result of the laboratory is stale after so long.
RuleSet: LabStaleAfter(number, unit)
* extension[+].url = $lab-stale-after
* extension[=].valueDuration = {number} '{unit}'

// A condition, or a part of one, under a name: %name stands for it in every condition of the plan.
RuleSet: Named(name, expression)
* extension[+].url = $named-expression
* extension[=].valueExpression.name = "{name}"
* extension[=].valueExpression.language = #text/fhirpath
* extension[=].valueExpression.expression = "{expression}"

// The same in words, for sentences on the rules that end with it; straight after its name.
RuleSet: InWords(text)
* extension[=].valueExpression.description = "{text}"
