Instance: Base
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(base, Base, Published maintenance of vascular access lines)
* description = "Maintenance of every line type as published guidelines give it: confirmation of the tip, dressings, securement, connectors, administration sets, flush and lock, site, external length, need, antiseptic bath, port needle, care after removal. It advises; local policy, the instructions of device and drug, and licensed clinicians decide. Lay a policy of your own over it to choose other values."
* purpose = "Where sources differ the newest graded guideline is taken and the others are named in the documentation of the rule. Values that were not read in their source are marked: from memory. Check those before use."
* insert LabStaleAfter(7, d)
* insert HasExitSite
* insert IsForDialysis
* insert IsForInfusions
* insert IsCentralCatheter
* insert IsIdle
* insert IsPastFirstYear

// --- Dressings

* action[+]
  * insert ChangeGauzeDressing
* action[+]
  * insert ChangeTransparentDressing
  * insert TransparentEvery7Days
* action[+]
  * insert ChangeChlorhexidineDressing(dressing-change-chlorhexidine)
  * documentation[+] insert Shea2022Seen([[: transparent dressings at least every 7 days; chlorhexidine-containing dressings for patients above 2 months]])
  * documentation[+] insert Cdc2011([[dressing regimens, recommendation 7 (category IB): transparent dressings at least every 7 days, read for those with chlorhexidine too; from memory]])
  * documentation[+] insert Cdc2017([[recommendation 1.a (category IA): chlorhexidine-impregnated dressings recommended from 18 years for short-term non-tunneled catheters; the update gives no interval of its own]])
  * documentation[+] insert Note([[Sources differ on whom to use it for: CDC 2017 from 18 years, unresolved below, not in premature neonates; SHEA 2022 above 2 months. Which dressing to use is not decided here.]])
  * documentation[+] insert OfPortsWithNeedle
* action[+]
  * insert Ask(dressing-change-dialysis, dressing-change, dressing-change-dialysis)
  * title = "Change the dressing of a dialysis catheter"
  * insert On(exit-site)
  * insert While(%isForDialysis)
  * insert While(%line.dressing != 'no-dressing')
  * insert Every(7, d)
  * documentation[+] insert FromMemory(KHA-CARI, [[KHA-CARI guideline on dialysis catheters: long-term dialysis lines weekly, or sooner if soiled or not intact; transparent preferred, dry dressing while there is bleeding; from memory, read only in a secondary text]])
  * documentation[+] insert Cdc2011Seen([[(category IB): ointment at the exit site of a dialysis catheter after insertion and at the end of each session, if the material allows it]])
  * documentation[+] insert Note([[Other values: at each dialysis session where the unit opens the dressing for the ointment; the bundled layer dialysis asks for that. Gauze is changed every 2 days all the same.]])
* action[+]
  * insert Ask(dressing-change-at-once, dressing-change, dressing-change)
  * title = "Change a damp, loosened or soiled dressing"
  * insert On(exit-site)
  * priority = #urgent
  * insert WhenDressingIsLoose
  * documentation[+] insert Seen(CDC 2011/2017, [[CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, dressing regimens, recommendation 3 (category IB), repeated in the 2017 update: replace the dressing if it becomes damp, loosened or visibly soiled]])
  * documentation[=].url = "https://www.cdc.gov/infectioncontrol/guidelines/bsi/c-i-dressings/"
* action[+]
  * insert Ask(securement-change, securement-change, securement-change)
  * title = "Change the adhesive securement device"
  * insert While(%line.securement = 'adhesive-device')
  * insert While(%hasExitSite)
  * insert Every(7, d)
  * insert OnlyIfKnown
  * documentation[+] insert Ins(2016 and 2021, [[assess and change the adhesive securement device with the dressing, as its maker says; from memory]])
  * documentation[+] insert Note([[7 days is the longest interval between dressing changes. Anchors under the skin stay for the time of the line: no rule asks for their change.]])
  * documentation[+] insert Reason([[A line of which no adhesive device is on record has none to change; the supplies of the dressing change name one in any case.]])

// --- Connectors and administration sets

