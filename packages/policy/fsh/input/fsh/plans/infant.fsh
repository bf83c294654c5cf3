Instance: Infant
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(infant, Infant, Lines of neonates and infants)
* description = "A unit layer over the base for neonatal and infant units: up to 28 days of age dressings are changed as clinically needed and not by the calendar, the site is looked at every hour, and an idle lumen is locked every 72 hours."
* insert HasExitSite
* insert IsIdle
* insert IsForDialysis
* insert IsNeonate
* insert IsInfant
* insert Named(isCentralForInfusions, [[%line.type.exists() and %line.type in ('picc' | 'tunneled-cvc' | 'nontunneled-cvc')]])
* action[+]
  * insert ChangeGauzeDressing
  * insert NotOfNeonates
* action[+]
  * insert ChangeTransparentDressing
  * insert TransparentEvery7Days
  * insert NotOfNeonates
* action[+]
  * insert Ask(site-assessment-neonate, site-assessment, site-assessment)
  * title = "Look at the exit site of a neonate"
  * insert On(exit-site)
  * insert While(%isNeonate)
  * insert While(%hasExitSite)
  * insert Every(1, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[site checks every hour in neonates; from memory]])
  * documentation[+] insert Note([[INS says this of peripheral catheters; this layer takes it for every line: a choice of the unit.]])
  * documentation[+] insert Reason([[Where the age is not on record the base asks daily.]])
* action[+]
  * insert Ask(lock-neonate, lock, lock-neonate)
  * title = "Lock an idle lumen of a neonate"
  * insert While(%isNeonate)
  * insert While(%isCentralForInfusions)
  * insert Idle(72, h)
  * insert OnlyIfKnown
  * documentation[+] insert Seen(Auckland 2005, [[Auckland newborn service, heparin administration protocol 2005: idle central lines of neonates, heparin 10 units/mL every 72 hours]])
  * documentation[+] insert Note([[Other values: flushes every 6 to 8 hours through small capped lines of infants in a drug reference (from memory, secondary). Each protocol is one whole, its strength, volume and interval together: this is one protocol’s interval, whose strength and volume stand in the cautions. What the sheet of another hospital gives stands apart there, and is never mixed with them. The prescription decides.]])
  * documentation[+] insert Reason([[Where the age is not on record the rules of the base ask for their own intervals.]])
* action[+]
  * insert FlushOfInfants
  * insert While(%patient.ageDays > 28)
  * documentation[+] insert Reason([[Loosened for neonates, up to 28 days of age: this layer locks their idle lumens every 72 hours and flushes each first, and a daily flush between would push the lock in.]])
* action[+]
  * id = "neonate-after-use"
  * insert While([[%patient.ageDays.exists() and %isNeonate]])
  * insert While(%isCentralForInfusions)
  * insert While(%isIdle)
  * action[+]
    * insert Ask(lock-neonate-after-infusion, lock, lock-neonate)
    * title = "Lock a lumen of a neonate again after an infusion"
    * insert AfterInfusion
    * documentation[+] insert LockAfterUse
    * documentation[+] insert EndedIsStopped
    * documentation[+] insert NoLockWhileInfusing
    * documentation[+] insert WhatANeonateMayBeGiven
  * action[+]
    * insert Ask(lock-neonate-after-blood-sampling, lock, lock-neonate)
    * title = "Lock a lumen of a neonate again after a blood draw"
    * insert AfterBloodSampling
    * documentation[+] insert LockAfterUse
    * documentation[+] insert NoLockWhileInfusing
    * documentation[+] insert WhatANeonateMayBeGiven

RuleSet: NotOfNeonates
* insert While(%patient.ageDays > 28)
* documentation[+] insert Reason([[Loosened for neonates, up to 28 days of age: as clinically needed (INS 2021, standard 42, from memory), and less often in neonatal intensive care where the risk of dislodging the catheter is greater (SHEA/IDSA/APIC 2022; CDC 2011, recommendation 7, of children; both from memory). Damp, loosened or soiled dressings are changed at once in neonates too. An age that is not known is read as older.]])

RuleSet: WhatANeonateMayBeGiven
* insert Note([[The base asks for no lock in the first year of life: whoever lays this layer over it locks the lines of neonates, and this says with what. Where the age is not on record the base’s own lock stands.]])
