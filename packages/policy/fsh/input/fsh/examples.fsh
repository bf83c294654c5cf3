// An example of each kind of rule, to copy from. No rule in it is a recommendation, and as it stands it is refused: the
// sources and the reasons are still to be written.

Instance: OurUnitExamples
InstanceOf: PlanDefinition
Usage: #definition
* id = "our-unit-examples"
* url = "https://your-hospital.example/fhir/PlanDefinition/our-unit-examples"
* version = "0.1.0"
* name = "OurUnitExamples"
* title = "Examples of rules"
* type = $plan-type#clinical-protocol "Clinical Protocol"
* status = #draft
* experimental = true
* description = "An example of each kind of rule. None of them is a recommendation."
* usage = "Copy the kinds of rule that your unit needs into its own plan, and give each its source; a rule that asks for less than the base also gives its reason. An action’s id is the rule’s name: keep it from version to version. Codes of activities: https://dwellward.example/fhir/CodeSystem/line-care-activity."
* insert Named(isMeantForDays, [[%line.type in ('nontunneled-cvc' | 'midline')]])
* contained = our-patency-test
* action[+]
  * insert Ask(our-site-assessment, site-assessment, site-assessment)
  * title = "Look at the exit site every eight hours"
  * insert On(exit-site)
  * insert Every(8, h)
  * insert Lead(1, h)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[An interval: so long after the last time. The rule stands beside those of the base for the same activity; the one that is due first decides. rule-scope says what it is done to (line, lumen, exit-site, incision), rule-lead how long before it is due it may be done.]])
* action[+]
  * insert Ask(our-dressing-change-drainage, dressing-change, dressing-change)
  * title = "Change the dressing at once when there is drainage at the exit site"
  * insert On(exit-site)
  * priority = #urgent
  * insert WhenFound(exit-site)
  * insert WithValue($finding#drainage)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[At once: due as soon as a finding with one of these values is charted, and met by the next time it is done. Several triggers are: any of them.]])
* action[+]
  * insert Ask(our-site-assessment-warm, site-assessment, site-assessment)
  * title = "Look at the exit site at 38.3 °C or more"
  * insert On(exit-site)
  * insert WhenFound(body-temperature)
  * insert Start(%latest.bodyTemperature >= 38.3 'Cel')
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[A condition of kind start: judged once, when the finding is charted. A limit stands in the plan, with a UCUM unit.]])
* action[+]
  * insert AskOwn(our-patency-after-sampling, patency-assessment, our-patency-test)
  * title = "Check that the lumen is open an hour after blood was drawn"
  * insert On(lumen)
  * insert WhenDone(blood-sampling)
  * insert After(1, h)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[A chain: once, so long after another act. Its steps, supplies and cautions are your own: the ActivityDefinition our-patency-test in this plan.]])
* action[+]
  * insert Ban(our-no-bath-after-sampling, bath)
  * title = "No antiseptic bath within half an hour of drawing blood"
  * insert WhenDone(blood-sampling)
  * insert For(30, min)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[A ban for a time: an ActivityDefinition with doNotPerform forbids. Of every activity that can be forbidden there is one, no-ACTIVITY.]])
* action[+]
  * id = "our-moved-line"
  * insert WhenFound(migration)
  * insert Until(%last.tipConfirmation >= %began)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[A group: what it says counts for each rule in it. Here two bans that begin with a finding and last until an act was done since.]])
  * action[+]
    * insert Ban(our-no-bath-after-migration, bath)
    * title = "No antiseptic bath from a line that has moved until its tip is confirmed"
  * action[+]
    * insert Ban(our-no-draw-after-migration, blood-sampling)
    * title = "No blood from a line that has moved until its tip is confirmed"
* action[+]
  * insert Ban(our-no-bath-of-infants, bath)
  * title = "No antiseptic bath in the first two months"
  * insert While(%patient.ageDays <= 62)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[A ban without a trigger: in force for as long as its condition is true.]])
* action[+]
  * id = "our-insertion"
  * title = "Put the line in"
  * code = $activity#insertion
  * insert WhenOrdered(insertion)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[An act that the hospital’s own order asks for. It makes no item; the next rule is counted back from it.]])
* action[+]
  * insert Ask(our-teaching-before-insertion, teaching, teaching-before-insertion)
  * title = "Explain the line on the afternoon before it goes in"
  * insert Before(our-insertion, 12, h)
  * insert Hour(16:00:00)
  * insert Lead(3, d)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[Before another: counted back from the time for which the other act is planned by a ServiceRequest or an Appointment. timeOfDay, which may be left out, moves it to the last such time of day.]])
* action[+]
  * insert Ask(our-necessity-review-long, necessity-review, necessity-review)
  * title = "Ask twice a day whether a line is still needed that was only meant for days"
  * insert While(%isMeantForDays)
  * insert While(%line.dwellDays > 7)
  * insert Every(12, h)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[A condition: the rule applies while it is true. Several are joined by and; isMeantForDays is an expression that this plan has given a name. A fact that is not known counts as true (the protective reading) unless rule-when-unknown says default, with the reason in documentation.]])
* action[+]
  * insert Ask(external-length-measurement, external-length-measurement, external-length-measurement)
  * title = "Measure the external length every two weeks"
  * insert Every(2, wk)
  * documentation[+] insert OurSource
  * documentation[+] insert Note([[A replaced rule: it has the id of a rule of the base. This one is looser than the base, so it must give its reason.]])
  * documentation[+] insert Reason([[Replace this by your unit’s reason for a longer interval than the base has.]])
* action[+]
  * id = "access-needle-change"
  * title = "Port needles are changed by another service"
  * insert While(false)
  * documentation[+] insert Note([[A rule switched off: the id of a rule of the base, and the condition false. It must give its reason.]])
  * documentation[+] insert Reason([[Replace this by your unit’s reason for not asking for it.]])

Instance: our-patency-test
InstanceOf: ActivityDefinition
Usage: #inline
* insert OwnWork(patency-assessment, Test the lumen after a draw)
* insert Computes(syringe-size)
* insert ComputedStep([['Flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pulses.']])
* insert Step([[Chart blood return and resistance.]])
* insert Supply(gloves)

RuleSet: OurSource
* insert CommonPractice([[replace this by the source that your unit goes by.]])
