RuleSet: Flush
* insert Computes(flush-volume)
* insert Computes(syringe-size)
* insert FlushingSaline
* insert ConnectorPad
* insert Gloves
* insert NoSmallSyringe
* insert StopOnResistanceAndLook
* insert Caution(Scrub the connector and let it dry before access.)
* relatedArtifact[+] insert Ins([[2016, 2021 and 2024]], [[least flush volume is twice the internal volume of the catheter with its add-ons; from memory]])
* relatedArtifact[+] insert Seen(Syringe size, [[A dialysis catheter instruction leaflet: test patency with a barrel of 10 mL diameter or more, since smaller syringes build up more pressure.]])

// Every lock of a lumen that is not one of a dialysis catheter. What it is locked with stands before it.
RuleSet: Lock
* insert Computes(lock-volume)
* insert Computes(syringe-size)
* insert ConnectorPad
* insert Gloves
* insert NoSmallSyringe
* insert StopOnResistance

RuleSet: FlushAndLock
* insert FlushFirstThenLock
* insert Lock
* insert SalineUnlessPrescribed
* insert LockVolumeSource

RuleSet: FlushFirstThenLock
* insert Step(Flush the lumen first: a lock is no flush.)
* insert ThenLock

RuleSet: ThenLock
* insert ComputedStep([['Then lock it with ' & %calculated.lockVolume & '.']])

RuleSet: SalineUnlessPrescribed
* insert Caution(Saline unless the device’s instructions or the prescription ask for another lock.)
* insert Caution(Heparin lock only if the device’s instructions ask for it and it is prescribed; not 100 units/mL in neonates and infants; no heparin in heparin-induced thrombocytopenia.)

RuleSet: LockVolumeSource
* relatedArtifact[+] insert Seen(Goossens 2015, [[Goossens 2015, Nursing Research and Practice 985686, table 4: lock volume is the internal volume and 20 %, with the add-on volume extra, only where the lock is harmless if it reaches the circulation.]])
* relatedArtifact[=].url = "https://www.hindawi.com/journals/nrp/2015/985686/tab4/"

// Every lock of a dialysis catheter. What it is locked with stands before it.
RuleSet: DialysisLock
* insert Computes(lock-volume)
* insert Computes(syringe-size)
* insert HubPad
* insert SterileGloves
* insert Mask
* insert Supply(new caps)
* insert Caution(The volume printed on the limb comes before any computed one.)
* insert Caution([[Aspirate the old lock before the lumen is used or locked anew, so that it does not reach the circulation.]])
* insert NoSmallSyringe
* insert StopOnResistance
* insert Caution(Heparin lock only if the device’s instructions ask for it and it is prescribed; no heparin in heparin-induced thrombocytopenia.)
* insert LockVolumeSource
* relatedArtifact[+] insert Seen(Dialysis catheter instructions, [[Instructions of dialysis catheters: aspirate the lock before use.]])

// Before anything goes into a lumen of a dialysis catheter.
RuleSet: DrawOffOldLock
* insert TrainedForDialysisOnly
* insert ComputedStep([['Before anything goes in, draw off the old lock, the whole of what this lumen holds, ' & %calculated.oldLockVolume & ', and throw it away: it is never flushed in. No blood follows: put nothing in, and ask.']])

RuleSet: FlushAndLockDialysis
* insert Step(Then flush the lumen: a lock is no flush.)
* insert ThenLock
* insert DialysisLock

RuleSet: DrawOffAndLock
* insert DrawOffOldLock
* insert FlushAndLockDialysis

// At the end of a session the old lock is out already, unless the lumen was not used in it.
RuleSet: LockAfterSession
* insert TrainedForDialysisOnly
* insert ComputedStep([['Was this lumen not used in the session, so that its old lock is still in it: before anything goes in, draw off the whole of what it holds, ' & %calculated.oldLockVolume & ', and throw it away. No blood follows: put nothing in, and ask.']])
* insert FlushAndLockDialysis

