Instance: Removal
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(removal, Removal, The removal of a line and what follows it)
* description = "A layer over the base for units that take lines out: the steps of a removal on every item that asks for one, the check at once whether the line is whole, and the rest of 30 minutes after which the site is looked at. A dressing that is damp, loosened or soiled by then is made air-tight again. The check after 24 hours stands in the base."
* insert IsCentralCatheter
* action[+]
  * insert Ask(removal, removal, removal)
  * title = "Removal of the line"
  * insert WhenOrdered(removal)
  * documentation[+] insert Ins(2021, [[the removal is the event that the checks below follow; flat for 30 minutes, air-occlusive dressing for at least 24 hours; from memory]])
  * documentation[+] insert SurvivalGuide([[removal flat or head down, with Valsalva or breathing out, air-tight dressing at once; never pull against resistance (seen).]])
  * documentation[+] insert Seen(IDSA 2009, [[IDSA 2009 (A-II): the tip is sent for culture only where the line is removed for a suspected infection of it (seen)]])
  * documentation[+] insert Seen(Royal Marsden Manual, [[Royal Marsden Manual, chapter 17: firm pressure for at least 5 minutes or until dry, flat for about 30 minutes, an air-tight dressing for 72 hours (seen).]])
  * documentation[+] insert Seen(JVIR 2007, [[JVIR 2007: of 179 removals of tunneled cuffed catheters 165 were dry within 5 minutes, the rest rarely bled longer than 15; slower with kidney failure and drugs against platelets, not by INR or number of platelets (seen).]])
  * documentation[+] insert Note([[Resistance of an arm line: a sheet on the removal of peripherally inserted catheters (seen). Infusions stopped and lumens clamped first; pressure on the vein too; platelets and INR looked at: common practice, no source. How long the air-tight dressing stays differs: 24 hours (INS), 72 hours (Royal Marsden).]])
* action[+]
  * insert ReplaceIfNotAseptic(removal)

// --- The line is out

* action[+]
  * insert Ask(removed-catheter-check, removed-catheter-check, removed-catheter-check)
  * title = "Look whether a line that was taken out is whole"
  * priority = #urgent
  * insert WhenDone(removal)
  * insert Lead(0, min)
  * insert While([[%line.removedDays.exists() and %line.removedDays <= 7]])
  * insert Until(%found.removedCatheter.whole >= %began or %found.removedCatheter.incomplete >= %began)
  * documentation[+] insert Ins(2021, [[length and integrity of the tip are recorded at the removal; from memory]])
  * documentation[+] insert Note([[That a line more than 1 cm shorter than on record counts as incomplete is common practice, no source. A finding that gives a length and says neither whole nor incomplete is read so.]])
  * documentation[+] insert Note([[Asked for until seven days after the day of the removal: a check that was not charted by then can hardly be made any more. That bound is a reading, not a published value.]])
* action[+]
  * insert Ban(flat-after-removal, getting-up)
  * title = "Flat after a removal"
  * insert WhenDone(removal)
  * insert While(%isCentralCatheter)
  * insert For(30, min)
  * documentation[+] insert InsFlat
* action[+]
  * insert Ask(getting-up-after-removal, getting-up, getting-up)
  * title = "Look at the site, then let the patient up"
  * insert WhenDone(removal)
  * insert After(30, min)
  * insert Lead(0, min)
  * insert While(%isCentralCatheter)
  * insert While([[%line.removedDays.exists() and %line.removedDays <= 1]])
  * documentation[+] insert InsFlat
  * documentation[+] insert Note([[That the site is looked at before the patient gets up is common practice, no source. Asked for until the day after the removal.]])
* action[+]
  * insert Ask(dressing-change-after-removal, dressing-change, dressing-change-after-removal)
  * title = "New air-tight dressing over or in place of one that is damp, loosened or soiled after a removal"
  * insert On(exit-site)
  * priority = #asap
  * insert WhenDressingIsLoose
  * insert While(%isCentralCatheter)
  * insert While([[%line.removedDays.exists() and %line.removedDays <= 1]])
  * documentation[+] insert InsAirOcclusive
  * documentation[+] insert Seen(CDC 2011/2017, [[CDC-HICPAC 2011, dressing regimens, recommendation 3 (category IB), repeated in the 2017 update: replace the dressing if it becomes damp, loosened or visibly soiled]])
  * documentation[+] insert Note([[That the two together mean a new air-tight dressing at once, over the old one where that holds, is common practice, no source. Asked for until the day after the removal: a reading, not a published value.]])

RuleSet: SurvivalGuide(text)
* insert Seen(NCHD survival guide, [[NCHD survival guide: {text}]])

RuleSet: InsFlat
* insert Ins(2021, [[the patient stays flat for 30 minutes after the removal of a central line; from memory]])
