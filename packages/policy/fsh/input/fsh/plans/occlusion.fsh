Instance: Occlusion
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(occlusion, Occlusion, Treatment of a blocked lumen)
* description = "A layer over the base, to lie over the layer trouble: the dose, the looks after 30 and 120 minutes, the second dose and what must wait meanwhile. It asks for a prescriber’s decision and orders nothing; the drug’s own label and local policy come first."
* insert IsFoundOpen
* action[+]
  * insert Ask(occlusion-treatment, occlusion-treatment, occlusion-treatment)
  * title = "Ask about treating a lumen that is still blocked"
  * insert On(lumen)
  * priority = #urgent
  * insert WhenDone(blockage-response)
  * insert While(%lumen.dosesGiven < 1)
  * insert Until(%found.bloodReturn.brisk >= %began)
  * documentation[+] insert Seen(US label of alteplase for catheter occlusion and UK text, [[US label of alteplase for catheter occlusion and UK SmPC (emc 4617): 30 kg and more 2 mg in 2 mL; below 30 kg 110 % of the lumen’s internal volume at 1 mg/mL, at most 2 mg (seen). Contraindication and cautions: US label (seen, reported).]])
  * documentation[+] insert Note([[Only after mechanical causes and a precipitate were looked for (US label, reported). A dose for each lumen of a dialysis catheter is off-label. It is a prescriber’s decision: this Task asks for it and does not order it.]])
* action[+]
  * insert Ask(occlusion-treatment-second, occlusion-treatment, occlusion-treatment-second)
  * title = "Ask about the second and last dose for a lumen that is still blocked"
  * insert StillBlockedAfterDose
  * insert While(%lumen.dosesGiven = 1)
  * documentation[+] insert Alteplase([[where it does not work after 120 minutes, a second, equal dose is allowed (seen).]])
  * documentation[+] insert Note([[Straight after that look, without the first steps anew: they were done before the first dose. It is a prescriber’s decision: this Task asks for it and does not order it.]])
* action[+]
  * insert Ask(blockage-response-after-two-doses, blockage-response, blockage-response-after-two-doses)
  * title = "Two doses were given: no third by the label (4 mg in all). Ask the responsible clinician for imaging or another line"
  * insert StillBlockedAfterDose
  * insert While(%lumen.dosesGiven >= 2)
  * documentation[+] insert Alteplase([[no data above 2 mg a dose or 4 mg in all, two doses (seen).]])
  * documentation[+] insert Note([[Imaging or another line is the clinician’s decision: common practice, no source.]])

// --- While the drug is in the lumen

* action[+]
  * insert Ask(patency-assessment-dwell-30-minutes, patency-assessment, patency-assessment-dwell-30-minutes)
  * title = "Look whether the lumen works, 30 minutes after the drug"
  * insert LookAfterDose(30)
  * documentation[+] insert Alteplase([[assess function after 30 minutes, and where it does not work again after 120 minutes (seen). US dosing card: once it works, withdraw and discard 4 to 5 mL, below 10 kg 3 mL, then flush with saline (seen).]])
* action[+]
  * insert Ask(patency-assessment-dwell-120-minutes, patency-assessment, patency-assessment-dwell-120-minutes)
  * title = "Look whether the lumen works, 120 minutes after the drug"
  * insert LookAfterDose(120)
  * documentation[+] insert Alteplase([[where it does not work after 30 minutes, after 120 minutes; a second, equal dose is allowed then; no data above 2 mg a dose or 4 mg in all (seen).]])
* action[+]
  * id = "during-dwell"
  * insert On(lumen)
  * insert WhenDone(occlusion-treatment)
  * insert For(120, min)
  * insert Until(%found.bloodReturn.brisk >= %began)
  * documentation[+] insert WithoutSource(US label of alteplase for catheter occlusion, [[US label of alteplase for catheter occlusion: the drug stays in the lumen for up to 120 minutes (seen). That nothing else goes into the lumen meanwhile is common practice, no source.]])
  * action[+]
    * insert Ban(flush-during-dwell, flush)
    * title = "No flush while the drug is in the lumen"
  * action[+]
    * insert Ban(lock-during-dwell, lock)
    * title = "No lock while the drug is in the lumen"
  * action[+]
    * insert Ban(infusion-start-during-dwell, infusion-start)
    * title = "No infusion while the drug is in the lumen"
  * action[+]
    * insert Ban(blood-sampling-during-dwell, blood-sampling)
    * title = "No blood draw while the drug is in the lumen"

RuleSet: Alteplase(text)
* insert Seen(US label of alteplase for catheter occlusion, [[US label of alteplase for catheter occlusion: {text}]])

RuleSet: LookAfterDose(minutes)
* insert On(lumen)
* priority = #urgent
* insert WhenDone(occlusion-treatment)
* insert After({minutes}, min)
* insert Lead(0, min)
* insert Until(%found.bloodReturn.brisk >= %began)

// Found blocked at a look 120 minutes or more after the last dose.
RuleSet: StillBlockedAfterDose
* insert On(lumen)
* priority = #urgent
* insert WhenLumenIsBlocked
* insert Start([[%last.occlusionTreatment.exists() and %began >= %last.occlusionTreatment + 120 minutes]])
