// The readings of published sources that differ from the base, one layer each, to lay over it: the base’s own rule with
// only that changed. src/choices-*.ts says of each disagreement which readings there are and which the base takes.

RuleSet: Choice(id, name, title, why)
* insert Plan({id}, {name}, [[{title}]])
* description = "A choice between published readings, to lay over the base. {title}. {why}"
* action[0].documentation[+] insert Reason([[{why}]])

RuleSet: LocalChoice(id, name, title)
* insert Choice({id}, {name}, [[{title}]], [[A choice of the unit between published readings; the base takes the newest graded guideline.]])

RuleSet: LongerChoice(id, name, title)
* insert Choice({id}, {name}, [[{title}]], [[A choice of the unit between published readings. The base takes the shortest of them for blood and fat; this one is longer. The hang time of the bag stays as it is.]])

RuleSet: SwitchedOff(rule, title)
* id = "{rule}"
* title = "{title}"
* insert While(false)

// --- Administration sets

Instance: ChoiceSet96Hours
InstanceOf: PlanDefinition
Usage: #definition
* insert LocalChoice(choice-set-96-hours, ChoiceSet96Hours, Continuous sets are changed every 96 hours)
* action[0]
  * insert SetChange
  * insert Every(96, h)
  * documentation[+] insert Seen(The choice, [[SHEA/IDSA 2008 compendium (A-II, superseded): not longer than 96 hours; French intensive care expert consensus 2020, table 2: 96 hours]])

Instance: ChoiceSetCdc200272Hours
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-set-cdc-2002-72-hours, ChoiceSetCdc200272Hours, Continuous sets are changed not more often than every 72 hours, [[Superseded by CDC 2011, which says 96 hours; for units whose policy still has it.]])
* action[0]
  * insert SetChange
  * insert Every(7, d)
  * insert NotSoonerThan(72, h)
  * documentation[+] insert Seen(The choice, [[CDC 2002, Appendix B (superseded): administration sets not more often than every 72 hours]])

Instance: ChoiceIntermittentSetCdcUnresolved
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-intermittent-set-cdc-unresolved, ChoiceIntermittentSetCdcUnresolved, No interval for sets in intermittent use, [[CDC 2011 gives no interval, INS gives 24 hours. The 7 days of continuous sets still count while something runs.]])
* action[0]
  * insert SwitchedOff(administration-set-change-intermittent, Change a set in intermittent use)
  * documentation[+] insert FromMemory(The choice, [[CDC-HICPAC 2011, administration sets, recommendation 2: no recommendation on sets in intermittent use (unresolved); from memory, read only in a secondary text]])

Instance: ChoiceFatEmulsionSetCdc24Hours
InstanceOf: PlanDefinition
Usage: #definition
* insert LongerChoice(choice-fat-emulsion-set-cdc-24-hours, ChoiceFatEmulsionSetCdc24Hours, Sets for fat emulsion are changed every 24 hours)
* action[0]
  * insert SetChangeOf(fat-emulsion, administration-set-change)
  * title = "Change a set used for fat emulsion"
  * insert Every(24, h)
  * insert OnlyIfKnown
  * documentation[+] insert FromMemory(The choice, [[CDC-HICPAC 2011, administration sets (category IB): sets used for fat emulsion within 24 hours of starting; from memory, read only in a secondary text. NSW ACI and the French consensus 2020 the same (seen).]])

Instance: ChoiceBloodSetCdc24Hours
InstanceOf: PlanDefinition
Usage: #definition
* insert LongerChoice(choice-blood-set-cdc-24-hours, ChoiceBloodSetCdc24Hours, Sets for blood are changed every 24 hours)
* action[0]
  * insert SetChangeOf(blood, administration-set-change)
  * title = "Change a set used for blood"
  * insert Every(24, h)
  * insert OnlyIfKnown
  * documentation[+] insert FromMemory(The choice, [[CDC-HICPAC 2011, administration sets (category IB): sets used for blood or blood products within 24 hours of starting; from memory, read only in a secondary text]])

