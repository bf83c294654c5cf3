Instance: Trouble
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(trouble, Trouble, First steps in trouble)
* description = "A layer over the base: from a finding to the first steps, short and in order, to be printed. Air, breakage, bleeding, extravasation and fever with few neutrophils are emergencies: nothing holds them. First steps only: the responsible clinician decides what follows."
* insert HasExitSite
* insert HasIncision
* insert IsIdle
* insert IsCleared
* insert IsFever
* insert IsNewFever
* insert IsFoundOpen

// --- Emergencies

* action[+]
  * insert Ask(air-entry-response, air-entry-response, air-entry-response)
  * title = "Air has entered the line: first steps"
  * priority = #stat
  * insert WhenFound(air-entry)
  * insert Until(%isCleared)
  * documentation[+] insert Seen(Published, [[emedicine 761367, venous air embolism; an air embolism module of a university: clamp, left side with the head down, 100 % oxygen; aspiration only through a catheter that is in the right atrium (seen).]])
  * documentation[+] insert Seen(Resuscitation, [[PMC7785711, citing AHA 2010: cardiac arrest, flat on the back; no resuscitation guideline has the head down (seen).]])
  * documentation[=].url = "https://www.ncbi.nlm.nih.gov/pmc/articles/PMC7785711/"
  * documentation[+] insert Note([[Left side: the evidence is mostly from animals. Head down is no longer advised for air in an artery, where flat on the back is (case report swjpcc.com 2019, a text of diving medicine; both reported). Only the positions that no source contradicts are steps.]])
* action[+]
  * id = "after-air-entry"
  * title = "Air has entered the line: nothing in or out until a clinician clears it"
  * insert WhenFound(air-entry)
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[the line stays clamped: what goes in would push the air on, and what is drawn lets more in. Air is drawn back by a clinician only (emedicine 761367, seen).]])
  * documentation[+] insert UntilCleared
  * insert NothingThroughLine(after-air-entry)
* action[+]
  * insert Ban(getting-up-after-air-entry, getting-up)
  * title = "Nobody gets up with air in the vein until a clinician says so"
  * insert WhenFound(air-entry)
  * insert GettingUpIsAsked
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[the patient stays lying until a clinician has judged that the air is gone.]])
  * documentation[+] insert UntilCleared
* action[+]
  * insert Ask(breakage-response, breakage-response, breakage-response)
  * title = "The line leaks or is broken: first steps"
  * priority = #stat
  * insert WhenFound(damage)
  * insert While([[%line.removedDays.exists().not()]])
  * insert Until([[%answered.exists()]])
  * documentation[+] insert Seen(Published, [[Home sheet of a US hospital: clamp between the break and the body, cover with sterile gauze, call at once (seen).]])
  * documentation[+] insert Note([[Common practice, no source, says the same: a damaged line is clamped between the damage and the chest wall at once. No scissors near the line, and urgent help for a torn-off catheter (seen, hospital teaching pages).]])
  * documentation[+] insert Note([[Of a line that is out there is nothing to clamp: what is missing of it is the finding removed-catheter.]])
* action[+]
  * insert Ask(bleeding-response, bleeding-response, bleeding-response)
  * title = "The site bleeds: first steps"
  * priority = #stat
  * insert WhenFound(bleeding)
  * documentation[+] insert CommonPractice([[pressure on a site that bleeds or drains much, cold on a swelling, call when it does not stop.]])
  * documentation[+] insert Note([[Gauze until it is resolved: CDC-HICPAC 2011, dressing regimens 2 (category II; from memory). A line that falls out: press (home sheet of a US hospital, seen).]])
  * documentation[+] insert Note([[15 minutes: of 179 removals of tunneled cuffed catheters 165 were dry within 5 minutes, and the rest rarely bled longer than 15 (JVIR 2007, seen).]])
* action[+]
  * insert Ban(getting-up-while-bleeding, getting-up)
  * title = "Nobody gets up while the site bleeds"
  * insert WhenFound(bleeding)
  * insert GettingUpIsAsked
  * insert Until(%found.bleeding.absent > %began or %last.gettingUp > %began)
  * documentation[+] insert CommonPractice([[the patient stays lying until the bleeding has stopped, and the record says so (finding bleeding, absent).]])
