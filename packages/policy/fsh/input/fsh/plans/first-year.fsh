Instance: FirstYear
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(first-year, FirstYear, Lines in the first year of life)
* description = "A layer over the base, of infants up to their first birthday: a lumen is flushed after each use and at least daily while it is idle, a port at rest every 4 weeks as its label says; it is locked only where a lock is ordered. No published guideline gives infants intervals of their own, and the weekly care of adults is not for them."
* insert HasExitSite
* insert IsForDialysis
* insert IsIdle
* insert IsInfant
* action[+]
  * insert FlushOfInfants
* action[+]
  * insert Ask(flush-first-year-port-at-rest, flush, flush-first-year)
  * title = "Flush the port of an infant that is not in use"
  * insert While(%isInfant)
  * insert IsPortAtRest
  * insert Every(4, wk)
  * documentation[+] insert PortLabelled4Weeks
  * documentation[+] insert CommonPractice([[in the first year of life the port is flushed as its label says, and locked only where that is ordered, with heparin of at most 10 units/mL.]])
* action[+]
  * id = "infant-after-use"
  * insert While(%isInfant)
  * insert While([[%line.type.exists() and %isForDialysis.not()]])
  * insert NoIntervalOfInfants
  * action[+]
    * insert Ask(flush-first-year-after-infusion, flush, flush-first-year)
    * title = "Flush a lumen of an infant after an infusion"
    * insert AfterInfusion
  * action[+]
    * insert Ask(flush-first-year-after-blood-sampling, flush, flush-first-year)
    * title = "Flush a lumen of an infant after a blood draw"
    * insert AfterBloodSampling
