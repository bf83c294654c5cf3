// What both doses of the drug have in common.
RuleSet: OrderAndInstil
* insert Step([[Ask and tell the prescriber: allergy to the drug; internal bleeding now; in the last 48 hours surgery, delivery, biopsy of an organ or deep tissue, puncture of a vessel that can’t be pressed on; low platelets or another bleeding tendency, severe liver or kidney disease; risk of an embolism; infection in the line.]])
* insert ComputedStep([['The dose, for the prescriber to order: ' & %calculated.thrombolyticDose & '.']])
* insert Step([[Reconstitute with 2.2 mL sterile water without preservative, swirl for at most 3 minutes, use within 8 hours; add nothing to it.]])
* insert ComputedStep([['Instil ' & %calculated.thrombolyticDose & ' into the lumen, without force.']])

RuleSet: DoseSupplies
* insert Computes(thrombolytic-dose)
* insert Supply(alteplase as ordered)
* insert UsesIn(thrombolytic, alteplase as ordered)
* insert UsesFor(thrombolytic, thrombolytic-dose)
* insert Supply(sterile water without preservative)
* insert Syringes
* insert LumenLabel
* insert ConnectorPad
* insert Gloves
* insert Caution(Allergy to the drug: not to be given.)
* insert NoSuctionNoPressure
* insert Caution([[Serious bleeding: stop, and withdraw the drug from the line.]])

Instance: occlusion-treatment
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(occlusion-treatment, occlusion-treatment, Treat a lumen that is blocked by a clot)
* insert Step([[Mechanical causes and a precipitate are ruled out, and the prescriber has ordered the treatment: else stop here.]])
* insert OrderAndInstil
* insert Step(Clamp and label the lumen: not to be used. Chart the treatment with its time: the clock for 30 and 120 minutes starts.)
* insert DoseSupplies

Instance: occlusion-treatment-second
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(occlusion-treatment-second, occlusion-treatment, The second and last dose for a lumen that is still blocked)
* insert Step([[The look after 120 minutes found no brisk blood return, and the prescriber has ordered a second, equal dose: else stop here. It is the last one.]])
* insert OrderAndInstil
* insert Step(Clamp and label the lumen: not to be used. Chart the treatment with its time: the clock for 30 and 120 minutes starts again.)
* insert DoseSupplies

Instance: blockage-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(blockage-response, blockage-response, First steps when a lumen is sluggish or blocked)
* insert Computes(syringe-size)
* insert ComputedStep([['Do not force anything in. No syringe with a barrel narrower than that of a ' & %calculated.syringeSize & ' one.']])
* insert Step([[Look for a mechanical cause first: clamp closed, kink, stitch or securement too tight, dressing, connector, needle of a port out of place.]])
* insert Step([[Change the connector and try again without it; have the patient turn, lift the arm, breathe deep or cough.]])
* insert Step([[Chart which it is: sluggish, flushes without blood return, or neither.]])
* insert Step([[Then think of a precipitate: ask the pharmacy about the drugs, calcium phosphate and fat that ran last.]])
* insert Step(Then think of a clot: ask the prescriber about treatment.)
* insert Uses(thrombolytic)
* insert Step([[Do not leave it for later, and do not count on the other lumen: tell who is responsible.]])
* insert Connector
* insert Syringe
* insert FlushingSaline
* insert ConnectorPad
* insert Gloves

Instance: blockage-response-after-two-doses
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(blockage-response-after-two-doses, blockage-response, A lumen that two doses did not open)
* insert Step([[Two doses were given: no third by the label (4 mg in all). Ask the responsible clinician for imaging or another line.]])
* insert Step(Keep the lumen clamped and labelled: not to be used. Force nothing in.)
* insert Step(See to it that what has to be given has another way: ask which lumen or line.)
* insert Step([[Chart who was told, and what was decided.]])
* insert LumenLabel

Instance: patency-assessment-dwell-30-minutes
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(patency-assessment-dwell-30-minutes, patency-assessment, First look after 30 minutes)
* insert Computes(syringe-size)
* insert Step(After 30 minutes try gently to draw blood.)
* insert ComputedStep([['Blood returns: withdraw and discard ' & %calculated.thrombolyticWithdrawal & ', then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %. Chart brisk blood return: the clock ends.']])
* insert Step([[No blood returns: leave the drug in, clamp, and look again at 120 minutes. Chart what was found.]])
* insert Syringes
* insert FlushingSaline
* insert ConnectorPad
* insert Gloves
* insert NoSuctionNoPressure

Instance: patency-assessment-dwell-120-minutes
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(patency-assessment-dwell-120-minutes, patency-assessment, Second look after 120 minutes)
* insert Computes(syringe-size)
* insert Step(After 120 minutes try gently to draw blood.)
* insert ComputedStep([['Blood returns: withdraw and discard ' & %calculated.thrombolyticWithdrawal & ', then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %. Chart brisk blood return.']])
* insert Step([[No blood returns, after the first dose: one second, equal dose may follow if the prescriber orders it. Chart it as a new treatment: the clock starts again.]])
* insert Step([[No blood returns, after the second dose: no further dose. Two doses and 4 mg in all are the most; call the prescriber.]])
* insert Step(Chart the outcome; the lumen stays out of use until it returns blood.)
* insert Syringes
* insert FlushingSaline
* insert ConnectorPad
* insert Gloves
* insert NoSuctionNoPressure