* action[+]
  * insert Ask(extravasation-response, extravasation-response, extravasation-response)
  * title = "Fluid has left the vein: first steps"
  * priority = #stat
  * insert WhenFound(extravasation)
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[stop, draw back, call, and keep to the drug’s own instructions.]])
  * documentation[+] insert Note([[INS infiltration scale: any amount of blood, an irritant or a vesicant counts as the highest grade (from memory).]])
* action[+]
  * id = "after-extravasation"
  * title = "Fluid has left the vein: nothing in until a clinician clears the line"
  * insert WhenFound(extravasation)
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[the line is not used until a clinician has judged it. The whole line, whichever lumen it was seen on: every lumen of a catheter ends in or beside the same vein, and where the fluid came out is not known before it is judged.]])
  * documentation[+] insert UntilCleared
  * insert NothingThroughLine(after-extravasation)

// --- A piece of the line in the body

* action[+]
  * insert Ask(retained-catheter-response, retained-catheter-response, retained-catheter-response)
  * title = "A piece of the line has stayed in the body: first steps"
  * priority = #stat
  * insert WhenFound(removed-catheter)
  * insert WithValue($finding-value#incomplete)
  * insert Until(%isCleared)
  * documentation[+] insert Seen(NCHD survival guide, [[NCHD survival guide: a severed catheter that is wholly retained: keep the limb still, dress the site, urgent help (seen).]])
  * documentation[+] insert Note([[That nothing is pulled or cut and what came out is kept is common practice, no source. No position: the left side is for air, never advised for a piece of catheter (an expert in a forum, reported). Fragments migrate, perforate, cause arrhythmia (MedSun newsletter of February 2006, seen).]])
* action[+]
  * id = "after-retained-catheter"
  * title = "A piece of the line has stayed in the body: nothing in or out until a clinician clears it"
  * insert WhenFound(removed-catheter)
  * insert WithValue($finding-value#incomplete)
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[what is pushed in can carry the piece on.]])
  * documentation[+] insert UntilCleared
  * insert NothingThroughLine(after-retained-catheter)
* action[+]
  * insert Ban(getting-up-after-retained-catheter, getting-up)
  * title = "Nobody gets up with a piece of the line in the body until a clinician says so"
  * insert WhenFound(removed-catheter)
  * insert WithValue($finding-value#incomplete)
  * insert GettingUpIsAsked
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[the patient and the limb keep still.]])
  * documentation[+] insert UntilCleared

// --- Chest pain, sepsis

* action[+]
  * insert Ask(chest-symptom-response, chest-symptom-response, chest-symptom-response)
  * title = "Chest pain, shortness of breath or an irregular heart beat: first steps"
  * priority = #stat
  * insert WhenFound(chest-symptoms)
  * documentation[+] insert Seen(ASCO 2013 and home sheets, [[ASCO 2013: early complications are bleeding, arrhythmia, malposition, air embolism and pneumothorax (seen). Home sheets of two US hospitals: chest pain or shortness of breath is an emergency (seen).]])
  * documentation[+] insert Note([[The steps are common practice, no source. No position: the one in which breathing is easiest, unless it is air.]])
* action[+]
  * insert Ban(infusion-start-after-chest-symptoms, infusion-start)
  * title = "Chest symptoms with a new line: no infusion until a clinician clears it or its tip is confirmed"
  * insert WhenFound(chest-symptoms)
  * insert Start(%line.dwellDays <= 1)
  * insert Until(%isCleared or %last.tipConfirmation > %began)
  * insert OnlyIfKnown
  * documentation[+] insert CommonPractice([[of a line put in on that day or the day before the tip may lie outside the vein.]])
  * documentation[+] insert NewLineIfKnown
