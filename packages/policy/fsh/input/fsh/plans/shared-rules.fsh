// Rules, and parts of rules, that stand in more than one plan or group. What differs is said where they are inserted.

// --- Dressings

RuleSet: OfDressing(kind)
* insert On(exit-site)
* insert While(%line.dressing = '{kind}')
* insert While(%hasExitSite)

RuleSet: ChangeGauzeDressing
* insert Ask(dressing-change-gauze, dressing-change, dressing-change)
* title = "Change a gauze dressing"
* insert OfDressing(gauze-dressing)
* insert Every(2, d)
* documentation[+] insert Shea2022Seen([[, maintenance: gauze dressings of non-tunneled central venous catheters, adults and children, every 2 days or earlier]])
* documentation[+] insert Cdc2011([[dressing regimens, recommendation 6 (category II): gauze dressings of short-term central venous catheter sites every 2 days; from memory]])
* documentation[+] insert FromMemory(INS 2021/2024, [[INS 2021 (standard 42) and 2024, Infusion Therapy Standards of Practice: gauze at least every 2 days, central and midline; gauze under a transparent dressing counts as gauze; from memory]])
* documentation[+] insert Shea2008([[, (A-I): gauze every 2 days, sooner if soiled, loose or damp]])
* documentation[+] insert Note([[A dressing that is not on record is read as gauze, the shortest interval.]])
* documentation[+] insert Note([[Other values: epic3 2014 allows gauze only while there is sweating, bleeding or leakage (from memory); INS 2021 changes dressings of neonates as clinically needed (from memory); gauze that only supports a port needle and leaves the site visible counts as transparent in INS 2016/2021 (from memory).]])
* documentation[+] insert OfPortsWithNeedle

RuleSet: ChangeTransparentDressing
* insert Ask(dressing-change-transparent, dressing-change, dressing-change)
* title = "Change a transparent dressing"
* insert OfDressing(transparent-dressing)

RuleSet: TransparentEvery7Days
* insert Every(7, d)
* documentation[+] insert Shea2022Seen([[, maintenance: transparent dressings with site care at least every 7 days, at once if soiled, loose or damp, of non-tunneled central venous catheters in adults and children. That fewer are allowed in newborns whose catheter may come out is from memory.]])
* documentation[+] insert Cdc2011([[dressing regimens, recommendation 7 (category IB): transparent dressings of short-term central venous catheter sites at least every 7 days, except in children where the risk of dislodging the catheter outweighs the benefit; from memory]])
* documentation[+] insert FromMemory(INS 2021/2024, [[INS 2021 (standard 42) and 2024, Infusion Therapy Standards of Practice: transparent dressings at least every 7 days, central and midline; from memory]])
* documentation[+] insert French2020([[transparent dressings every 7 days unless detached, soiled or bleeding]])
* documentation[+] insert Note([[Other values: 5 to 7 days in SHEA/IDSA 2008 (A-I) and INS 2016 (from memory); as clinically needed in neonates in INS 2021 (from memory).]])
* documentation[+] insert Note([[CDC 2011 recommendation 8 (category II, from memory): dressings of tunneled or implanted catheters not more than once a week until the site has healed. That is a least spacing, not a maximum; a layer can state it with rule-minimum-spacing.]])
* documentation[+] insert OfPortsWithNeedle

RuleSet: ChangeChlorhexidineDressing(definition)
* insert Ask(dressing-change-chlorhexidine, dressing-change, {definition})
* title = "Change a chlorhexidine dressing"
* insert OfDressing(chlorhexidine-dressing)
* insert Every(7, d)