Instance: ChoiceBloodSetEpic312Hours
InstanceOf: PlanDefinition
Usage: #definition
* insert LongerChoice(choice-blood-set-epic3-12-hours, ChoiceBloodSetEpic312Hours, Sets for blood are changed every 12 hours)
* action[0]
  * insert SetChangeOf(blood, administration-set-change-blood-12-hours)
  * title = "Change a set used for blood"
  * insert Every(12, h)
  * insert OnlyIfKnown
  * documentation[+] insert FromMemory(The choice, [[epic3 2014, national evidence-based guidelines (England): at the end of the episode or every 12 hours, whichever is sooner; from memory. Australian Lifeblood: end of the transfusion or 12 hours (seen).]])

Instance: ChoiceParenteralNutritionSet96Hours
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-parenteral-nutrition-set-96-hours, ChoiceParenteralNutritionSet96Hours, Sets for parenteral nutrition without fat are changed every 96 hours, [[INS says 24 hours now; for units that still work by the older chart.]])
* action[0]
  * insert SetChangeOf(parenteral-nutrition, administration-set-change)
  * title = "Change a set used for parenteral nutrition without fat"
  * insert Every(96, h)
  * insert OnlyIfKnown
  * documentation[+] insert FromMemory(The choice, [[INS, an older chart of the same publisher: parenteral nutrition without fat every 96 hours; from memory, read only in a secondary text]])

Instance: ChoiceParenteralNutritionSetCdcNone
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-parenteral-nutrition-set-cdc-none, ChoiceParenteralNutritionSetCdcNone, No interval of its own for parenteral nutrition without fat, [[CDC 2011 has no rule of its own for it: the 7 days of continuous sets count.]])
* action[0]
  * insert SwitchedOff(administration-set-change-parenteral-nutrition, Change a set used for parenteral nutrition without fat)
  * documentation[+] insert FromMemory(The choice, [[CDC-HICPAC 2011, administration sets: no rule for parenteral nutrition without fat; from memory, read only in a secondary text]])

// --- Dressings and connectors

Instance: ChoiceTransparentDressing5Days
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-transparent-dressing-5-days, ChoiceTransparentDressing5Days, Transparent dressings are changed every 5 days, [[Of a range the shorter end is taken. The base takes the 7 days of SHEA 2022, CDC 2011 and INS 2021.]])
* insert HasExitSite
* action[0]
  * insert ChangeTransparentDressing
  * insert Every(5, d)
  * documentation[+] insert FromMemory(The choice, [[SHEA/IDSA 2008 compendium (A-I): transparent dressings every 5 to 7 days; INS 2016 the same (from memory)]])
  * documentation[=].url = "https://eguideline.guidelinecentral.com/i/53995"

Instance: ChoiceTransparentDressingTunneledWeekly
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-transparent-dressing-tunneled-weekly, ChoiceTransparentDressingTunneledWeekly, Transparent dressings of tunneled and implanted lines not more often than once a week, [[A least spacing beside the interval of the base; damp, loosened or soiled dressings are changed at once all the same.]])
* insert HasExitSite
* insert HasIncision
* action[0]
  * insert Ask(dressing-change-transparent-tunneled, dressing-change, dressing-change)
  * title = "Change the transparent dressing of a tunneled line"
  * insert OfDressing(transparent-dressing)
  * insert While(%hasIncision)
  * insert Every(7, d)
  * insert NotSoonerThan(7, d)
  * documentation[+] insert FromMemory(The choice, [[CDC-HICPAC 2011, dressing regimens, recommendation 8 (category II): dressings of tunneled or implanted catheters not more than once a week, unless soiled or loose, until the insertion site has healed; from memory]])

Instance: ChoiceConnectorCdc72Hours
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-connector-cdc-72-hours, ChoiceConnectorCdc72Hours, Connectors are changed not more often than every 72 hours, [[INS, the newer one, says 96 hours; the greatest interval stays 7 days.]])
* insert HasExitSite
* action[0]
  * insert ConnectorChange
  * insert NotSoonerThan(72, h)
  * documentation[+] insert FromMemory(The choice, [[CDC-HICPAC 2011, needleless systems, recommendations 2 and 3 (category II): not more often than every 72 hours, or as the maker says; from memory]])

