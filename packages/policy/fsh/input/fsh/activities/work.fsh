// What every bundled ActivityDefinition says of itself.

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
