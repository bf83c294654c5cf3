// The work of the choice layers: that of the base with only what is chosen changed.

RuleSet: ChosenLock(id, solution)
* insert Work({id}, lock, Lock the lumen)
* insert Supply([[{solution}]])
* insert FlushAndLock

RuleSet: ChosenDialysisLock(id, solution)
* insert Work({id}, lock, Lock the dialysis lumen)
* insert Supply([[{solution}]])
* insert DrawOffAndLock

Instance: lock-saline
InstanceOf: ActivityDefinition
Usage: #definition
* insert ChosenLock(lock-saline, [[sodium chloride 0.9 %, unless the device’s instructions or the prescription ask for another lock]])
* insert UsesFor(benzyl-alcohol, lock-volume)

Instance: lock-heparin
InstanceOf: ActivityDefinition
Usage: #definition
* insert ChosenLock(lock-heparin, heparin lock solution of the concentration that is prescribed)
* insert UsesIn(heparin, heparin lock solution of the concentration that is prescribed)
* insert UsesFor(heparin, lock-volume)
* insert UsesIn(benzyl-alcohol, heparin lock solution of the concentration that is prescribed)
* insert UsesFor(benzyl-alcohol, lock-volume)
* insert Caution([[An aPTT before the first heparin lock: repeated small doses can alter it (US heparin lock labels).]])

Instance: lock-dialysis-heparin-1000
InstanceOf: ActivityDefinition
Usage: #definition
* insert ChosenDialysisLock(lock-dialysis-heparin-1000, [[heparin 1000 units/mL, as prescribed]])
* insert UsesIn(heparin, [[heparin 1000 units/mL, as prescribed]])
* insert UsesFor(heparin, lock-volume)
* insert UsesIn(benzyl-alcohol, [[heparin 1000 units/mL, as prescribed]])
* insert UsesFor(benzyl-alcohol, lock-volume)

Instance: lock-dialysis-citrate-4
InstanceOf: ActivityDefinition
Usage: #definition
* insert ChosenDialysisLock(lock-dialysis-citrate-4, [[citrate 4 %, as prescribed]])
* insert UsesIn(citrate, [[citrate 4 %, as prescribed]])
* insert UsesFor(citrate, lock-volume)
* insert Caution(Never citrate of 5 % or more.)

Instance: lock-dialysis-heparin-5000
InstanceOf: ActivityDefinition
Usage: #definition
* insert ChosenDialysisLock(lock-dialysis-heparin-5000, [[heparin 5000 units/mL, as prescribed]])
* insert UsesIn(heparin, [[heparin 5000 units/mL, as prescribed]])
* insert UsesFor(heparin, lock-volume)
* insert UsesIn(benzyl-alcohol, [[heparin 5000 units/mL, as prescribed]])
* insert UsesFor(benzyl-alcohol, lock-volume)
* insert Caution(Five times the strength of KDOQI 2019: aspirate it before use.)

Instance: lock-dialysis-enzyme
InstanceOf: ActivityDefinition
Usage: #definition
* insert ChosenDialysisLock(lock-dialysis-enzyme, thrombolytic lock as prescribed)
* insert UsesIn(thrombolytic, thrombolytic lock as prescribed)
* insert UsesFor(thrombolytic, lock-volume)

Instance: administration-set-change-blood-12-hours
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(administration-set-change-blood-12-hours, administration-set-change, Change the administration set)
* insert SetChangeWork
* insert Caution([[At the end of the episode, if that is sooner.]])

Instance: dressing-change-chlorhexidine-18-years
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-chlorhexidine-18-years, dressing-change, Change the chlorhexidine dressing)
* insert ChlorhexidineDressingChange
* insert Caution([[This unit uses chlorhexidine dressings from 18 years, on short-term non-tunneled catheters (CDC 2017).]])

Instance: dressing-change-chlorhexidine-2-months
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(dressing-change-chlorhexidine-2-months, dressing-change, Change the chlorhexidine dressing)
* insert ChlorhexidineDressingChange
* insert Caution([[This unit uses chlorhexidine dressings above 2 months of age (SHEA/IDSA/APIC 2022).]])
