Instance: removal-or-replacement
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(removal-or-replacement, removal, Remove or replace the line)
* insert AirOcclusiveDressing
* insert Gauze
* insert ClinicianDecidesOnRemoval
* insert Caution([[Flat or head down, during expiration or Valsalva; never pull against resistance.]])
* insert Caution([[Stay flat for 30 min; note length and integrity of the tip (INS 2021, from memory).]])
* insert Caution([[Send the tip for culture only where a line infection is suspected (IDSA 2009, A-II).]])
* relatedArtifact[+] insert Seen(IDSA 2009, [[IDSA 2009, clinical practice guidelines for intravascular catheter-related infection (A-II): culture of the tip only where it was removed for a suspected line infection]])

Instance: removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(removal, removal, Take the line out)
* insert Step([[Check the order, who the patient is and which line it is; ask whether anything still has to go through it.]])
* insert Step(Stop every infusion and clamp every lumen.)
* insert Step([[Look at the platelets and the INR of today; low platelets, a high INR or none on record: ask the responsible clinician first.]])
* insert Step(Lay the patient flat or head down.)
* insert Step([[Take off dressing, stitches and securement; no scissors near the line.]])
* insert Step([[Draw the line out steadily while the patient bears down (Valsalva) or breathes out.]])
* insert Step([[Never pull against resistance: stop, secure the line, cover the site and call the responsible clinician. Of a line in the arm it may be a spasm, which warmth for 15 to 20 minutes may ease, or a clot: ask first.]])
* insert Step([[It breaks at the skin: hold the end.]])
* insert Step([[Press on the exit site and on the place where the line enters the vein until the bleeding has stopped, at least 5 minutes; longer with low platelets. Still bleeding after 15 minutes: call the responsible clinician.]])
* insert Step(Put on an air-tight dressing at once; it stays on for at least 24 hours.)
* insert Step(Flat for 30 minutes.)
* insert ComputedStep([['Look whether the line is whole before it is thrown away. On record: ' & %calculated.lengthOnRecord & '.']])
* insert Step(Do not send the tip for culture unless an infection of the line is suspected.)
* insert Step(Chart the removal with its time.)
* insert AirOcclusiveDressing
* insert SterileGauze
* insert Gloves
* insert Ruler
* insert Clamp
* insert ClinicianDecidesOnRemoval
* insert Caution(A cuffed line and a port are taken out only by whom local policy names.)
* insert TakeItForAir(Caution)

Instance: removed-catheter-check
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(removed-catheter-check, removed-catheter-check, Look whether the line is whole)
* insert Step(Keep the line until it is judged; lay it out straight beside a ruler.)
* insert Step([[Look at the tip and along the whole length, cuff included: ragged end, gap, tear, missing piece.]])
* insert ComputedStep([['Measure the whole length. On record: ' & %calculated.lengthOnRecord & '.']])
* insert Step([[More than 1 cm shorter than it should be, or the tip is not as it was made: take it for incomplete, and start with those first steps.]])
* insert Step([[Chart the finding: whole or incomplete, with the length in cm.]])
* insert Ruler
* insert Gloves
* insert Caution(What was cut off at the insertion or at a repair is to be taken off the length that the maker gives.)

Instance: getting-up
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(getting-up, getting-up, Let the patient up)
* insert Step([[Look at the dressing and the site before the patient sits up: bleeding, swelling, air-tight on all sides.]])
* insert Step([[Bleeds: press again, and flat for another while.]])
* insert Step([[Breathing easy, no chest pain, no dizziness: let the patient sit up, then stand.]])
* insert Step([[Tell the patient: the dressing stays on and dry for at least 24 hours; call at once for bleeding, swelling or breathlessness.]])
* insert Gloves
* insert Gauze
* insert Caution([[Short of breath, chest pain or pale: lie down again, and first steps for air in the vein.]])