RuleSet: WhenDressingIsLoose
* insert WhenFound(dressing-condition)
* insert WithValue($dressing-condition#damp)
* insert WithValue($dressing-condition#loosened)
* insert WithValue($dressing-condition#soiled)

RuleSet: OfPortsWithNeedle
* insert Note([[Of an implanted port only while a needle is in: without one there is no exit site to cover and no connector to change.]])

// --- Connectors and administration sets

RuleSet: ConnectorChange
* insert Ask(needleless-connector-change, needleless-connector-change, needleless-connector-change)
* title = "Change the needleless connector"
* insert On(lumen)
* insert While(%hasExitSite)
* insert Every(7, d)

RuleSet: SetChange
* insert Ask(administration-set-change, administration-set-change, administration-set-change)
* title = "Change the administration set"
* insert On(lumen)
* insert While(%lumen.use = 'infusing')

RuleSet: SetChangeOf(infusate, definition)
* insert Ask(administration-set-change-{infusate}, administration-set-change, {definition})
* insert On(lumen)
* insert While(%lumen.use = 'infusing')
* insert While(%lumen.infusate = '{infusate}')

RuleSet: SetOfUnknown
* insert Reason([[An infusion that is not known is not read as this: a set of which it is not known what runs through it has a rule of its own, 24 hours.]])

// How long the bag hangs, apart from its set. It is never lengthened.
RuleSet: HangTimeOf(infusate)
* insert Ask(bag-change-{infusate}, bag-change, bag-change)
* insert On(lumen)
* priority = #urgent
* insert While(%lumen.use = 'infusing')
* insert While(%lumen.infusate = '{infusate}')
* insert Lead(1, h)
* insert OnlyIfKnown
* documentation[+] insert Reason([[Asked for only where the record says what runs: reading every infusion as blood or fat would ask for every bag to come down.]])

// --- Flush and lock of an idle lumen: when, and the lock that a choice may replace

RuleSet: Idle(number, unit)
* insert On(lumen)
* insert While(%isIdle)
* insert Every({number}, {unit})

// In the first year of life nothing is locked unless it is ordered, and no idle lumen waits a week.
RuleSet: NotOfInfants
* insert While(%isPastFirstYear)

RuleSet: InfantsHaveTheirOwn
* insert Note([[Not in the first year of life, for which no published guideline that was seen gives an interval or asks for a lock: the layer first-year flushes after use and daily, and leaves the lock to the order. An age that is not known counts as either, and the shorter interval wins.]])

RuleSet: IdlePiccTunneled
* insert While([[%line.type.exists() and %line.type in ('picc' | 'tunneled-cvc')]])
* insert NotOfInfants
* insert Idle(7, d)

RuleSet: IdleMidline
* insert While([[%line.type.exists() and %line.type = 'midline']])
* insert Idle(24, h)

RuleSet: IdleNontunneled
* insert While([[%line.type.exists() and %line.type = 'nontunneled-cvc']])
* insert Idle(24, h)

RuleSet: IdlePortAccessed
* insert While([[%line.type.exists() and %line.type = 'implanted-port']])
* insert While(%line.accessed)
* insert Idle(24, h)

RuleSet: IsPortAtRest
* insert On(lumen)
* insert While([[%line.type.exists() and %line.type = 'implanted-port']])
* insert While([[%line.accessed.not()]])

RuleSet: PortLabelled4Weeks
* insert Seen([[Port labels, 4 weeks]], [[Labels of implanted ports, as reported by Diaz 2017: flush and lock monthly (every 4 weeks) while not in use.]])

// A port at rest in an infant is flushed as the label says, and locked only as it is ordered.
RuleSet: PortAtRest
* id = "port-at-rest"
* insert IsPortAtRest
* documentation[+] insert Note([[In the first year of life the port is flushed as its label says and not locked: what it is locked with is left to the order.]])
* action[+]
  * insert Ask(flush-port-not-accessed, flush, flush)
  * title = "Flush a port that is not in use"
* action[+]
  * insert LockPortNotAccessed(lock)

RuleSet: LockPiccTunneled(definition)
* insert Ask(lock-picc-tunneled, lock, {definition})
* title = "Lock an idle lumen of a PICC or tunneled catheter"

RuleSet: LockMidline(definition)
* insert Ask(lock-midline, lock, {definition})
* title = "Lock an idle lumen of a midline catheter"
* insert NotOfInfants

RuleSet: LockNontunneled(definition)
* insert Ask(lock-nontunneled, lock, {definition})
* title = "Lock an idle lumen of a non-tunneled catheter"
* insert NotOfInfants

RuleSet: LockPortAccessed(definition)
* insert Ask(lock-port-accessed, lock, {definition})
* title = "Lock an idle port with a needle in"
* insert NotOfInfants

RuleSet: LockPortNotAccessed(definition)
* insert Ask(lock-port-not-accessed, lock, {definition})
* title = "Lock a port that is not in use"
* insert NotOfInfants

RuleSet: IdleAtDialysis
* insert On(lumen)
* insert While(%isForDialysis)
* insert While(%isIdle)

RuleSet: LockDialysis(definition)
* insert Ask(lock-dialysis, lock, {definition})
* title = "Lock an idle lumen of a dialysis catheter"
* insert IdleAtDialysis
* insert Every(3, d)

RuleSet: InsIdleEvery24Hours
* insert Ins([[2016, 2021 and 2024]], [[midline and peripheral catheters not in use: saline at least every 24 hours; from memory]])

RuleSet: ShortestForIdle(line)
* insert Note([[INS states this for midline and peripheral catheters. No source that was seen gives an interval for the idle lumen of {line}, so the shortest one stated is applied, the protective reading.]])

RuleSet: UnknownUseIsIdle
* insert Note([[A lumen whose use is not known is read as not in use.]])

// --- Flush and lock after use

RuleSet: AfterInfusion
* insert On(lumen)
* priority = #urgent
* insert WhenDone(infusion-stop)

RuleSet: AfterBloodSampling
* insert On(lumen)
* priority = #urgent
* insert WhenDone(blood-sampling)

RuleSet: LockAfterInfusion(definition)
* insert Ask(lock-after-infusion, lock, {definition})
* title = "Lock a lumen again after an infusion"
* insert NotOfInfants
* insert While([[%line.type.exists() and %isForDialysis.not()]])
* insert While(%isIdle)

RuleSet: LockAfterBloodSampling(definition)
* insert Ask(lock-after-blood-sampling, lock, {definition})
* title = "Lock a lumen again after a blood draw"
* insert NotOfInfants
* insert While([[%line.type.exists() and %isForDialysis.not()]])
* insert While(%isIdle)

RuleSet: LockDialysisAfterInfusion(definition)
* insert Ask(lock-dialysis-after-infusion, lock, {definition})
* title = "Lock a lumen of a dialysis catheter again after an infusion"
* insert While(%isForDialysis)
* insert While(%isIdle)

RuleSet: LockDialysisAfterBloodSampling(definition)
* insert Ask(lock-dialysis-after-blood-sampling, lock, {definition})
* title = "Lock a lumen of a dialysis catheter again after a blood draw"
* insert While(%isForDialysis)
* insert While(%isIdle)

RuleSet: FlushAfterUse
* insert FromMemory([[INS, MASCC]], [[INS, Infusion Therapy Standards of Practice, and MASCC: flush after each infusion and each blood draw, with 10 to 20 mL saline after blood or a viscous infusion; from memory]])

RuleSet: LockAfterUse
* insert Seen(US labels, [[US heparin lock flush labels: the lock is replaced after every use of the device; read in a secondary page]])

RuleSet: LockDialysisAfterUse
* insert Seen(US labels, [[US heparin lock flush labels: the lock is replaced after every use of the device; read in a secondary page. Their concentrations are not those of a dialysis catheter: what it is locked with is the prescription’s.]])

RuleSet: EndedIsStopped
* insert Note([[An infusion that ended on record counts as stopped, whether or not its stop was charted by itself; another one that runs on through the lumen, or a bag that follows within minutes, is no stop.]])

RuleSet: NoLockWhileInfusing
* insert Note([[Where the lumen is infusing again no lock is asked for; one whose use is not known is read as not in use.]])

// --- The first year of life

RuleSet: FlushOfInfants
* insert Ask(flush-first-year-idle, flush, flush-first-year)
* title = "Flush an idle lumen of an infant"
* insert While(%isInfant)
* insert While([[%line.type.exists() and %isForDialysis.not()]])
* insert While(%hasExitSite)
* insert Idle(24, h)
* insert NoIntervalOfInfants
* documentation[+] insert UnknownUseIsIdle

RuleSet: NoIntervalOfInfants
* documentation[+] insert CommonPractice([[in the first year of life a lumen is flushed with saline after use and at least every 24 hours while it is idle; it is locked only where that is ordered, with heparin of at most 10 units/mL.]])
* documentation[+] insert Note([[No guideline that was seen gives infants intervals of their own. In use: 1 to 3 mL of saline, heparin 10 units/mL once or twice a day, every 6 to 8 hours through small capped lines (nurses’ forum, drug reference; both from memory, secondary).]])
* documentation[+] insert Note([[The first year is over 366 days after the birth at the latest. An age that is not on record is read as that of an infant, which asks for the shorter interval.]])

// --- A blocked lumen

// Blood return or the flush is found to be poor, until the lumen is found open.
RuleSet: WhenLumenIsBlocked
* insert WhenFound(blood-return)
* insert WithValue($finding-value#sluggish)
* insert WithValue($finding-value#none)
* insert WhenFound(flush-resistance)
* insert WithValue($finding-value#some)
* insert WithValue($finding-value#blocked)
* insert Until(%isFoundOpen)

// --- After the insertion and the removal

RuleSet: ConfirmTheTip
* documentation[+] insert Seen(Dialysis catheter leaflet, [[A dialysis catheter instruction leaflet: verify the position of the tip by x-ray before use]])
* documentation[+] insert FromMemory(ASA 2020 and INS, [[ASA 2020, practice guidelines for central venous access, and INS, Infusion Therapy Standards of Practice: confirm the tip before use by x-ray or a real-time method; from memory]])

RuleSet: ReplaceIfNotAseptic(definition)
* insert Ask(removal-after-insertion-without-asepsis, removal, {definition})
* title = "Replace a line that was put in without full asepsis"
* priority = #asap
* insert WhenDone(insertion)
* insert Within(48, h)
* insert While([[%latest.asepticInsertion.not()]])
* insert OnlyIfKnown
* documentation[+] insert Cdc2011([[(category IB): where asepsis could not be assured, as at an emergency insertion, replace the catheter as soon as possible, within 48 hours; from memory]])
* documentation[+] insert Reason([[Asked for only where the record says that full asepsis was not kept (finding aseptic-insertion): reading every insertion that says nothing of it as septic would ask for the removal of every line.]])

RuleSet: InsAirOcclusive
* insert Ins(2021, [[air-occlusive dressing on the site for at least 24 hours after the removal of a central line; from memory]])

// A new site drains much or swells.
RuleSet: NewSite
* id = "new-site-response"
* priority = #urgent
* insert WhenFound(exit-site)
* insert WithValue($finding#drainage)
* insert WithValue($finding#swelling)
* insert Start(%line.dwellDays <= 3)
* insert OnlyIfKnown
* documentation[+] insert CommonPractice([[in the first days after an insertion pressure on a site that drains much, cold on a swelling.]])
* documentation[+] insert Note([[The first days are read as those up to the third after the day of the insertion, by the day on which it was seen: a reading, not a published value. Later drainage and swelling are signs of infection; redness, tenderness and pus are at once.]])
* documentation[+] insert NewLineIfKnown
* action[+]
  * insert Ask(new-site-response-exit-site, new-site-response, new-site-response)
  * title = "A new exit site drains much or swells: first steps"
  * insert On(exit-site)
* action[+]
  * insert Ask(new-site-response-incision, new-site-response, new-site-response)
  * title = "A new incision drains much or swells: first steps"
  * insert On(incision)
  * insert While(%hasIncision)

RuleSet: NewLineIfKnown
* insert Reason([[A line whose insertion is not on record is not read as a new one.]])

// --- What keeps a line from use

RuleSet: UntilCleared
* insert Note([[It ends when the record says that the line is cleared for use (finding cleared-for-use), charted by or for the responsible clinician after everything that kept it from use was looked at; the removal of the line ends it too.]])

// --- A line of unknown type

RuleSet: LockOutBeforeUse
* insert Seen(Dialysis catheter leaflet and a hospital page, [[A dialysis catheter leaflet: the lock is taken out of each lumen before use, else the patient is heparinised. A hospital page on anaesthesia: the lock comes off before any other use, and a competency is required.]])

RuleSet: LockAgainOfUnknownType
* title = "Lock a lumen of a line of unknown type again after it was used"
* insert While([[%line.type.empty()]])
* insert While(%isIdle)

// --- A site without a dressing

RuleSet: SiteWithoutDressing
* insert On(exit-site)
* insert While(%line.dressing = 'no-dressing')
* insert While(%hasExitSite)
* insert Every(1, h)
* insert Lead(59, min)
* insert OnlyIfKnown
* documentation[+] insert Cdc2011([[dressing regimens, recommendation 1 (category IA): sterile gauze or a sterile transparent dressing covers the site; from memory]])
* documentation[+] insert Reason([[Asked for only where the record says that there is no dressing: one that is not on record is read as gauze. An hour is common practice, no source.]])
