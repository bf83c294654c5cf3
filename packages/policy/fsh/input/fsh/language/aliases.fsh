// Code systems of activities, findings and the values of findings.
Alias: $activity = https://dwellward.example/fhir/CodeSystem/line-care-activity
Alias: $finding = https://dwellward.example/fhir/CodeSystem/line-finding
Alias: $dressing-condition = https://dwellward.example/fhir/CodeSystem/dressing-condition
Alias: $connector-condition = https://dwellward.example/fhir/CodeSystem/connector-condition
Alias: $finding-value = https://dwellward.example/fhir/CodeSystem/finding-value
Alias: $plan-type = http://terminology.hl7.org/CodeSystem/plan-definition-type

// Extensions of a plan and of its rules.
Alias: $rule-scope = https://dwellward.example/fhir/StructureDefinition/rule-scope
Alias: $rule-lead = https://dwellward.example/fhir/StructureDefinition/rule-lead
Alias: $rule-minimum-spacing = https://dwellward.example/fhir/StructureDefinition/rule-minimum-spacing
Alias: $rule-when-unknown = https://dwellward.example/fhir/StructureDefinition/rule-when-unknown
Alias: $lab-stale-after = https://dwellward.example/fhir/StructureDefinition/lab-stale-after
Alias: $named-expression = https://dwellward.example/fhir/StructureDefinition/named-expression
Alias: $source-certainty = https://dwellward.example/fhir/StructureDefinition/source-certainty

// Extensions of an ActivityDefinition: what the Task carries.
Alias: $work-computed = https://dwellward.example/fhir/StructureDefinition/work-computed
Alias: $work-step = https://dwellward.example/fhir/StructureDefinition/work-step
Alias: $work-supply = https://dwellward.example/fhir/StructureDefinition/work-supply
Alias: $work-caution = https://dwellward.example/fhir/StructureDefinition/work-caution
Alias: $work-substance = https://dwellward.example/fhir/StructureDefinition/work-substance