Instance: ChoiceChlorhexidineDressingCdc18Years
InstanceOf: PlanDefinition
Usage: #definition
* insert LocalChoice(choice-chlorhexidine-dressing-cdc-18-years, ChoiceChlorhexidineDressingCdc18Years, Chlorhexidine dressings from 18 years)
* insert HasExitSite
* action[0]
  * insert ChangeChlorhexidineDressing(dressing-change-chlorhexidine-18-years)
  * documentation[+] insert Seen(The choice, [[CDC 2017, Recommendations on the Use of Chlorhexidine-Impregnated Dressings, recommendations 1.a (category IA), 2.a (IC) and 2.b (unresolved)]])
  * documentation[=].url = "https://www.cdc.gov/infectioncontrol/guidelines/bsi/c-i-dressings/"

Instance: ChoiceChlorhexidineDressingShea2Months
InstanceOf: PlanDefinition
Usage: #definition
* insert LocalChoice(choice-chlorhexidine-dressing-shea-2-months, ChoiceChlorhexidineDressingShea2Months, Chlorhexidine dressings above 2 months)
* insert HasExitSite
* action[0]
  * insert ChangeChlorhexidineDressing(dressing-change-chlorhexidine-2-months)
  * documentation[+] insert Seen(The choice, [[SHEA/IDSA/APIC 2022, essential practice: chlorhexidine-containing dressings for patients above 2 months of age]])
  * documentation[=].url = "https://www.guidelinecentral.com/guideline/2117032"

// --- What an idle lumen is locked with

RuleSet: IdleLocks(definition)
* id = "locks"
* action[+]
  * insert LockPiccTunneled({definition})
  * insert IdlePiccTunneled
* action[+]
  * insert LockMidline({definition})
  * insert IdleMidline
* action[+]
  * insert LockNontunneled({definition})
  * insert IdleNontunneled
* action[+]
  * insert LockPortAccessed({definition})
  * insert IdlePortAccessed
* action[+]
  * insert LockPortNotAccessed({definition})
  * insert IsPortAtRest
  * insert Every(4, wk)
* action[+]
  * insert LockAfterInfusion({definition})
  * insert AfterInfusion
* action[+]
  * insert LockAfterBloodSampling({definition})
  * insert AfterBloodSampling

Instance: ChoiceLockSaline
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-lock-saline, ChoiceLockSaline, Idle lumens are locked with saline, [[The base leaves the solution to the prescription and to the device: its own instructions may require heparin.]])
* insert IsForDialysis
* insert IsIdle
* insert IsPastFirstYear
* action[0]
  * insert IdleLocks(lock-saline)
  * documentation[+] insert FromMemory(The choice, [[ESPEN home parenteral nutrition guideline 2020 and 2023: saline rather than heparin for long-term lines; from memory, read only in a secondary text]])

Instance: ChoiceLockHeparin
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-lock-heparin, ChoiceLockHeparin, Idle lumens are locked with heparin where it is prescribed, [[The base leaves the solution to the prescription and to the device. Doses are checked with the calculators heparin-per-lock and heparin-per-day.]])
* insert IsForDialysis
* insert IsIdle
* insert IsPastFirstYear
* action[0]
  * insert IdleLocks(lock-heparin)
  * documentation[+] insert Seen(The choice, [[Device instructions that ask for heparin; NHS Ayrshire & Arran, guideline G004: 2 mL heparin 10 units/mL after saline; US heparin lock labels: effect up to 4 hours]])

Instance: ChoicePort8Weeks
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-port-8-weeks, ChoicePort8Weeks, Ports at rest are flushed and locked every 8 weeks, [[Longer than the 4 weeks of the labels that the base takes: a meta-analysis found no more occlusions with 8 weeks; a larger one of 2024 found a relative risk of 1.50 (1.18 to 1.92) with 2 to 3 months. The label comes first where it says otherwise.]])
* insert IsPastFirstYear
* action[0]
  * insert PortAtRest
  * insert Every(8, wk)
  * documentation[+] insert Seen(The choice, [[Wu 2020, meta-analysis (862 cases): 8 weeks against 4, occlusion 4.1 % and 4.9 %]])