* action[+]
  * insert ConnectorChange
  * insert NotSoonerThan(96, h)
  * documentation[+] insert Cdc2011([[needleless systems, recommendations 1 to 3 (category II): change needleless parts at least as often as the administration set, which is at least every 7 days; no benefit more often than every 72 hours; from memory]])
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[connectors not more often than every 96 hours; from memory]])
  * documentation[+] insert G004([[needle-free device weekly at line care, or when damaged, leaking or soiled]])
  * documentation[+] insert Note([[Other values: least spacing 72 hours in CDC 2011, 96 hours in INS; 96 hours is taken, the newer one.]])
  * documentation[+] insert OfPortsWithNeedle
* action[+]
  * insert Ask(needleless-connector-change-at-once, needleless-connector-change, needleless-connector-change)
  * title = "Change a connector with residue or contamination"
  * insert On(lumen)
  * priority = #urgent
  * insert WhenFound(connector-condition)
  * insert WithValue($connector-condition#blood-residue)
  * insert WithValue($connector-condition#debris)
  * insert WithValue($connector-condition#contaminated)
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[change the connector when blood or debris is seen in it, when it is contaminated and when it was taken off; from memory]])
  * documentation[+] insert G004([[when damaged, leaking or soiled]])
* action[+]
  * insert SetChange
  * insert Every(7, d)
  * insert NotSoonerThan(96, h)
  * documentation[+] insert Shea2022([[: sets not used for blood, blood products or fat emulsion at intervals of up to 7 days; from memory, read only in a secondary text]])
  * documentation[+] insert Cdc2011([[administration sets, recommendation 1 (category IA): sets in continuous use, with secondary sets and add-ons, not more often than every 96 hours and at least every 7 days; from memory, read only in a secondary text]])
  * documentation[+] insert Note([[Other values: not longer than 96 hours in SHEA/IDSA 2008 (A-II, superseded) and the French consensus 2020; not more often than 96 hours and no stated maximum in epic3 2014 (from memory); 72 hours in CDC 2002 (superseded).]])
  * documentation[+] insert Note([[Sets in intermittent use, parenteral nutrition without fat and pressure monitoring have rules of their own below.]])
* action[+]
  * insert SetChangeOf(blood, administration-set-change-with-bag)
  * title = "Change a set used for blood"
  * insert Every(4, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[set and filter with each unit or every 4 hours; from memory, read only in a secondary text]])
  * documentation[+] insert Note([[Sources differ: of blood and fat the shortest counts, unless the policy names another. Other values: within 24 hours of starting in CDC 2011 (category IB; as reported); at the end of the episode or every 12 hours in epic3 2014 (from memory), 12 hours at Australian Lifeblood (seen) and BSH 2017 (from memory). The bundled choices choice-blood-set-cdc-24-hours and choice-blood-set-epic3-12-hours take these.]])
  * documentation[+] insert SetOfUnknown
* action[+]
  * insert SetChangeOf(fat-emulsion, administration-set-change-with-bag)
  * title = "Change a set used for fat emulsion"
  * insert Every(12, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[fat emulsion alone every 12 hours and with each container; from memory, read only in a secondary text]])
  * documentation[+] insert Note([[Sources differ: of blood and fat the shortest counts, unless the policy names another. Other values: within 24 hours of starting in CDC 2011 (category IB; as reported), epic3 2014 (from memory), the French consensus 2020 and NSW ACI (seen). The bundled choice choice-fat-emulsion-set-cdc-24-hours takes these.]])
  * documentation[+] insert SetOfUnknown
* action[+]
  * insert SetChangeOf(nutrition-with-fat, administration-set-change-with-bag)
  * title = "Change a set used for parenteral nutrition with fat"
  * insert Every(24, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[mixtures with fat every 24 hours and with each bag; from memory, read only in a secondary text]])
  * documentation[+] insert Cdc2011([[administration sets, (category IB): sets used for fat emulsion, alone or in a mixture, within 24 hours of starting; from memory, read only in a secondary text]])
  * documentation[+] insert SetOfUnknown
* action[+]
  * insert Ask(administration-set-change-unknown, administration-set-change, administration-set-change)
  * title = "Change a set of which it is not known what runs through it"
  * insert On(lumen)
  * insert While(%lumen.use = 'infusing')
  * insert While([[%lumen.infusate.empty()]])
  * insert Every(24, h)
  * documentation[+] insert Cdc2011([[administration sets, (category IB): sets used for blood, blood products or fat emulsion within 24 hours of starting; from memory, read only in a secondary text]])
  * documentation[+] insert French2020([[24 hours with lipid or blood]])
  * documentation[+] insert Note([[What is not known may be blood or fat: the 24 hours that every guideline allows at most for both. The hang times and the shorter intervals of blood and fat count where the record says what runs.]])

