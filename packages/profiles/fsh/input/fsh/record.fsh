// What is read. A record that is charted in a hospital’s own codes needs none of these: see the pages on mapping.

Profile: CentralLine
Parent: Device
Id: central-line
Title: "Central line"
Description: "A central venous line, a midline or a port, as it is read: what kind it is, whose it is, and what of its make the volumes depend on. Any other type is listed as not understood; what kind a line is decides which care it needs."
* insert About
* identifier MS
* status 1..1 MS
* type 1..1 MS
* type from $line-type (extensible)
* patient 1..1 MS
* patient ^short = "Whose line it is: without it no care is worked out for anybody"
* deviceName MS
* property MS
* property.type from $line-property (extensible)

Profile: LineLumen
Parent: Device
Id: line-lumen
Title: "Lumen of a central line"
Description: "One lumen of a line, as a Device whose parent is the line. Flushes, locks, draws and infusions name it."
* insert About
* status 1..1 MS
* type 1..1 MS
* type = $line-type-system#lumen
* deviceName 1..* MS
* deviceName ^short = "What it is called at the bedside, such as its colour"
* parent 1..1 MS
* parent only Reference(CentralLine)
* property MS
* property.type from $line-property (extensible)

Profile: LineCareEvent
Parent: Procedure
Id: line-care-event
Title: "Line care event"
Description: "Care that was done to a line or a lumen, or was not, with its time. Care without a time counts for no interval; one that names no line is asked about."
* insert About
* status MS
* code 1..1 MS
* code from $line-care-activity (extensible)
* subject MS
* performed[x] 1..1 MS
* performed[x] only dateTime or Period
* focalDevice 1..* MS
* focalDevice.manipulated only Reference(CentralLine or LineLumen)
* bodySite MS
* bodySite from $line-site (extensible)
* usedCode MS
* usedCode from $put-on (extensible)

Profile: LineFindingObservation
Parent: Observation
Id: line-finding
Title: "Finding at a line"
Description: "What was seen, felt or measured at a line or a lumen. A value that is not known is listed; a finding that no rule answers is said on top."
* insert About
* status MS
* code 1..1 MS
* code from $line-finding (extensible)
* subject 1..1 MS
* focus 1..* MS
* focus only Reference(CentralLine or LineLumen)
* effective[x] 1..1 MS
* effective[x] only dateTime or Period or instant
* value[x] MS
* component MS
