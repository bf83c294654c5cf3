Instance: BloodSampling
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(blood-sampling, BloodSampling, Blood draws through the line)
* description = "A layer over the base: the steps of a blood draw with their volumes. The flush and the lock that follow a draw stand in the base. Values of common practice stand beside the published ones; local policy says which count."
* insert IsForDialysis
* insert IsChild
* insert IsInfant
* insert IsPastFirstYear
* action[+]
  * insert BloodDrawOf(blood-sampling, Blood draw through the line)
  * insert DrawFromKnownAdult
  * insert DrawFromOtherLine
  * insert OnlyIfKnown
  * documentation[+] insert Reason([[Where the age or the type of the line is not on record, the rules for children and for dialysis catheters are read: they ask for less, and for more care.]])
  * documentation[+] insert WithoutSource(Published and common practice, [[Common practice, no source: 6 mL discarded before, 3 mL saline after, clamps on before any cap comes off, both lumens of a two-lumen line irrigated and clamped. RNAO, node 805: discard 3 to 6 mL or 2 × dead space, 6 × for coagulation (seen). Royal Marsden Manual, chapter 13: 5 to 10 mL (seen).]])
  * documentation[=].url = "https://bpgmobile.rnao.ca/node/805"
  * documentation[+] insert OrderOfDraw
  * documentation[+] insert AdultCoagulationSample
* action[+]
  * insert BloodDrawOf(blood-sampling-infant, Blood draw through an infant’s line)
  * insert While(%isInfant)
  * insert DrawFromOtherLine
  * insert OnlyIfKnown
  * documentation[+] insert CommonPractice([[in the first year of life a lumen is locked after a draw only where a lock is ordered, with heparin of at most 10 units/mL.]])
  * documentation[+] insert Reason([[Where the age is not on record the rule for children is read, with the lock that the base asks for then.]])
  * documentation[+] insert DiscardByDeadSpace
  * documentation[=].url = "https://bpgmobile.rnao.ca/node/805"
  * documentation[+] insert OrderOfDraw
* action[+]
  * insert BloodDrawOf(blood-sampling-child, Blood draw through a child’s line)
  * insert While(%isChild)
  * insert While(%isPastFirstYear)
  * insert DrawFromOtherLine
  * documentation[+] insert DiscardByDeadSpace
  * documentation[=].url = "https://bpgmobile.rnao.ca/node/805"
  * documentation[+] insert OrderOfDraw
* action[+]
  * insert BloodDrawOf(blood-sampling-dialysis, Blood draw through a dialysis catheter)
  * insert DrawFromKnownAdult
  * insert While([[%line.type.empty() or %isForDialysis]])
  * documentation[+] insert OldLockFirst
  * documentation[+] insert DiscardByDeadSpace
  * documentation[=].url = "https://bpgmobile.rnao.ca/node/805"
  * documentation[+] insert OrderOfDraw
  * documentation[+] insert AdultCoagulationSample
* action[+]
  * insert BloodDrawOf(blood-sampling-dialysis-child, Blood draw through a child’s dialysis catheter)
  * insert While(%isChild)
  * insert While([[%line.type.empty() or %isForDialysis]])
  * documentation[+] insert OldLockFirst
  * documentation[+] insert DiscardByDeadSpace
  * documentation[=].url = "https://bpgmobile.rnao.ca/node/805"
  * documentation[+] insert OrderOfDraw

RuleSet: BloodDrawOf(id, title)
* insert Ask({id}, blood-sampling, {id})
* title = "{title}"
* insert On(lumen)
* insert WhenOrdered(blood-sampling)

RuleSet: DrawFromKnownAdult
* insert While([[%patient.ageDays.exists() and %isChild.not()]])

RuleSet: DrawFromOtherLine
* insert While([[%line.type.exists() and %isForDialysis.not()]])

RuleSet: OldLockFirst
* insert Seen(Dialysis catheter instructions, [[Instructions of dialysis catheters: the lock is drawn out of each lumen before use, else the patient is heparinised. A line whose type is not on record is read as one.]])

RuleSet: DiscardByDeadSpace
* insert Seen(RNAO, [[RNAO, node 805: discard 2 × dead space, 6 × for coagulation]])

RuleSet: OrderOfDraw
* insert Note([[Order of draw: CLSI GP41 (from memory). A new connector before a blood culture: INS, IDSA (from memory).]])

RuleSet: AdultCoagulationSample
* insert Note([[A coagulation sample of an adult: flush 5 mL, then discard 5 mL or 6 × dead space, the larger: CLSI H21-A5 (from memory).]])