Instance: ChoicePort3Months
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-port-3-months, ChoicePort3Months, Ports at rest are flushed and locked every 3 months, [[Longer than the 4 weeks of the labels that the base takes: acceptable in INS 2021; a meta-analysis of 2024 found a relative risk of occlusion of 1.50 (1.18 to 1.92) with 2 to 3 months. The label comes first where it says otherwise.]])
* insert IsPastFirstYear
* action[0]
  * insert PortAtRest
  * insert Every(3, mo)
  * documentation[+] insert FromMemory(The choice, [[Diaz 2017 (87 patients, phase II): every 3 months; INS 2021: up to every 3 months is acceptable (from memory)]])
  * documentation[=].url = "https://pubmed.ncbi.nlm.nih.gov/28084883/"

// --- What a dialysis catheter is locked with

RuleSet: DialysisLocks(definition)
* id = "dialysis-locks"
* action[+]
  * insert LockDialysis({definition})
* action[+]
  * insert LockDialysisAfterInfusion({definition})
  * insert AfterInfusion
* action[+]
  * insert LockDialysisAfterBloodSampling({definition})
  * insert AfterBloodSampling

Instance: ChoiceDialysisLockHeparin1000
InstanceOf: PlanDefinition
Usage: #definition
* insert LocalChoice(choice-dialysis-lock-heparin-1000, ChoiceDialysisLockHeparin1000, Dialysis catheters are locked with heparin 1000 units/mL)
* insert IsForDialysis
* insert IsIdle
* action[0]
  * insert DialysisLocks(lock-dialysis-heparin-1000)
  * documentation[+] insert FromMemory(The choice, [[KDOQI 2019, clinical practice guideline for vascular access: heparin 1000 units/mL or citrate below 5 %; from memory]])

Instance: ChoiceDialysisLockCitrate4
InstanceOf: PlanDefinition
Usage: #definition
* insert LocalChoice(choice-dialysis-lock-citrate-4, ChoiceDialysisLockCitrate4, Dialysis catheters are locked with citrate 4 %)
* insert IsForDialysis
* insert IsIdle
* action[0]
  * insert DialysisLocks(lock-dialysis-citrate-4)
  * documentation[+] insert FromMemory(The choice, [[KDOQI 2019, clinical practice guideline for vascular access: citrate 4 % (below 5 %) or heparin 1000 units/mL; from memory]])

Instance: ChoiceDialysisLockHeparin5000
InstanceOf: PlanDefinition
Usage: #definition
* insert LocalChoice(choice-dialysis-lock-heparin-5000, ChoiceDialysisLockHeparin5000, Dialysis catheters are locked with heparin 5000 units/mL)
* insert IsForDialysis
* insert IsIdle
* action[0]
  * insert DialysisLocks(lock-dialysis-heparin-5000)
  * documentation[+] insert Seen(The choice, [[PreCLOT trial (PMC1459124, results 2011): heparin 5000 units/mL three times a week]])

Instance: ChoiceDialysisLockWeeklyEnzyme
InstanceOf: PlanDefinition
Usage: #definition
* insert Choice(choice-dialysis-lock-weekly-enzyme, ChoiceDialysisLockWeeklyEnzyme, Dialysis catheters are locked with a thrombolytic once a week, [[An additional approach, on prescription. Monday by 08:00 is invented: put the day of the unit in its place.]])
* insert IsForDialysis
* insert IsIdle
* action[0]
  * insert Ask(lock-dialysis-weekly-enzyme, lock, lock-dialysis-enzyme)
  * title = "Lock with the thrombolytic of the week"
  * insert IdleAtDialysis
  * insert EveryWeekOn(mon)
  * insert Hour(08:00:00)
  * documentation[+] insert FromMemory(The choice, [[PreCLOT trial (PMC1459124, results 2011): 1 mg to a lumen once a week and heparin twice, bacteraemia 4.5 % against 13.0 %; SHEA/IDSA/APIC 2022, additional approach; KDOQI 2019 (from memory): once a week may be used]])
  * documentation[=].url = "https://www.ncbi.nlm.nih.gov/pmc/articles/PMC1459124/"
