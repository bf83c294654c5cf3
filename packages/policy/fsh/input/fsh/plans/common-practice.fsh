Instance: CommonPractice
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(common-practice, CommonPractice, [[Idle lumens and loose clamps, by common practice]])
* description = "A layer over the base for units that keep to what is common practice without a published source: a lumen in no daily use is irrigated every day, locked anew and given a new cap every week, and the clamp of a line without clamps of its own moves with its sleeve every week. The instructions of the device come first."
* insert IsForInfusions
* insert IsIdle
* insert IsPastFirstYear
* action[+]
  * insert Ask(flush-idle-daily, flush, flush-idle)
  * title = "Irrigate a lumen that is in no daily use"
  * insert While([[%line.type.exists()]])
  * insert While(%isForInfusions)
  * insert Idle(1, d)
  * documentation[+] insert CommonPractice([[a locked lumen that is in no daily use is irrigated every day.]])
  * documentation[+] insert Note([[Other values: weekly for peripherally inserted and tunneled catheters (NHS Ayrshire & Arran G004, in the base).]])
  * documentation[+] insert Note([[Not dialysis catheters: their lock is drawn off. Not ports without a needle. A lumen whose use is not known is read as idle.]])
* action[+]
  * insert Ask(lock-after-irrigation, lock, lock-idle)
  * title = "Lock a lumen anew after it was irrigated"
  * insert On(lumen)
  * insert WhenDone(flush)
  * insert While([[%line.type.exists()]])
  * insert While(%isForInfusions)
  * insert While(%isIdle)
  * insert NotOfInfants
  * documentation[+] insert Seen(US labels of heparin lock flush, [[US labels of heparin lock flush solutions: the lock is replaced after every use (seen)]])
  * documentation[+] insert Note([[Saline as a lock is treated alike: common practice, no source.]])
  * documentation[+] insert InfantsHaveTheirOwn
* action[+]
  * insert Ask(needleless-connector-change-idle, needleless-connector-change, needleless-connector-change-idle)
  * title = "Change the cap of a lumen that is in no daily use"
  * insert While(%isForInfusions)
  * insert Idle(7, d)
  * insert NotSoonerThan(96, h)
  * documentation[+] insert CommonPractice([[the cap of a locked lumen is changed every week.]])
  * documentation[+] insert Note([[The same in a public home care sheet (cap at least weekly, seen) and in NHS Ayrshire & Arran G004 (seen).]])
* action[+]
  * insert Ask(clamp-position-change, clamp-position-change, clamp-position-change)
  * title = "Move the clamp of a line that has none of its own"
  * insert While(%line.clamp = 'none')
  * insert Every(7, d)
  * insert OnlyIfKnown
  * documentation[+] insert CommonPractice([[the clamp of a line without clamps of its own sits over a tape sleeve, and both move to a new place every week.]])
  * documentation[+] insert Reason([[Asked for only where the record says that the line has no clamps of its own (Device property clamp): reading every line that says nothing of it so would ask for clamps on lines that have them.]])