RuleSet: SetChangeWork
* insert Supply(administration set with its add-ons)
* insert ConnectorPad
* insert Gloves
* insert Supply(label with date and time)
* insert Caution([[Clamp the lumen before disconnecting, so that no air gets in.]])
* insert Caution(Drugs that must not pause: have the new set running ready before the change.)

Instance: flush
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(flush, flush, Flush the lumen)
* insert Flush

Instance: flush-after-use
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(flush-after-use, flush, Flush the lumen after it was used)
* insert Flush
* insert Caution([[In an adult more than the least after blood or a viscous infusion: 10 to 20 mL is published (INS, MASCC; from memory); 3 mL after a draw is common practice, no source. In a child no fixed volume: twice what the lumen holds with its add-ons, counted in the child’s fluids.]])

Instance: flush-idle
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(flush-idle, flush, Irrigate a lumen that is not in use)
* insert Computes(flush-volume)
* insert Computes(syringe-size)
* insert SeeClampsClosed
* insert ComputedStep([['Scrub the connector and let it dry; connect a syringe of at least ' & %calculated.syringeSize & ' and open the clamp of this lumen.']])
* insert ComputedStep([['Draw back until blood is seen, then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pulses. Never force.']])
* insert ComputedStep([['Lock anew with ' & %calculated.lockVolume & ' of what is prescribed, and clamp.']])
* insert Step(Chart flush and lock with the lumen.)
* insert FlushingSaline
* insert LockSolution
* insert ConnectorPad
* insert Gloves
* insert NoSmallSyringe
* insert StopOnResistanceAndLook

Instance: lock
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(lock, lock, Lock the lumen)
* insert LockSolution
* insert FlushAndLock

Instance: lock-idle
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(lock-idle, lock, Lock a lumen anew after it was irrigated)
* insert ComputedStep([['Lock with ' & %calculated.lockVolume & ' of what is prescribed, and close the clamp while the last of it goes in.']])
* insert Step(Chart the lock with the lumen.)
* insert LockSolution
* insert Lock
* insert SalineUnlessPrescribed

// Of infants, whatever is flushed or locked.
RuleSet: OfInfants
* insert Caution([[Up to 60 days of age or below 3 kg: heparin at most 40 units/kg in 24 h from all sources (caregiver sheet of a children’s hospital).]])
* insert Caution([[Never 100 units/mL in neonates and infants, nor a preserved product in neonates (US labels).]])
* insert Caution([[Saline with a preservative is not for neonates (benzyl alcohol; from memory).]])

// In the first year of life: common practice, no source, but for the labels.
RuleSet: LockOnlyIfOrdered
* insert Step([[In the first year of life: lock the lumen again only where a lock is ordered, with heparin of 10 units/mL at most.]])
* insert Caution([[In the first year of life: no fixed volume of adults. Twice what the lumen holds with its add-ons, mostly 1 to 3 mL, counted in the child’s fluids.]])
* insert OfInfants

Instance: flush-first-year
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(flush-first-year, flush, Flush the lumen of an infant)
* insert Flush
* insert LockOnlyIfOrdered

Instance: lock-neonate
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(lock-neonate, lock, Lock the lumen of a neonate)
* insert LockSolution
* insert FlushFirstThenLock
* insert Lock
* insert Caution([[Locked every 72 hours: heparin 10 units/mL, 0.5 to 1 mL (one newborn service’s protocol), where it is ordered so.]])
* insert Caution([[Another hospital’s sheet. Heparin up to an age of 60 days or below 3 kg: 2 units/mL, 2 mL for each lumen. Never take the strength of the one with the volume or the interval of the other.]])
* insert OfInfants

Instance: lock-dialysis
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(lock-dialysis, lock, Lock the dialysis lumen)
* insert LockSolution
* insert DrawOffAndLock

Instance: lock-dialysis-session
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(lock-dialysis-session, lock, Lock the dialysis lumen)
* insert LockSolution
* insert LockAfterSession

// Before anything goes into a lumen of which it is not known what it holds.
RuleSet: DrawBackFirst
* insert Step([[Find out which line it is: its print, the record of the insertion, whoever put it in. It may be one for dialysis: then only staff trained for dialysis lines open it.]])
* insert Step([[Draw back what is in the lumen, the volume that is printed on it, and throw it away: it may hold thousands of units of heparin. No blood follows: put nothing in, and call the responsible clinician.]])

