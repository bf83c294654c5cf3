Instance: HomeCare
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(home-care, HomeCare, Lines at home)
* description = "A unit layer over the base for patients who live at home with a line: what to watch for is taught when they go home, the site is looked at every day, the cap is changed at least weekly, and the need is asked about at the weekly line care. Sources are public home care sheets; where there is none the rule says so."
* insert HasExitSite
* insert IsOutpatient
* action[+]
  * insert Ask(teaching-at-home, teaching, teaching-at-home)
  * title = "Teach patient and family what to watch for"
  * insert WhenDone(insertion)
  * insert After(1, d)
  * insert While(%isOutpatient)
  * insert OnlyIfKnown
  * documentation[+] insert Seen(Home care sheets, [[A public home care sheet of a university hospital for tunneled catheters: and that of a second hospital: call for fever of 38.0 °C (100.5 °F) or more, chills after a flush, redness or drainage at the site, a rash, swelling of the arm or the neck, a cuff that shows, a flush that goes hard (do not force it), a break or a leak (clamp between it and the body), a wet dressing]])
  * documentation[+] insert Seen(Home care sheets, [[Home care sheets of further hospitals: chest pain, breathlessness or a line that falls out are emergencies; no blood pressure on that arm, keep dry, tape a loop, wash hands, scrub the hub for 15 s.]])
  * documentation[+] insert Note([[No source says when: it is due once the patient is at home, and once only. At 100.5 °F the sheets mean 38.06 °C; 38.0 °C is taken, the earlier call.]])
  * documentation[+] insert Reason([[Asked for only where the record says that the patient is at home or ambulatory.]])
* action[+]
  * insert Ask(site-assessment-home, site-assessment, site-assessment)
  * title = "Patient or carer looks at the site"
  * insert On(exit-site)
  * insert AtHome
  * insert Every(1, d)
  * documentation[+] insert HomeCareSheet(look at the site every day.)
  * documentation[+] insert BaseAsksTheSame
* action[+]
  * insert Ask(needleless-connector-change-home, needleless-connector-change, needleless-connector-change)
  * title = "Change the cap at home"
  * insert On(lumen)
  * insert AtHome
  * insert Every(7, d)
  * insert NotSoonerThan(96, h)
  * documentation[+] insert HomeCareSheet(change the cap at least weekly.)
  * documentation[+] insert BaseAsksTheSame
* action[+]
  * insert Ask(necessity-review-home, necessity-review, necessity-review)
  * title = "Ask at the weekly line care whether the line is still needed"
  * insert While(%isOutpatient)
  * insert Every(7, d)
  * insert OnlyIfKnown
  * documentation[+] insert CommonPractice([[at home and in ambulatory care the need of a line is asked about at its weekly care.]])
  * documentation[+] insert Note([[CDC 2011 asks to remove a line promptly when it is no longer essential (category IA); that the need is reviewed daily is said of acute care only.]])
  * documentation[+] insert Reason([[The base asks daily where the setting is not known.]])

RuleSet: AtHome
* insert While(%patient.setting = 'home')
* insert While(%hasExitSite)
* insert OnlyIfKnown

RuleSet: BaseAsksTheSame
* insert Reason([[The rule of the base asks for the same where the setting is not known.]])