// --- Hang times: the bag, apart from its set

* action[+]
  * insert HangTimeOf(blood)
  * title = "Take blood down: it has hung for 4 hours"
  * insert Every(4, h)
  * documentation[+] insert Seen([[NZ Blood Service; UK JPAC]], [[NZ Blood Service, Transfusion Medicine Handbook, 3.11; UK JPAC, Handbook of Transfusion Medicine, table 4.2: a transfusion of red cells is finished within 4 hours from leaving controlled storage]])
  * documentation[=].url = "https://www.transfusionguidelines.org"
  * documentation[+] insert Seen(CDC 2002, [[CDC 2002, MMWR 51 RR-10, Appendix B: blood products within 4 hours of hanging]])
  * documentation[+] insert Note([[The 4 hours count from the time at which the unit left controlled storage; the record tells only when the infusion began, so the time is over sooner than it is said here by as long as the unit was out before. Platelets and plasma are given faster (platelets over 30 to 60 minutes in the UK, within an hour of issue in New Zealand; seen): the 4 hours are the longest for any of them.]])
* action[+]
  * insert HangTimeOf(fat-emulsion)
  * title = "Take fat emulsion down: it has hung for 12 hours"
  * insert Every(12, h)
  * documentation[+] insert Seen(CDC 2002, [[CDC 2002, MMWR 51 RR-10, Appendix B: fat emulsion alone within 12 hours of hanging]])
  * documentation[+] insert Note([[A fat emulsion that is not known to be mixed with the rest in one bag is read as one alone.]])
* action[+]
  * insert HangTimeOf(nutrition-with-fat)
  * title = "Take parenteral nutrition with fat down: it has hung for 24 hours"
  * insert Every(24, h)
  * documentation[+] insert Seen(CDC 2002, [[CDC 2002, MMWR 51 RR-10, Appendix B: parenteral nutrition that holds fat within 24 hours of hanging]])
* action[+]
  * insert SetChangeOf(propofol, administration-set-change)
  * title = "Change a set used for propofol"
  * insert Every(12, h)
  * insert OnlyIfKnown
  * documentation[+] insert Cdc2011([[administration sets, (category IA): sets used for propofol every 6 or 12 hours, when the vial is changed, as its maker says; from memory, read only in a secondary text]])
  * documentation[+] insert Reason([[An infusion that is not known is not read as propofol: propofol is given under continuous observation and is charted by name, and reading every unknown infusion as propofol would ask for two changes a day of every set. The 24 hours of a set of which it is not known what runs through it stand for it.]])
  * documentation[+] insert Note([[Two clocks, not a range: 6 hours for filled syringes and opened vials, 12 hours for large volumes that are infused straight from the vial (AORN review, as reported). Where the drug’s own instructions say 6 hours or with each vial, they come first.]])
* action[+]
  * insert Ask(administration-set-change-intermittent, administration-set-change, administration-set-change)
  * title = "Change a set in intermittent use"
  * insert On(lumen)
  * insert While(%lumen.infusionPattern = 'intermittent')
  * insert Every(24, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[administration sets in intermittent use every 24 hours; from memory]])
  * documentation[+] insert Note([[Other values: unresolved in CDC 2011 (recommendation 2; from memory, secondary): the bundled choice choice-intermittent-set-cdc-unresolved leaves it out.]])
  * documentation[+] insert Reason([[A lumen is in intermittent use where the record shows that it was locked or disconnected between two infusions of the last 24 hours. Where it does not, the set is read as continuous: reading every set as intermittent would ask for a change a day of all of them.]])
* action[+]
  * insert SetChangeOf(parenteral-nutrition, administration-set-change)
  * title = "Change a set used for parenteral nutrition without fat"
  * insert Every(24, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins(2021 and 2024, [[sets used for parenteral nutrition, without fat or as a mixture with it, every 24 hours and with each new bag; from memory, read only in a secondary text]])
  * documentation[+] insert Note([[Other values: no rule in CDC 2011; 96 hours in an older chart of the same publisher (from memory, secondary). With fat the 24 hours of CDC 2011 apply.]])
  * documentation[+] insert Reason([[A set of which it is not known what runs through it has a rule of its own, with the same 24 hours.]])
* action[+]
  * insert SetChangeOf(pressure-monitoring, administration-set-change)
  * title = "Change the set of a pressure line"
  * insert Every(96, h)
  * insert OnlyIfKnown
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[transducer and set of a pressure line every 96 hours; from memory]])
  * documentation[+] insert Reason([[A set of which it is not known what runs through it has a rule of its own, with a shorter interval.]])