* action[+]
  * insert Ask(sepsis-response, sepsis-response, sepsis-response)
  * title = "Signs of sepsis with a line: first steps"
  * priority = #stat
  * insert WhenFound(sepsis-signs)
  * documentation[+] insert FromMemory(IDSA/ASCO 2018 and NICE, [[Rules for fever in neutropenia, IDSA/ASCO 2018 and NICE NG151: signs of sepsis are an emergency at any temperature; the first dose of the antibiotic within 60 minutes, or at once; from memory]])
  * documentation[+] insert Note([[Cultures: INS, IDSA (from memory). Not removed for fever alone: CDC-HICPAC 2011 (category II; from memory).]])

// --- Fever

// A unit with another limit lays a group of this id over it.
* action[+]
  * id = "fever"
  * insert WhenFound(fever)
  * insert WhenFound(body-temperature)
  * insert Start(%isFever)
  * insert Start(%isNewFever)
  * documentation[+] insert CommonPractice([[a temperature within 24 hours of the last work-up belongs to the same episode of fever and asks for no new one, on none of the patient’s lines. Shivers, or fever that is charted as a finding of its own, begin anew at any time; so does whoever knows of a count that has fallen since.]])
  * action[+]
    * insert Ask(fever-response, fever-response, fever-response)
    * title = "Fever with a line: first steps"
    * priority = #asap
    * documentation[+] insert Seen(Published, [[Home sheets of two US hospitals: call at 38.0 °C (100.4 to 100.5 °F) or more, or at chills after a flush (seen).]])
    * documentation[+] insert Note([[Not removed for fever alone: CDC-HICPAC 2011 (category II; from memory). Cultures: INS, IDSA (from memory); a difference of 120 minutes or more in the time to positivity supports an infection of the line (IDSA 2009, reported). What counts as fever is local policy: 38.0 and 38.3 °C are both in use.]])
  * action[+]
    * insert Ask(fever-response-low-count, fever-response, fever-response)
    * title = "Fever with a line, neutrophils low or not known: an emergency, first steps"
    * priority = #stat
    * insert While(%labs.anc < 0.5 '10*9/L')
    * documentation[+] insert FromMemory(From memory, [[Rules for fever in neutropenia, from memory: below 0.5 10^9/L, once 38.3 °C or 38.0 °C for an hour; to be checked against local policy.]])
    * documentation[+] insert Note([[A count that is not on record, or is too old to tell, is read as a low one: the protective reading, not a published rule. A count at or above the limit leaves the rule for every fever, as soon as possible.]])

// --- Signs of infection

