// What every bundled plan says of itself.
RuleSet: Plan(id, name, title)
* insert Layer({id}, https://dwellward.example/fhir, 0.1.0, [[{title}]])
* name = "{name}"
* experimental = false
* date = "2026-11-25"
* publisher = "Dwellward"