// --- Flush and lock of an idle lumen

* action[+]
  * id = "idle-picc-tunneled"
  * insert IdlePiccTunneled
  * documentation[+] insert G004([[peripherally inserted and tunneled catheters with clamps, not in use: weekly, 10 mL saline into each lumen, then 2 mL heparin 10 units/mL]])
  * documentation[+] insert Note([[Other values: idle peripherally inserted catheters at least weekly in a hospital table (from memory, secondary); tunneled catheters daily to weekly in common US use (from memory). ESPEN 2020/2023 prefers saline to heparin for long-term devices (from memory, secondary). Published guidelines give no interval for the idle lumen of these lines; this is a regional policy.]])
  * documentation[+] insert InfantsHaveTheirOwn
  * documentation[+] insert UnknownUseIsIdle
  * action[+]
    * insert Ask(flush-picc-tunneled, flush, flush)
    * title = "Flush an idle lumen of a PICC or tunneled catheter"
  * action[+]
    * insert LockPiccTunneled(lock)
* action[+]
  * id = "idle-midline"
  * insert IdleMidline
  * documentation[+] insert InsIdleEvery24Hours
  * documentation[+] insert Note([[Other values: every 8 to 12 hours in some policies (from memory).]])
  * documentation[+] insert InfantsHaveTheirOwn
  * documentation[+] insert UnknownUseIsIdle
  * action[+]
    * insert Ask(flush-midline, flush, flush)
    * title = "Flush an idle lumen of a midline catheter"
  * action[+]
    * insert LockMidline(lock)
* action[+]
  * id = "idle-nontunneled"
  * insert IdleNontunneled
  * documentation[+] insert InsIdleEvery24Hours
  * documentation[+] insert ShortestForIdle(a non-tunneled central venous catheter)
  * documentation[+] insert InfantsHaveTheirOwn
  * documentation[+] insert UnknownUseIsIdle
  * action[+]
    * insert Ask(flush-nontunneled, flush, flush)
    * title = "Flush an idle lumen of a non-tunneled catheter"
  * action[+]
    * insert LockNontunneled(lock)
* action[+]
  * id = "idle-port-accessed"
  * insert IdlePortAccessed
  * documentation[+] insert InsIdleEvery24Hours
  * documentation[+] insert ShortestForIdle(a port with a needle in)
  * documentation[+] insert InfantsHaveTheirOwn
  * documentation[+] insert UnknownUseIsIdle
  * action[+]
    * insert Ask(flush-port-accessed, flush, flush)
    * title = "Flush an idle port with a needle in"
  * action[+]
    * insert LockPortAccessed(lock)
* action[+]
  * insert PortAtRest
  * insert Every(4, wk)
  * documentation[+] insert PortLabelled4Weeks
  * documentation[=].url = "https://pubmed.ncbi.nlm.nih.gov/28084883/"
  * documentation[+] insert Note([[Other values: 8 weeks against 4, occlusion 4.1 % and 4.9 % (Wu 2020, meta-analysis, 862 cases); every 3 months (Diaz 2017, 87 patients); 2 to 3 months against 1, occlusion relative risk 1.50, 1.18 to 1.92 (2024, meta-analysis, 4,924 patients, pubmed 39601969); 12 weeks (cohort of 1,059 patients); up to 3 months in INS 2021 (from memory). Label before studies: 4 weeks is taken.]])
* action[+]
  * insert LockDialysis(lock-dialysis)
  * documentation[+] insert PreClot([[ with heparin 5000 units/mL, or with an enzyme once a week and heparin twice.]])
  * documentation[+] insert Note([[Three locks a week are at most 3 days apart, over the weekend: 3 days is that longest gap. No guideline that was seen states an interval.]])
  * documentation[+] insert Note([[Other values on what to lock with: heparin 1000 units/mL or citrate 4 % in KDOQI 2019 (from memory); the label of heparin lock solution gives an effect of up to 4 hours.]])
  * documentation[+] insert UnknownUseIsIdle