* action[+]
  * insert Ask(infection-sign-response, infection-sign-response, infection-sign-response)
  * title = "Signs of infection at the exit site or the incision: first steps"
  * insert On(exit-site)
  * insert On(incision)
  * priority = #urgent
  * insert WhenFound(exit-site)
  * insert WithValue($finding#redness)
  * insert WithValue($finding#tenderness)
  * insert WithValue($finding#pus)
  * insert InfectionSigns
  * documentation[+] insert IncisionLikewise
* action[+]
  * insert Ask(infection-sign-response-later, infection-sign-response, infection-sign-response)
  * title = "A site that is no longer new drains or swells: first steps"
  * insert On(exit-site)
  * insert On(incision)
  * priority = #urgent
  * insert WhenFound(exit-site)
  * insert WithValue($finding#drainage)
  * insert WithValue($finding#swelling)
  * insert Start(%line.dwellDays > 3)
  * insert InfectionSigns
  * documentation[+] insert IncisionLikewise
  * documentation[+] insert Note([[Not in the first days, up to the third after the day of the insertion, where a new site has first steps of its own: a reading, not a published value. Of a line whose insertion is not on record it is asked for.]])
* action[+]
  * insert Ask(infection-sign-response-tunnel, infection-sign-response, infection-sign-response)
  * title = "Signs of infection along the tunnel: first steps"
  * insert On(exit-site)
  * priority = #asap
  * insert WhenFound(tunnel-signs)
  * insert InfectionSigns
* action[+]
  * insert NewSite

// --- A blocked lumen

* action[+]
  * insert Ask(blockage-response, blockage-response, blockage-response)
  * title = "No or little blood return, or a lumen that resists the flush: first steps"
  * insert On(lumen)
  * priority = #urgent
  * insert WhenLumenIsBlocked
  * insert While(%lumen.dosesGiven < 1)
  * documentation[+] insert Seen(Published, [[Goossens 2015, Nurs Res Pract 985686: mechanical, thrombotic and precipitate causes (seen); US label of alteplase for catheter occlusion: look for other causes before it (reported).]])
  * documentation[+] insert Note([[Sluggish, no blood return, neither: INS, CVAA 2013 (from memory). A syringe of at least 10 mL: a dialysis catheter’s leaflet (seen). Which manoeuvres to try is common practice, no source.]])
  * documentation[+] insert Note([[Not asked for anew after a dose for this blockage: what comes next is the second dose or the question to the clinician (layer occlusion).]])
* action[+]
  * id = "while-blocked"
  * title = "A lumen that could not be flushed: nothing in or out until it is found open"
  * insert On(lumen)
  * insert WhenFound(flush-resistance)
  * insert WithValue($finding-value#blocked)
  * insert Until(%found.bloodReturn.brisk > %began or %found.flushResistance.none > %began)
  * documentation[+] insert NothingInOrOut
  * documentation[+] insert Note([[Brisk blood return, or a flush that meets no resistance, ends it. To look whether it is open, the first steps and the treatment stay possible.]])
  * action[+] insert Ban(flush-while-blocked, flush)
  * action[+] insert Ban(lock-while-blocked, lock)
  * action[+] insert Ban(infusion-start-while-blocked, infusion-start)
  * action[+] insert Ban(blood-sampling-while-blocked, blood-sampling)
* action[+]
  * id = "without-blood-return"
  * title = "A lumen without blood return: nothing in or out until blood returns briskly"
  * insert On(lumen)
  * insert WhenFound(blood-return)
  * insert WithValue($finding-value#none)
  * insert Until(%found.bloodReturn.brisk > %began)
  * documentation[+] insert NothingInOrOut
  * documentation[+] insert Note([[Only brisk blood return ends it: where a clot lets fluid in, a flush that goes in is no sign that the tip lies free. To look whether it is open, the first steps and the treatment stay possible.]])
  * action[+] insert Ban(flush-without-blood-return, flush)
  * action[+] insert Ban(lock-without-blood-return, lock)
  * action[+] insert Ban(infusion-start-without-blood-return, infusion-start)
  * action[+] insert Ban(blood-sampling-without-blood-return, blood-sampling)

// --- A line that has moved

* action[+]
  * id = "after-migration"
  * insert WhenFound(migration)
  * documentation[+] insert NeverPushBack
  * documentation[+] insert Note([[To be reported by the patient: tubing longer or shorter, cuff to be seen (home sheets, seen). No national text gives a limit in cm.]])
  * action[+]
    * insert Ask(migration-response, migration-response, migration-response)
    * title = "The line has moved: first steps"
    * priority = #asap
    * insert Until(%last.tipConfirmation >= %began)
    * documentation[+] insert CommonPractice([[once the tip is confirmed again the line may be used, and steps that forbid it are over. The length that it has now is still to be measured.]])
  * action[+]
    * insert Ask(external-length-measurement-after-migration, external-length-measurement, external-length-measurement-after-migration)
    * title = "Measure a line that has moved"
    * priority = #asap
  * action[+]
    * insert Ask(tip-confirmation-after-migration, tip-confirmation, tip-confirmation-after-migration)
    * title = "Confirm the tip of a line that has moved"
    * priority = #urgent
* action[+]
  * id = "while-moved"
  * title = "A line that has moved: nothing in or out until its tip is confirmed"
  * insert WhenFound(migration)
  * insert Until(%last.tipConfirmation >= %began)
  * documentation[+] insert NeverPushBack
  * documentation[+] insert MovedIsNotUsed
  * insert NothingThroughLine(after-migration)
* action[+]
  * id = "after-length-change"
  * insert LengthChanged
  * action[+]
    * insert Ask(migration-response-after-length-change, migration-response, migration-response)
    * title = "The line is longer or shorter outside than it was: first steps"
    * priority = #asap
  * action[+]
    * insert Ask(tip-confirmation-after-length-change, tip-confirmation, tip-confirmation-after-migration)
    * title = "Confirm the tip of a line whose external length has changed"
    * priority = #urgent
* action[+]
  * id = "while-length-changed"
  * title = "A line that is longer or shorter outside: nothing in or out until its tip is confirmed"
  * insert LengthChanged
  * documentation[+] insert MovedIsNotUsed
  * insert NothingThroughLine(after-length-change)

// --- A line of which it is not known what it is

* action[+]
  * insert Ask(line-identification, line-identification, line-identification)
  * title = "Find out which line it is, before anything goes in"
  * priority = #urgent
  * insert While([[%line.type.empty()]])
  * insert Every(1, d)
  * insert Lead(23, h)
  * documentation[+] insert LockOutBeforeUse
  * documentation[+] insert Note([[A line of no type, or charted as a central venous catheter and no more, may be one for dialysis. Asked for every day until its type is on record: a reading, not a published value.]])
* action[+]
  * id = "idle-type-unknown"
  * insert While([[%line.type.empty()]])
  * insert Idle(24, h)
  * documentation[+] insert LockOutBeforeUse
  * documentation[+] insert InsIdleEvery24Hours
  * documentation[+] insert Note([[The shortest interval that is stated for an idle lumen, and the rules of the types, which contradict each other, do not count: what is in the lumen is drawn back and discarded before anything goes in.]])
  * documentation[+] insert UnknownUseIsIdle
  * action[+]
    * insert Ask(flush-type-unknown, flush, flush-type-unknown)
    * title = "Flush a lumen of a line of unknown type: draw back and discard first"
  * action[+]
    * insert Ask(lock-type-unknown, lock, lock-type-unknown)
    * title = "Lock a lumen of a line of unknown type: draw back and discard first"
* action[+]
  * insert Ask(lock-type-unknown-after-infusion, lock, lock-type-unknown)
  * insert AfterInfusion
  * insert LockAgainOfUnknownType
  * documentation[+] insert LockAfterUse
  * documentation[+] insert EndedIsStopped
  * documentation[+] insert NoLockWhileInfusing
* action[+]
  * insert Ask(lock-type-unknown-after-blood-sampling, lock, lock-type-unknown)
  * insert AfterBloodSampling
  * insert LockAgainOfUnknownType
  * documentation[+] insert LockAfterUse
  * documentation[+] insert NoLockWhileInfusing

// --- What is missing

* action[+]
  * insert Ask(dressing-missing, dressing-change, dressing-change)
  * title = "Dress a site that has not healed and has no dressing"
  * insert SiteWithoutDressing
  * insert While([[%line.type in ('nontunneled-cvc' | 'nontunneled-dialysis-catheter' | 'picc' | 'midline' | 'implanted-port') or %line.dwellDays < 21]])
  * documentation[+] insert Cdc2011([[dressing regimens, recommendation 9 (unresolved): whether a well-healed exit site of a long-term cuffed, tunneled catheter needs a dressing at all; from memory]])
  * documentation[+] insert Note([[A tunneled site is read as healed 3 weeks after the insertion, about the time that it takes (from memory); that of every other line as not healed.]])
* action[+]
  * insert Ask(dressing-missing-low-count, dressing-change, dressing-change)
  * title = "Dress a site that has no dressing while neutrophils are low"
  * priority = #urgent
  * insert SiteWithoutDressing
  * insert While(%labs.anc < 0.5 '10*9/L')
  * documentation[+] insert FromMemory(Oncology nursing, [[Oncology nursing texts: a healed tunneled site is left undressed only in patients who are not immunocompromised; from memory, read only in a secondary text]])
  * documentation[+] insert Note([[Below 0.5 10*9/L: the grade at which neutropenia is severe (CTCAE grade 4, from memory); a local value.]])
* action[+]
  * insert Ask(tip-never-confirmed, tip-confirmation, tip-confirmation)
  * title = "Something runs, and no confirmation of the tip is on record: ask where the tip lies"
  * priority = #urgent
  * insert While(%line.type != 'midline')
  * insert While([[%last.tipConfirmation.empty()]])
  * insert While([[%line.dwellDays >= 2 and %line.dwellDays <= 30]])
  * insert While(%line.infusing)
  * insert OnlyIfKnown
  * insert ConfirmTheTip
  * documentation[+] insert Note([[A question, from the third day on: whoever let the line be used may have confirmed it without a record. A confirmation that is charted, whenever it was done, ends it. Up to 30 days after the insertion: an item on every line of years would hide those that matter; that bound is a reading, not a published value.]])
  * documentation[+] insert Reason([[Asked for only where the record says that something runs through the line: before that the hold until the confirmation stands.]])

// --- Swelling

* action[+]
  * insert Ask(swelling-response, swelling-response, swelling-response)
  * title = "Arm, neck or face is swollen: first steps"
  * priority = #asap
  * insert WhenFound(arm-neck-swelling)
  * insert Until(%isCleared)
  * documentation[+] insert FromMemory(INS, [[INS Standards of Practice: around the arm 10 cm above the elbow fold; 3 cm more, with swelling, suggests a clot (from memory).]])
  * documentation[+] insert Note([[Swelling of arm or neck is a reason to call: home sheets of two US hospitals (seen). That nothing runs until it is judged is common practice, no source.]])
* action[+]
  * id = "after-swelling"
  * title = "Arm, neck or face is swollen: nothing in or out until a clinician clears the line"
  * insert WhenFound(arm-neck-swelling)
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[nothing runs through the line until a clinician has judged whether there is a clot in the vein: a flush or a drug into a blocked vein goes into the tissue, and what is drawn may loosen the clot.]])
  * documentation[+] insert UntilCleared
  * insert NothingThroughLine(after-swelling)

// Getting up is asked for after a removal, up to the day after it.
RuleSet: GettingUpIsAsked
* insert While([[%line.removedDays.exists() and %line.removedDays <= 1]])

// What goes through a lumen or tries to, and a repair, which ends with a flush.
RuleSet: NothingThroughLine(why)
* action[+] insert Ban(infusion-start-{why}, infusion-start)
* action[+] insert Ban(flush-{why}, flush)
* action[+] insert Ban(lock-{why}, lock)
* action[+] insert Ban(blood-sampling-{why}, blood-sampling)
* action[+] insert Ban(patency-assessment-{why}, patency-assessment)
* action[+] insert Ban(blockage-response-{why}, blockage-response)
* action[+] insert Ban(occlusion-treatment-{why}, occlusion-treatment)
* action[+] insert Ban(repair-{why}, repair)

RuleSet: InfectionSigns
* documentation[+] insert Seen(IDSA 2009, [[IDSA 2009, table 4: exit site, redness, hardness or tenderness within 2 cm; tunnel, more than 2 cm along the tract; pocket, infected fluid in the pocket (seen).]])
* documentation[=].url = "https://pmc.ncbi.nlm.nih.gov/articles/PMC4039170/table/T4"
* documentation[+] insert Note([[Culture of the drainage first: KDOQI 2019 (reported). The rest is common practice, no source.]])

RuleSet: IncisionLikewise
* insert Note([[That the incision over the vein or the port pocket is read in the same way is common practice, no source.]])

RuleSet: NothingInOrOut
* insert WithoutSource(US label of alteplase for catheter occlusion, [[US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.]])

RuleSet: NeverPushBack
* insert FromMemory(INS, [[INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).]])

RuleSet: LengthChanged
* insert WhenFound(external-length)
* insert Start(%line.externalLengthChange >= 1 'cm')
* insert Until(%last.tipConfirmation >= %began)
* insert OnlyIfKnown
* documentation[+] insert NeverPushBack
* documentation[+] insert CommonPractice([[a change of 1 cm or more. Local rules use 1 to 3 cm; no national text seen gives a limit. It is a local value: whoever keeps another lays a rule of this id over it.]])
* documentation[+] insert Reason([[Where no length at the insertion or the tip confirmation is on record nothing can be compared: reading every measurement as a change would hold every line whose baseline was not charted. The finding migration stands for what is seen.]])

RuleSet: MovedIsNotUsed
* insert Note([[Not used before the imaging (INS): nothing goes through it, a flush no more than an infusion, for the tip may lie outside the vein. To look whether it is open waits as well.]])