Instance: flush-type-unknown
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(flush-type-unknown, flush, Flush a lumen of a line of unknown type)
* insert DrawBackFirst
* insert ComputedStep([['Then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pulses. Never force.']])
* insert Flush

Instance: lock-type-unknown
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(lock-type-unknown, lock, Lock a lumen of a line of unknown type)
* insert DrawBackFirst
* insert Step([[Lock it with what is prescribed, with exactly the volume that is printed on the lumen and no more; none is printed: ask before anything goes in.]])
* insert LockSolution
* insert ConnectorPad
* insert Gloves
* insert NoSmallSyringe
* insert StopOnResistance

Instance: needleless-connector-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(needleless-connector-change, needleless-connector-change, Change the needleless connector)
* insert FilledConnector
* insert HubPad
* insert Gloves
* insert ClampBeforeConnector
* insert Caution(Scrub the hub and let it dry before the new connector goes on.)

Instance: needleless-connector-change-idle
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(needleless-connector-change-idle, needleless-connector-change, Change the cap of a lumen that is not in use)
* insert SeeClampsClosed
* insert Step([[Take the old cap off, scrub the hub and let it dry.]])
* insert Step([[Put on the new cap, filled with saline.]])
* insert Step(Chart the change with the lumen.)
* insert FilledConnector
* insert HubPad
* insert Gloves
* insert ClampBeforeConnector

Instance: administration-set-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(administration-set-change, administration-set-change, Change the administration set)
* insert SetChangeWork

// Of blood and fat the set goes with the bag.
Instance: administration-set-change-with-bag
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(administration-set-change-with-bag, administration-set-change, Change the administration set)
* insert SetChangeWork
* insert Caution([[Also with each new unit or bag: the set goes with it.]])

Instance: bag-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(bag-change, bag-change, [[Take the bag down: its time is over]])
* insert Step([[Stop the infusion and clamp; what is left in the bag is not given.]])
* insert Step([[Take down the bag with its set, and close the lumen.]])
* insert Step([[Chart the volume that went in and what was left. Was not all given: tell whoever ordered it.]])
* insert Step([[Flush the lumen, or hang the next bag with a new set where one is ordered.]])
* insert ConnectorPad
* insert Gloves
* insert Caution([[Blood: 4 hours from leaving controlled storage, not from the start of the infusion; local policy says where used bags go.]])
* insert Caution([[Nutrition that stops suddenly: ask what runs meanwhile, and watch the blood glucose.]])

// A blood draw up to the flush: what goes before it differs by line.
RuleSet: DrawBegins
* insert Computes(syringe-size)
* insert Step([[Check the patient’s name, the order and the tubes at the bedside.]])
* insert ComputedStep([['Stop what runs, where it may stop. ' & %calculated.infusingLumens]])
* insert Step(Clamp every lumen. Clamps are on before any cap comes off.)
* insert Step(Scrub the connector and let it dry; for a blood culture put on a new connector first.)

RuleSet: DrawGoesOn
* insert DrawAndFlush
* insert ComputedStep([['Lock the lumen with ' & %calculated.lockVolume & ', or connect the infusion again; start again what was stopped.']])
* insert DrawEnds

RuleSet: DrawAndFlush
* insert ComputedStep([['Flush the lumen with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 % and see that it runs free.']])
* insert ComputedStep([['Draw back and discard ' & %calculated.discardVolume & '. Clamp before the syringe comes off.']])
* insert ComputedStep([['Fill the tubes in this order: ' & %calculated.tubes & '.']])
* insert ComputedStep([['Flush the lumen with sodium chloride 0.9 %: at least ' & %calculated.flushVolume & ', more by local policy.']])
* insert ComputedStep([['The other idle lumens, to irrigate and clamp: ' & %calculated.idleLumens & '.']])