// --- Flush and lock after use

* action[+]
  * id = "after-infusion"
  * insert AfterInfusion
  * action[+]
    * insert Ask(flush-after-infusion, flush, flush-after-use)
    * title = "Flush a lumen after an infusion"
    * documentation[+] insert FlushAfterUse
    * documentation[+] insert EndedIsStopped
  * action[+]
    * insert LockAfterInfusion(lock)
    * documentation[+] insert LockAfterUse
    * documentation[+] insert EndedIsStopped
    * documentation[+] insert NoLockWhileInfusing
    * documentation[+] insert InfantsHaveTheirOwn
  * action[+]
    * insert LockDialysisAfterInfusion(lock-dialysis)
    * documentation[+] insert LockDialysisAfterUse
    * documentation[+] insert EndedIsStopped
    * documentation[+] insert NoLockWhileInfusing
* action[+]
  * id = "after-blood-sampling"
  * insert AfterBloodSampling
  * action[+]
    * insert Ask(flush-after-blood-sampling, flush, flush-after-use)
    * title = "Flush a lumen after a blood draw"
    * documentation[+] insert FlushAfterUse
    * documentation[+] insert Note([[Common practice, no source: 3 mL saline.]])
  * action[+]
    * insert LockAfterBloodSampling(lock)
    * documentation[+] insert LockAfterUse
    * documentation[+] insert NoLockWhileInfusing
    * documentation[+] insert InfantsHaveTheirOwn
  * action[+]
    * insert LockDialysisAfterBloodSampling(lock-dialysis)
    * documentation[+] insert LockDialysisAfterUse
    * documentation[+] insert NoLockWhileInfusing

// --- Looks, reviews and the port needle

* action[+]
  * insert Ask(site-assessment, site-assessment, site-assessment)
  * title = "Look at the exit site"
  * insert On(exit-site)
  * insert While(%hasExitSite)
  * insert Every(1, d)
  * documentation[+] insert Ins([[2016, 2021 and 2024]], [[central venous access devices at least daily; from memory]])
  * documentation[+] insert HomeCareSheet(look at the site every day.)
  * documentation[+] insert Note([[The same in every setting: inpatient at least daily (INS), at home daily (home care sheet), VIP score at least daily. INS asks for every 1 to 2 hours in critical illness and every hour in neonates, of peripheral catheters (from memory): the bundled layers intensive-care and infant ask for that.]])
  * documentation[+] insert Note([[Of an implanted port only while a needle is in: without one there is no exit site.]])
* action[+]
  * insert Ask(external-length-measurement, external-length-measurement, external-length-measurement)
  * title = "Measure the external length"
  * insert While(%isForInfusions)
  * insert Every(7, d)
  * documentation[+] insert Ins(2016 and 2021, [[measure at insertion, at each dressing change and when dislodgement is suspected; from memory]])
  * documentation[+] insert Note([[7 days is the longest interval between dressing changes. A limit in centimetres is not in any national text that was seen; local rules use 1 to 3 cm.]])
* action[+]
  * insert Ask(necessity-review, necessity-review, necessity-review)
  * title = "Ask whether the line is still needed"
  * insert While([[%patient.setting in ('inpatient' | 'intensive-care')]])
  * insert Every(1, d)
  * documentation[+] insert Cdc2011([[(category IA): remove promptly any catheter that is no longer essential; from memory]])
  * documentation[+] insert Seen(CDC checklist, [[CDC, checklist for the prevention of central line-associated bloodstream infections (based on the 2011 guideline): ask every day whether the line is still needed]])
  * documentation[=].url = "https://omb.report/icr/201501-0920-020/doc/53022101"
  * documentation[+] insert Shea2008([[: remove nonessential catheters]])
  * documentation[+] insert FromMemory(SHEA/IDSA/APIC 2022 and ASA 2020, [[SHEA/IDSA/APIC 2022 and ASA 2020 practice guidelines for central venous access: review the need daily; from memory]])
  * documentation[+] insert Note([[The sources are about acute care. Ambulatory patients and those at home are asked about by the layer home-care, and dialysis catheters quarterly below. Where the setting is not on record, daily.]])
* action[+]
  * insert Ask(access-review-dialysis, necessity-review, necessity-review)
  * title = "Review the access of a patient on dialysis"
  * insert While(%isForDialysis)
  * insert Every(3, mo)
  * documentation[+] insert Seen(KDOQI 2019, [[KDOQI 2019, clinical practice guideline for vascular access: review the plan of access at least quarterly]])
  * documentation[=].url = "https://www.guidelinecentral.com/guideline/22840"
