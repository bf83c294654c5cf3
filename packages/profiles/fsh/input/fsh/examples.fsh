// One of each, invented.

Instance: line
InstanceOf: CentralLine
Usage: #example
* identifier.value = "line-1"
* status = #active
* type = $line-type-system#picc
* patient = Reference(Patient/maple)

Instance: line-red
InstanceOf: LineLumen
Usage: #example
* status = #active
* deviceName.name = "red"
* deviceName.type = #user-friendly-name
* parent = Reference(line)

Instance: dressing-change
InstanceOf: LineCareEvent
Usage: #example
* status = #completed
* code = $line-care-activity-system#dressing-change
* subject = Reference(Patient/maple)
* performedDateTime = "2026-11-24T09:00:00+01:00"
* focalDevice.manipulated = Reference(line)
* usedCode = $dressing-type-system#transparent-dressing

Instance: blood-return
InstanceOf: LineFindingObservation
Usage: #example
* status = #final
* code = $line-finding-system#blood-return
* subject = Reference(Patient/maple)
* focus = Reference(line-red)
* effectiveDateTime = "2026-11-24T09:10:00+01:00"
* valueCodeableConcept = $finding-value-system#brisk
