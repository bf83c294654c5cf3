Instance: air-entry-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(air-entry-response, air-entry-response, First steps when air has entered)
* insert Step([[Clamp the line between the opening and the body at once, and close what let the air in.]])
* insert Step(Call the emergency team; stay with the patient.)
* insert Step(Lay the patient on the left side.)
* insert Step([[Give oxygen, 100 %.]])
* insert Step(No pulse: flat on the back and resuscitate.)
* insert Step([[Keep the line clamped. Air is drawn back by a clinician only, and only through a catheter that already lies in the right atrium.]])
* insert Clamp
* insert Oxygen
* insert Syringe
* insert Caution([[Weakness of one side, trouble speaking, confused: air may have reached an artery: flat on the back instead of on the side.]])
* insert Caution([[Head down, too, is advised by some for air in the vein; the evidence is mostly from animals, and where air has reached an artery it may harm.]])

Instance: breakage-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(breakage-response, breakage-response, First steps when a line leaks or is broken)
* insert Step([[Clamp the line between the break and the chest wall (of an arm line, the skin) at once.]])
* insert ComputedStep([[%calculated.whatRuns]])
* insert Step(Cover the break with sterile gauze and tape it to the skin.)
* insert Step(Call the responsible clinician and whoever repairs lines now.)
* insert TakeItForAir(Step)
* insert Step([[Measure the intact length between the skin and the break, and chart it.]])
* insert Step([[Do not use what is damaged until it is repaired or replaced: a limb well away from the skin alone, anywhere else the whole line.]])
* insert Clamp
* insert SterileGauze
* insert Supply(tape)
* insert Ruler
* insert NoScissors
* insert Caution([[A piece of the catheter is missing, or the line has torn off under the skin: chart it as incomplete, and start with the first steps for a piece that has stayed in the body.]])

Instance: bleeding-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(bleeding-response, bleeding-response, First steps when a site bleeds)
* insert Step([[Press on the site with sterile gauze, firmly and for at least 5 minutes, the patient lying until it has stopped.]])
* insert Step([[Look at clamps, caps and connections: blood that comes out of the line is stopped by its clamp.]])
* insert Step([[Call the responsible clinician when it is much, still bleeds after 15 minutes of pressure, or swells the neck or the chest.]])
* insert Step([[In the first days after the insertion: pressure on a site that drains much, cold on a swelling.]])
* insert WhenItHasStopped
* insert Step(Have platelets and clotting looked up.)
* insert SterileGauze
* insert Gloves
* insert GauzeDressing
* insert Caution(The line has come out: press on the site and call for help.)

Instance: extravasation-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(extravasation-response, extravasation-response, First steps when fluid has left the vein)
* insert ComputedStep([[%calculated.whatRuns & ' Do not flush.']])
* insert Step([[Leave the line or the needle in, take the set off and draw back what can be drawn, with a 10 mL syringe; where air has entered or the line is damaged, clamp it instead.]])
* insert Step(Call the responsible clinician and say which drug it is.)
* insert Step([[Keep to the drug’s own instructions: antidote, warmth or cold, and who has to see it.]])
* insert Step([[Mark the edge of the swelling, measure it, and chart both.]])
* insert Step(Do not use the line until a clinician has judged it.)
* insert Syringe
* insert Gloves
* insert SkinMarker
* insert Ruler
* insert Caution(Warmth helps with some drugs and harms with others: the drug’s instructions say which.)

Instance: fever-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(fever-response, fever-response, First steps at a fever)
* insert Step([[Call the responsible clinician now and say what the neutrophil count is; a low one, or none that is known, makes it an emergency.]])
* insert Step([[Shivers during or after a flush or an infusion: stop it, clamp the lumen; do not flush or lock it, due or not, until a clinician says so; what keeps up the circulation is never just stopped but moved to another line first.]])
* insert Step([[Blood cultures, if ordered: a new connector first; the same volume from the line and from a vein, no more than 10 to 15 minutes apart, with the time on each bottle.]])
* insert Step([[Look at the exit site, the tunnel and the pocket for redness, hardness, tenderness and drainage.]])
* insert Step(Do not take the line out for the fever alone.)
* insert CultureBottles
* insert Connector
* insert ConnectorPad
* insert Gloves

Instance: infection-sign-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(infection-sign-response, infection-sign-response, First steps at signs of infection)
* insert Step(Look at and feel the exit site and the whole tunnel.)
* insert Step([[Measure how far redness, hardness and tenderness reach from the exit site, and mark the edge.]])
* insert Step(Up to 2 cm: signs of the exit site. More than 2 cm along the tunnel: signs of the tunnel. Fluid over a port: signs of the pocket.)
* insert Step([[Drainage: a swab for culture before the skin is cleaned, if ordered.]])
* insert Step([[Call the responsible clinician; signs of the tunnel or the pocket, or fever with them: now.]])
* insert Step([[Change the dressing, and chart what was found.]])
* insert Ruler
* insert SkinMarker
* insert Supply(swab for culture)
* insert Dressing
* insert Gloves