* action[+]
  * insert Ask(access-needle-change, access-needle-change, access-needle-change)
  * title = "Change the port needle"
  * insert While([[%line.type.exists() or %last.accessNeedleChange.exists()]])
  * insert While(%line.type = 'implanted-port')
  * insert While(%line.accessed)
  * insert Every(7, d)
  * documentation[+] insert Ins(2016 and 2021, [[non-coring needle at least every 7 days in continuous use; from memory]])
  * documentation[+] insert Note([[Unresolved in CDC 2011 (from memory, secondary).]])
* action[+]
  * insert Ask(antiseptic-bath, bath, bath)
  * title = "Wash with chlorhexidine in intensive care"
  * insert While(%patient.setting = 'intensive-care')
  * insert While(%patient.ageDays > 62)
  * insert Every(1, d)
  * insert OnlyIfKnown
  * documentation[+] insert Shea2022Seen([[: bathe patients in intensive care above 2 months of age with chlorhexidine, daily]])
  * documentation[+] insert Note([[It does not settle newborn intensive care, where two sources have age limits of their own (CDC and SHEA on newborns, seen).]])
  * documentation[+] insert Note([[2 months are at most 62 days: from the 63rd day on a child is older in any case.]])
  * documentation[+] insert Reason([[Asked for only where setting and age are on record: an unneeded chlorhexidine wash is not the safer reading, and below 2 months it can harm the skin.]])

// --- After the insertion

* action[+]
  * id = "tip-not-confirmed"
  * insert WhenDone(insertion)
  * insert While(%line.type != 'midline')
  * insert While([[%last.tipConfirmation.empty()]])
  * insert While([[%line.dwellDays <= 1 or %line.used.not()]])
  * action[+]
    * insert Ask(tip-confirmation, tip-confirmation, tip-confirmation)
    * title = "Confirm where the tip lies"
    * insert ConfirmTheTip
    * documentation[+] insert Note([[Asked for where the insertion is on record and no confirmation is: on the day of the insertion and the next, and for as long as nothing has run through the line and no blood was drawn. A line that has been in use for longer was confirmed by whoever let it be used; its record is silent, and an item on every such line would hide those that matter. That bound is a reading of the record, not a published value.]])
    * documentation[+] insert Note([[Not of a midline: its tip lies below the axilla.]])
  * action[+]
    * insert Ban(infusion-start-before-tip-confirmation, infusion-start)
    * title = "No infusion until the tip is confirmed"
    * insert Until(%last.tipConfirmation >= %began)
    * insert ConfirmTheTip
    * documentation[+] insert Note([[It holds where, and for as long as, the confirmation is asked for (rule tip-confirmation).]])
* action[+]
  * insert ReplaceIfNotAseptic(removal-or-replacement)

// --- After the removal

* action[+]
  * insert Ban(dressing-stays-after-removal, dressing-change)
  * title = "The air-occlusive dressing stays on after a removal"
  * insert On(exit-site)
  * insert WhenDone(removal)
  * insert While(%isCentralCatheter)
  * insert While([[%line.removedDays.exists()]])
  * insert Until(%found.dressingCondition.damp >= %began or %found.dressingCondition.loosened >= %began or %found.dressingCondition.soiled >= %began)
  * insert For(24, h)
  * documentation[+] insert InsAirOcclusive
  * documentation[+] insert Note([[One that is damp, loosened or soiled is no longer air-tight, or may not be: it need not stay on. Common practice, no source.]])
* action[+]
  * insert Ask(site-assessment-after-removal, site-assessment, site-assessment-after-removal)
  * title = "Look at the site of a line that was removed"
  * insert On(exit-site)
  * insert WhenDone(removal)
  * insert After(24, h)
  * insert While(%isCentralCatheter)
  * insert While([[%line.removedDays.exists() and %line.removedDays <= 2]])
  * documentation[+] insert Ins(2021, [[air-occlusive dressing on the site for at least 24 hours after the removal of a central line, then the site is looked at; from memory]])
  * documentation[+] insert Note([[Asked for until two days after the day of the removal: a check that was not charted by then is no longer asked for. That bound is a reading, not a published value.]])
