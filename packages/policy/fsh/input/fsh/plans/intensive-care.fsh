Instance: IntensiveCare
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(intensive-care, IntensiveCare, Lines in intensive care)
* description = "A unit layer over the base for intensive care: the site is looked at every 2 hours. The antiseptic bath and the daily question whether the line is still needed stand in the base."
* insert HasExitSite
* action[+]
  * insert Ask(site-assessment-intensive-care, site-assessment, site-assessment)
  * title = "Look at the exit site in intensive care"
  * insert On(exit-site)
  * insert While(%patient.setting = 'intensive-care')
  * insert While(%hasExitSite)
  * insert Every(2, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[site checks every 1 to 2 hours in critical illness and sedation; from memory]])
  * documentation[+] insert Note([[INS says this of peripheral catheters; of central lines it says at least daily. This layer takes the longer end of it for every line: a choice of the unit.]])
  * documentation[+] insert Reason([[Where the setting is not on record the base asks daily: reading every unknown setting as intensive care would ask for twelve looks a day of all lines.]])
