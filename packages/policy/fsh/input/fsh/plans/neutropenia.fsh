Instance: Neutropenia
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(neutropenia, Neutropenia, Daily gauze dressing while neutrophils are very low)
* description = "A unit layer over the base: while the neutrophil count is below 0.2 10^9/L (200/mm3), a gauze dressing is changed every day. Common practice, no source: no published guideline that was seen ties the dressing interval to the neutrophil count."
* insert HasExitSite
* action[+]
  * insert Ask(dressing-change-gauze-low-neutrophils, dressing-change, dressing-change-low-neutrophils)
  * title = "Change a gauze dressing daily while neutrophils are very low"
  * insert OfDressing(gauze-dressing)
  * insert While(%labs.anc < 0.2 '10*9/L')
  * insert Every(1, d)
  * documentation[+] insert CommonPractice([[a gauze dressing every day while the neutrophil count is below 200/mm3.]])
  * documentation[+] insert Note([[No national guideline with a dressing interval set by the neutrophil count was found. It is a choice of the unit: threshold and interval are local.]])
  * documentation[+] insert Note([[A count that is not known, or not known to be at or above the limit, is read as low, and a dressing that is not on record as gauze.]])
