// How a server is asked and searched.

Instance: due
InstanceOf: OperationDefinition
Usage: #definition
Title: "Due care of a patient"
* url = "https://dwellward.example/fhir/OperationDefinition/due"
* name = "Due"
* title = "Due care of a patient"
* status = #draft
* kind = #operation
* experimental = false
* publisher = "Dwellward"
* description = "What care the lines of a patient need at a moment: Tasks, Flags and DetectedIssues in a Bundle. Nothing is written."
* affectsState = false
* code = #due
* resource = #Patient
* system = false
* type = false
* instance = true
* parameter[+].name = #at
* parameter[=].use = #in
* parameter[=].min = 0
* parameter[=].max = "1"
* parameter[=].documentation = "The moment, with its offset; now where absent."
* parameter[=].type = #instant
* parameter[+].name = #return
* parameter[=].use = #out
* parameter[=].min = 1
* parameter[=].max = "1"
* parameter[=].documentation = "A collection."
* parameter[=].type = #Bundle

Instance: apply
InstanceOf: OperationDefinition
Usage: #definition
Title: "A policy applied to one line"
* url = "https://dwellward.example/fhir/OperationDefinition/apply"
* name = "Apply"
* title = "A policy applied to one line"
* status = #draft
* kind = #operation
* experimental = false
* publisher = "Dwellward"
* base = "http://hl7.org/fhir/OperationDefinition/PlanDefinition-apply"
* description = "PlanDefinition/$apply of R4 as the library offers it: for one line at a moment, as a CarePlan whose activities are the due care. Offered by the library and the command; a server may offer it by them."
* affectsState = false
* code = #apply
* resource = #PlanDefinition
* system = false
* type = true
* instance = true
* parameter[+].name = #subject
* parameter[=].use = #in
* parameter[=].min = 1
* parameter[=].max = "1"
* parameter[=].documentation = "The patient."
* parameter[=].type = #string
* parameter[=].searchType = #reference
* parameter[+].name = #return
* parameter[=].use = #out
* parameter[=].min = 1
* parameter[=].max = "1"
* parameter[=].type = #CarePlan

Instance: task-due-by
InstanceOf: SearchParameter
Usage: #definition
Title: "Task: due by"
* url = "https://dwellward.example/fhir/SearchParameter/task-due-by"
* name = "TaskDueBy"
* status = #draft
* experimental = false
* publisher = "Dwellward"
* description = "By when the care of a Task is due. On a server without it: search by code, status and authored-on, and read restriction.period."
* code = #due-by
* base = #Task
* type = #date
* expression = "Task.restriction.period"
* xpathUsage = #normal
* comparator[+] = #ge
* comparator[+] = #le
* comparator[+] = #lt
* comparator[+] = #gt

Instance: adapter-as-client
InstanceOf: CapabilityStatement
Usage: #definition
Title: "What the adapter asks of a FHIR server"
* url = "https://dwellward.example/fhir/CapabilityStatement/adapter-as-client"
* name = "AdapterAsClient"
* title = "What the adapter asks of a FHIR server"
* status = #draft
* experimental = false
* date = "2026-11-26"
* publisher = "Dwellward"
* description = "Read and search what a line’s care is read from; create and update Tasks, Flags, DetectedIssues and Provenances in one transaction a patient."
* kind = #requirements
* fhirVersion = #4.0.1
* format[+] = #json
* rest[+].mode = #server
* rest[=].interaction[+].code = #transaction
* insert Read(Patient)
* insert Read(Device)
* insert Read(Procedure)
* insert Read(Observation)
* insert Read(MedicationAdministration)
* insert Read(ServiceRequest)
* insert Read(Appointment)
* insert Read(Encounter)
* insert Read(Location)
* insert Read(DeviceUseStatement)
* insert Read(AllergyIntolerance)
* insert Read(Condition)
* insert Read(Specimen)
* insert ReadAndWrite(Task)
* insert ReadAndWrite(Flag)
* insert ReadAndWrite(DetectedIssue)
* insert ReadAndWrite(Provenance)

RuleSet: Read(type)
* rest[=].resource[+].type = #{type}
* rest[=].resource[=].interaction[+].code = #read
* rest[=].resource[=].interaction[+].code = #search-type

RuleSet: ReadAndWrite(type)
* insert Read({type})
* rest[=].resource[=].interaction[+].code = #create
* rest[=].resource[=].interaction[+].code = #update
* rest[=].resource[=].conditionalCreate = true
