// What every bundled plan says of itself.
RuleSet: Plan(id, name, title)
* id = "{id}"
* url = "https://dwellward.example/fhir/PlanDefinition/{id}"
* version = "0.1.0"
* name = "{name}"
* title = "{title}"
* type = $plan-type#clinical-protocol "Clinical Protocol"
* status = #active
* experimental = false
* date = "2026-11-25"
* publisher = "Dwellward"
