Instance: site-assessment
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(site-assessment, site-assessment, Look at the site)
* insert Gloves
* insert Caution([[Redness, swelling, tenderness, drainage, a visible cuff or a changed length: tell the responsible clinician.]])
* insert Caution(Feel through an intact dressing; take it off where the site is tender or fever has no other cause.)

Instance: site-assessment-first
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(site-assessment-first, site-assessment, Look at the new site)
* insert SeeClampsClosed
* insert Step([[Look at the exit site and the vein incision: bleeding, haematoma, drainage, swelling.]])
* insert Step([[Look whether the dressing is dry and closed on all sides, and whether the line lies as it was secured.]])
* insert Step(Ask about pain and breathlessness; listen to the breathing.)
* insert Step([[Chart what was found, also that nothing was.]])
* insert Caution([[Bleeding, haematoma, swelling or breathlessness: tell the responsible clinician at once.]])
* insert ClampsClosed

Instance: site-assessment-after-removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(site-assessment-after-removal, site-assessment, Look at the site after the removal)
* insert Supply(gauze or plaster)
* insert Caution(The air-occlusive dressing stays on for at least 24 h.)
* insert Caution([[Bleeding, swelling, breathlessness or pus: tell the responsible clinician.]])

Instance: external-length-measurement
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(external-length-measurement, external-length-measurement, Measure the external length)
* insert Supply([[measuring tape, clean and for one patient]])
* insert Caution(Changed since the insertion: do not use the line and do not push it back; ask for the tip to be confirmed.)

Instance: external-length-measurement-after-migration
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(external-length-measurement-after-migration, external-length-measurement, Measure a line that has moved)
* insert Ruler
* insert Gloves
* insert Caution(Never push it back in.)
* insert NotUsedUntilConfirmed

Instance: tip-confirmation
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(tip-confirmation, tip-confirmation, Confirm where the tip lies)
* insert Caution(Nothing is given through the line before the tip is confirmed.)
* insert Caution(A clinician who may do so reads the image or the tracing.)

Instance: tip-confirmation-after-migration
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(tip-confirmation-after-migration, tip-confirmation, Confirm the tip of a line that has moved)
* insert NotUsedUntilConfirmed

Instance: necessity-review
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(necessity-review, necessity-review, Ask whether the line is still needed)
* insert Caution(Removal is the decision of the responsible clinician.)

Instance: access-needle-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(access-needle-change, access-needle-change, Change the port needle)
* insert Supply(non-coring needle of the right length)
* insert DressingSet
* insert SterileGloves
* insert Mask
* insert SkinAntiseptic
* insert FlushingSaline
* insert NoSmallSyringe
* insert Caution(Confirm blood return before anything is given.)
* insert Caution([[Pain, swelling or resistance: stop and tell the responsible clinician.]])

Instance: bath
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(bath, bath, Wash with an antiseptic)
* insert Supply(chlorhexidine wash or cloths as local policy names them)
* insert UsesIn(chlorhexidine, chlorhexidine wash or cloths as local policy names them)
* insert Caution(Ask about chlorhexidine allergy; look at the skin.)
* insert Caution([[Not the face, not open wounds, not below 2 months of age.]])

Instance: clamp-position-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(clamp-position-change, clamp-position-change, Move the clamp and its sleeve)
* insert Step([[Put a tape sleeve around the line at a new place, a hand’s breadth or more from the hub and clear of the exit site.]])
* insert Step(Close a second clamp on the new sleeve before the old one is opened: the line is never without a closed clamp.)
* insert Step([[Look at the place under the old sleeve: flat, cracked or sticky: clamp between it and the body and tell the responsible clinician.]])
* insert Step([[Take the old sleeve off without scissors, and chart the new place.]])
* insert Clamp
* insert Supply(second clamp without teeth)
* insert Supply(tape for the sleeve)
* insert NoScissors
* insert Caution([[Never clamp the bare line, nor twice at the same place.]])

Instance: line-identification
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(line-identification, line-identification, Find out which line it is)
* insert Step([[Read what is printed on the line, its clamps and its lumens: type, size, length, volumes, for dialysis.]])
* insert Step([[Look it up: the record of the insertion, the implant card, the letter of the hospital that put it in; ask the patient.]])
* insert Step([[Until it is known nothing goes in that was not preceded by drawing back and discarding; one that may be for dialysis is opened by trained staff only.]])
* insert Step([[Chart the type on the Device of the line, and the printed volume of each lumen.]])
