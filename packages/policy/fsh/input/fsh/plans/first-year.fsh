Instance: FirstYear
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(first-year, FirstYear, Lines in the first year of life)
* description = "A layer over the base, of infants up to their first birthday: a lumen is flushed after each use and at least daily while it is idle, and locked only where a lock is ordered. No published guideline gives infants intervals of their own, and the weekly care of adults is not for them."
* insert HasExitSite
* insert IsForDialysis
* insert IsIdle
* insert IsInfant
* action[+]
  * insert FlushOfInfants
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
