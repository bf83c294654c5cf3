Instance: repair
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(repair, repair, Repair the line)
* insert Computes(syringe-size)
* insert Step(Keep the clamp between the damage and the body until the lumen is locked.)
* insert Step([[See that a repair is allowed: who may do it by the device’s instructions and local policy, the maker’s kit for this device and this lumen size, at least 4 cm intact outside the skin, no clot in the lumen.]])
* insert Step(One of these is not so: leave the clamp on; the responsible clinician decides on a replacement.)
* insert Step([[Sterile field, sterile gloves and mask. Cleanse the segment for 2 minutes and let it dry.]])
* insert Step([[Cut the damaged part off square, with the kit’s own blade, and leave enough for the clamp.]])
* insert Step([[Join the new segment as the kit’s instructions say, with 1 mL of its adhesive, and put on the splint.]])
* insert Step(Draw back the air in the new segment until blood fills it; never push air towards the patient.)
* insert ComputedStep([['Then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %.']])
* insert ComputedStep([['Then lock with ' & %calculated.lockVolume & ', and clamp.']])
* insert Step([[Label the line: not for infusion until the waiting time of the kit’s instructions is over, with its clock time; splint off after 48 hours.]])
* insert Step([[Chart the repair with its time and its lumen, the kit with its lot, the new external length and the new length of the catheter.]])
* insert Supply(the maker’s repair kit for this device and size)
* insert Clamp
* insert Supply([[sterile drape, gloves and mask]])
* insert Uses(latex)
* insert Supply(antiseptic for the catheter)
* insert Syringes
* insert FlushingSaline
* insert Supply(lock solution)
* insert MayBeAnyLock(lock solution)
* insert Supply(splint and tape)
* insert Caution(The times and lengths of the repair kit’s instructions come before these.)
* insert NoScissors
* insert NoSmallSyringe
* insert Caution(Studies disagree on whether a repair raises the risk of infection: weigh it against a new line.)

Instance: patency-assessment-after-repair
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(patency-assessment-after-repair, patency-assessment, Test the repaired line)
* insert Computes(syringe-size)
* insert Step(See that the waiting time of the repair kit’s instructions is over and that the joint is dry and straight.)
* insert Step([[Draw back: air in the new segment comes out before anything goes in, until blood fills it.]])
* insert ComputedStep([['Flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pulses, never by force; look at the joint for a leak or a bulge.']])
* insert Step([[Then lock as prescribed, and clamp.]])
* insert Step([[Chart blood return and resistance, and that the line is cleared for use, or that it is not.]])
* insert FlushingSaline
* insert ConnectorPad
* insert Gloves
* insert Caution(Not before the time that the repair kit’s instructions give for the adhesive.)
* insert NoSmallSyringe
* insert Caution(Stop on resistance or a leak: do not force; clamp between the leak and the body.)

Instance: splint-removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(splint-removal, splint-removal, Take the splint off)
* insert Gloves
* insert NoScissors
* insert Caution([[Look at the joint under the splint: leak, bulge or gap: clamp between it and the body and tell the responsible clinician.]])
