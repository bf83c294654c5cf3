// What every bundled ActivityDefinition says of itself.

// Care that is asked for. Its first caution is that others come first.
RuleSet: Work(id, activity, title)
* url = "https://dwellward.example/fhir/ActivityDefinition/{id}"
* version = "0.1.0"
* publisher = "Dwellward"
* insert OwnWork({activity}, [[{title}]])

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
