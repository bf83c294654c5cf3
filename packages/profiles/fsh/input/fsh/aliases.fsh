// The code systems and value sets are made of the typed tables in src; here they only have names.

Alias: $line-care-activity-system = https://dwellward.example/fhir/CodeSystem/line-care-activity
Alias: $dressing-type-system = https://dwellward.example/fhir/CodeSystem/dressing-type
Alias: $line-finding-system = https://dwellward.example/fhir/CodeSystem/line-finding
Alias: $finding-value-system = https://dwellward.example/fhir/CodeSystem/finding-value
Alias: $line-type = https://dwellward.example/fhir/ValueSet/line-type
Alias: $line-care-activity = https://dwellward.example/fhir/ValueSet/line-care-activity
Alias: $line-finding = https://dwellward.example/fhir/ValueSet/line-finding
Alias: $finding-value = https://dwellward.example/fhir/ValueSet/finding-value
Alias: $line-property = https://dwellward.example/fhir/ValueSet/line-property
Alias: $put-on = https://dwellward.example/fhir/ValueSet/put-on
Alias: $line-site = https://dwellward.example/fhir/ValueSet/line-site
Alias: $task-input = https://dwellward.example/fhir/ValueSet/task-input
Alias: $task-output = https://dwellward.example/fhir/ValueSet/task-output
Alias: $due-state = https://dwellward.example/fhir/ValueSet/due-state
Alias: $lumen-state = https://dwellward.example/fhir/ValueSet/lumen-state
Alias: $hold = https://dwellward.example/fhir/ValueSet/hold
Alias: $record-issue = https://dwellward.example/fhir/ValueSet/record-issue
Alias: $line-type-system = https://dwellward.example/fhir/CodeSystem/line-type

RuleSet: About
* ^status = #draft
* ^experimental = false
* ^publisher = "Dwellward"
