RuleSet: SterileDressing
* insert DressingSet
* insert SterileGloves
* insert Mask
* insert SkinAntiseptic

RuleSet: DressingCautions
* insert Caution(Let the antiseptic dry fully before covering the site.)
* insert Caution(Hold the catheter while the old dressing comes off; never push back what has slipped out.)
* insert Caution([[Redness, swelling, tenderness or drainage: tell the responsible clinician.]])

RuleSet: DressingChange
* insert SterileDressing
* insert SameDressing
* insert Supply(securement device if it is changed with the dressing)
* insert Uses(adhesive)
* insert DressingCautions

RuleSet: GauzeWhileItOozes
* insert Caution([[Heavy sweating, bleeding or oozing: gauze until it has stopped, then a transparent dressing again.]])
* relatedArtifact[+] insert Cdc2011([[dressing regimens, recommendation 2 (category II): gauze where the patient sweats heavily or the site bleeds or oozes, until it is resolved; from memory]])
* relatedArtifact[+] insert FromMemory(epic3 2014, [[epic3 2014, national evidence-based guidelines (England): gauze only for sweating or bleeding, a transparent dressing again as soon as possible; 2 % chlorhexidine in 70 % alcohol for the skin; from memory]])

RuleSet: ChlorhexidineDressingChange
* insert SterileDressing
* insert Supply(chlorhexidine dressing)
* insert Uses(adhesive)
* insert UsesIn(chlorhexidine, chlorhexidine dressing)
* insert DressingCautions
* insert Caution([[Chlorhexidine dressings are not recommended in premature neonates (skin reactions); below 18 years the 2017 CDC update gives no recommendation.]])
* insert Caution(Ask about chlorhexidine allergy; look at the skin under the dressing.)
* relatedArtifact[+] insert Cdc2017([[recommendations 1.a (category IA), 2.a (category IC) and 2.b (unresolved): recommended from 18 years for short-term non-tunneled catheters, not recommended in premature neonates, no recommendation for the others below 18 years]])

Instance: dressing-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change, dressing-change, Change the dressing)
* insert DressingChange
* insert GauzeWhileItOozes

Instance: dressing-change-chlorhexidine
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-chlorhexidine, dressing-change, Change the chlorhexidine dressing)
* insert ChlorhexidineDressingChange

Instance: dressing-change-dialysis
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-dialysis, dressing-change, Change the dressing of a dialysis catheter)
* insert DressingChange
* insert GauzeWhileItOozes
* insert Supply([[antiseptic ointment as local policy names it, if the material of the catheter allows it]])
* insert UsesIn(povidone-iodine, [[antiseptic ointment as local policy names it, if the material of the catheter allows it]])
* insert Caution([[CDC 2011 (IB): povidone-iodine or bacitracin/gramicidin/polymyxin B ointment at the exit site after insertion and at the end of each dialysis session, only where the maker says that the catheter stands it.]])
* relatedArtifact[+] insert Cdc2011Seen([[(category IB): povidone-iodine, or bacitracin/gramicidin/polymyxin B, ointment at the exit site of a dialysis catheter after insertion and at the end of each session, if the material of the catheter allows it]])

Instance: dressing-change-low-neutrophils
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-low-neutrophils, dressing-change, Change the dressing)
* insert DressingChange

Instance: dressing-change-first
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-first, dressing-change, Change the dressing)
* insert SeeClampsClosed
* insert Step(Hold the catheter and take the first dressing off towards the exit site.)
* insert Step(Look at and feel the exit site; measure the external length and compare it with the length at the insertion.)
* insert Step(Clean the skin with the antiseptic and let it dry fully.)
* insert Step([[Put on the new dressing, of gauze while the site bleeds or oozes, and secure the line.]])
* insert Step([[Chart the dressing, the site and the length.]])
* insert DressingChange
* insert GauzeWhileItOozes

Instance: dressing-change-incision
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-incision, dressing-change, Clean and dress the vein incision)
* insert SeeClampsClosed
* insert Step(Take the old dressing of the incision off; leave that of the exit site closed.)
* insert Step([[Look at and feel the incision: bleeding, haematoma, drainage, redness, edges that gape.]])
* insert Step([[Clean the incision with the antiseptic, from the middle outwards, and let it dry fully.]])
* insert Step(Put on a new sterile dressing.)
* insert Step([[Chart the dressing with the site incision, and whether the incision has healed: healed ends this care.]])
* insert DressingSet
* insert SterileGloves
* insert SkinAntiseptic
* insert Supply(sterile dressing for the incision)
* insert Uses(adhesive)
* insert Caution(Not healed counts until the record says that it is.)
* insert Caution([[Bleeding, pus, redness or edges that gape: tell the responsible clinician.]])

Instance: dressing-change-after-removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-after-removal, dressing-change, Make the dressing of a removed line air-tight again)
* insert Step(The patient lies before anything is lifted.)
* insert Step(Soaked with blood: press on it with sterile gauze and start with the first steps of bleeding.)
* insert Step(Loosened or damp at the edge: put a new air-tight dressing over it; do not take the old one off.)
* insert Step([[Wet through or soiled at the site: sterile gauze and a new air-tight dressing ready, the patient breathes out, then put it in its place at once.]])
* insert Step([[Leave it on until 24 hours after the removal have passed, and chart the change with its time.]])
* insert AirOcclusiveDressing
* insert SterileGauze
* insert Gloves
* insert TakeItForAir(Caution)

Instance: securement-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(securement-change, securement-change, Change the securement device)
* insert Supply(adhesive securement device)
* insert UsesIn(adhesive, adhesive securement device)
* insert SkinAntiseptic
* insert Caution(Hold the catheter while the old device comes off; never push back what has slipped out.)
* insert Caution(Change it together with the dressing.)

Instance: suture-removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(suture-removal, suture-removal, Take the stitches out)
* insert Supply(sterile suture set)
* insert SkinAntiseptic
* insert SameDressing
* insert Caution(Hold the catheter: the cuff must have healed in before the stitches are out.)
* insert Caution([[Only stitches of the exit site, and only on the word of the responsible clinician.]])