Instance: new-site-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(new-site-response, new-site-response, First steps when a new site drains much or swells)
* insert SeeClampsClosed
* insert Step(Drains much: press on the site with sterile gauze until it stops.)
* insert Step([[Swells: cold on the swelling, over a cloth, and mark its edge.]])
* insert Step([[Look at clamps, caps and connections: what comes out of the line is stopped by its clamp.]])
* insert Step([[Growing, throbbing or tense, neck or chest swollen, short of breath: call the responsible clinician at once.]])
* insert WhenItHasStopped
* insert Step([[Chart the site, exit site or incision, and what was done.]])
* insert SterileGauze
* insert GauzeDressing
* insert Supply(cold pack and cloth)
* insert SkinMarker
* insert Gloves
* insert Caution(Blood that runs is bleeding: its own first steps come before these.)
* insert Caution(No cold on skin that is numb or poorly perfused.)

Instance: migration-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(migration-response, migration-response, First steps when a line has moved)
* insert ComputedStep([[%calculated.whatRuns & ' Do not use the line.']])
* insert Step(Never push it back in; secure it as it lies.)
* insert Step(Measure the external length and compare it with the length at the insertion; look whether the cuff is to be seen.)
* insert Step(Call the responsible clinician; the tip is confirmed again before the line is used.)
* insert Step([[Line out altogether: press on the site, the patient lying, air-tight dressing.]])
* insert Ruler
* insert Securement
* insert Dressing
* insert Gloves

Instance: swelling-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(swelling-response, swelling-response, [[First steps when the arm, the neck or the face swells]])
* insert ComputedStep([[%calculated.whatRuns & ' Nothing runs through the line until a clinician has judged it.']])
* insert Step([[Look for pain, wide veins of the chest, colour and warmth of the arm; short of breath: emergency call.]])
* insert Step([[Arm: measure around it 10 cm above the elbow fold, on both sides, the arm resting; 3 cm more than before, with swelling, suggests a clot in the vein.]])
* insert Step(Call the responsible clinician about imaging.)
* insert Step(Leave the line in until it is decided; no blood pressure on that arm.)
* insert Supply(tape measure)

Instance: retained-catheter-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(retained-catheter-response, retained-catheter-response, First steps when a piece of the line has stayed in the body)
* insert Step([[Keep the patient and the limb still; nobody feels for the piece or pulls at it.]])
* insert Step(Call for urgent help and the responsible clinician now; imaging is theirs to order.)
* insert Step([[Dress the site air-tight. Where it bleeds, press on the site itself and do not rub or stroke along the vein.]])
* insert Step([[Short of breath, chest pain, palpitations: emergency call, and watch the heart rhythm.]])
* insert Step([[A piece that can still be seen outside the skin: hold it with a clamp, do not cut it.]])
* insert ComputedStep([['Keep what came out, measure it, and write down how much is missing. On record: ' & %calculated.lengthOnRecord & '.']])
* insert Step(Chart the time and what was done.)
* insert AirOcclusiveDressing
* insert Supply(splint for the limb)
* insert Clamp
* insert Ruler
* insert Supply(bag for the removed part)
* insert Supply(tourniquet)
* insert TourniquetOfArmLine
* insert Caution([[No position helps with a piece of catheter: the left side is for air.]])

Instance: chest-symptom-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(chest-symptom-response, chest-symptom-response, First steps at chest pain or shortness of breath)
* insert Step(Call the emergency team or the responsible clinician now; stay with the patient.)
* insert Step([[The line is open, was just opened, put in or taken out: take it for air in the vein, and start with those first steps.]])
* insert Step(Stop any flush or injection that is under way.)
* insert Step([[Breathing, pulse and its rhythm, blood pressure, saturation; oxygen as it is needed.]])
* insert Step([[Look whether both sides of the chest rise alike, at the neck, and whether an arm is swollen.]])
* insert Step([[Say when the line was put in and where its tip was confirmed: air or blood beside the lung, a tip in the heart or a clot are looked for by the clinician.]])
* insert Step([[Chart the time, what was found and what was done.]])
* insert Oxygen
* insert Supply([[monitor for rhythm, blood pressure and saturation]])

Instance: sepsis-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(sepsis-response, sepsis-response, First steps at signs of sepsis)
* insert Step([[Call the emergency team or the responsible clinician now, say that there is a line, and what the neutrophil count is.]])
* insert Step([[They began with a flush or an infusion: stop the flush, clamp that lumen; do not flush or lock it, due or not, until a clinician says so.]])
* insert Step([[Breathing, pulse, blood pressure, temperature, awareness, urine; oxygen as it is needed.]])
* insert Step([[Blood cultures, if ordered: a new connector first; the same volume from the line and from a vein, with the time on each bottle. They do not hold up the antibiotic.]])
* insert Step([[Antibiotic, as ordered: the first dose within 60 minutes.]])
* insert Step([[Look at the exit site, the tunnel and the pocket, and chart what was found.]])
* insert Step(Whether the line comes out is the clinician’s decision.)
* insert Oxygen
* insert CultureBottles
* insert Connector
* insert ConnectorPad
* insert Gloves
* relatedArtifact[+] insert FromMemory(IDSA/ASCO 2018, [[Rules for fever in neutropenia, IDSA/ASCO 2018: the first dose of the antibiotic within 60 minutes; from memory]])