RuleSet: DrawEnds
* insert Step([[Clamps closed, caps on; label the tubes at the bedside; chart the volume drawn and discarded.]])
* insert MayLockWithAny
* insert Supply(tubes by the order)
* insert Syringes
* insert FlushingSaline
* insert Supply(antiseptic pads for the connector)
* insert Gloves
* insert Caution(What is discarded counts as blood loss.)

// Fixed volumes are of adults: in a child what counts is what the lumen holds.
RuleSet: DrawFromAdult
* insert Caution([[Discard, common practice, no source: 6 mL. Published: 3 to 6 mL or 2 × dead space, 6 × for coagulation (RNAO), 5 to 10 mL (Royal Marsden Manual).]])
* insert Caution([[Saline after the draw, common practice, no source: 3 mL. Published: 10 to 20 mL (INS, MASCC; from memory).]])

RuleSet: DrawFromChild
* insert Supply([[the smallest tubes that the laboratory takes]])
* insert Caution([[Discard and flush follow what the lumen holds with its add-ons: no fixed volume of adults. Discard 2 × dead space, 6 × for coagulation (RNAO).]])
* insert Caution([[The discard is not routinely given back (infection, clots); where the child is anaemic or has many samples, only on order and in a closed system (AVATAR group).]])
* insert Caution([[Count the flushes in the child’s fluids.]])

RuleSet: DrawFromDialysisLine
* insert Supply([[an empty syringe for the old lock of the lumen]])
* insert SterileGloves
* insert Mask
* insert Caution([[The old lock can hold thousands of units of heparin: drawn off and thrown away, never given back, never pushed in.]])
* relatedArtifact[+] insert Seen(Dialysis catheter instructions, [[Instructions of dialysis catheters: draw the lock out of each lumen before use, else the patient is heparinised; fill exactly the printed volume. A hospital’s page on anaesthesia: a competency is required.]])

Instance: blood-sampling
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(blood-sampling, blood-sampling, Draw blood through the line)
* insert DrawBegins
* insert DrawGoesOn
* insert DrawFromAdult

Instance: blood-sampling-child
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(blood-sampling-child, blood-sampling, Draw blood through a child’s line)
* insert DrawBegins
* insert DrawGoesOn
* insert DrawFromChild

// What the policy asks for after a draw in the first year of life has no lock of its own: the order alone says of one.
Instance: blood-sampling-infant
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(blood-sampling-infant, blood-sampling, Draw blood through an infant’s line)
* insert DrawBegins
* insert DrawAndFlush
* insert LockOnlyIfOrdered
* insert Step([[Where an infusion was stopped, connect it again and start it.]])
* insert DrawEnds
* insert DrawFromChild

Instance: blood-sampling-dialysis
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(blood-sampling-dialysis, blood-sampling, Draw blood through a dialysis catheter)
* insert DrawBegins
* insert DrawOffOldLock
* insert DrawGoesOn
* insert DrawFromDialysisLine
* insert DrawFromAdult

Instance: blood-sampling-dialysis-child
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(blood-sampling-dialysis-child, blood-sampling, Draw blood through a child’s dialysis catheter)
* insert DrawBegins
* insert DrawOffOldLock
* insert DrawGoesOn
* insert DrawFromDialysisLine
* insert DrawFromChild

Instance: patency-assessment-first
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(patency-assessment-first, patency-assessment, Test every lumen of a new line)
* insert Computes(syringe-size)
* insert SeeClampsClosed
* insert ComputedStep([['One lumen at a time: scrub the connector and let it dry, connect a syringe of at least ' & %calculated.syringeSize & ', open the clamp of this lumen only.']])
* insert Step([[Draw back until blood is seen, and see how briskly it comes.]])
* insert ComputedStep([['Flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pushes of about 1 mL with a pause after each. Never force.']])
* insert Step([[Close the clamp, lock as prescribed, then take the next lumen.]])
* insert Step(Compare the lumens: one that is slower to draw or harder to flush than the other is charted as such.)
* insert Step(Chart blood return and resistance for this lumen by its name.)
* insert Saline
* insert ConnectorPad
* insert NoSmallSyringe
* insert StopOnResistance
* insert ClampsClosed
* insert Caution(Nothing is given before the tip is confirmed.)
