Instance: Removal
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(removal, Removal, The removal of a line and what follows it)
* description = "A layer over the base for units that take lines out: the steps of a removal on every item that asks for one, the check at once whether the line is whole, first steps when a piece has stayed in the body, and the rest of 30 minutes after which the site is looked at. A dressing that is damp, loosened or soiled by then is made air-tight again. The check after 24 hours stands in the base."
* insert IsCentralCatheter
* action[+]
  * insert Ask(removal, removal, removal)
  * title = "Removal of the line"
  * insert WhenOrdered(removal)
  * documentation[+] insert Ins(2021, [[the removal is the event that the checks below follow; flat for 30 minutes, air-occlusive dressing for at least 24 hours; from memory]])
  * documentation[+] insert SurvivalGuide([[removal flat or head down, with Valsalva or breathing out, air-tight dressing at once; never pull against resistance (seen).]])
  * documentation[+] insert Seen(IDSA 2009, [[IDSA 2009 (A-II): the tip is sent for culture only where the line is removed for a suspected infection of it (seen)]])
  * documentation[+] insert Note([[Pressure for at least 5 minutes on exit site and vein, longer with low platelets; infusions stopped and lumens clamped first; platelets and INR looked at: common practice, no source.]])
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
  * insert Ask(retained-catheter-response, retained-catheter-response, retained-catheter-response)
  * title = "A piece of the line has stayed in the body: first steps"
  * priority = #stat
  * insert WhenFound(removed-catheter)
  * insert WithValue(#incomplete)
  * documentation[+] insert SurvivalGuide([[a severed catheter that is wholly retained: keep the limb still, dress the site, urgent help (seen).]])
  * documentation[+] insert Note([[That nothing is pulled or cut and what came out is kept is common practice, no source.]])
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
