Instance: RepairCare
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(repair-care, RepairCare, [[Damage to a line, its repair, and care after it]])
* description = "A layer over the base for lines that are damaged or were repaired: what is damaged, a lumen or the whole line, is not used until it is repaired, the repair is asked for at once with its steps, nothing is infused after it until the waiting time of the kit is over and the record says so, the line is tested within the day, and the splint comes off after 48 hours. Common practice, no source: the instructions of the device and of its repair kit come first."
* insert IsCleared
* action[+]
  * insert Ask(repair, repair, repair)
  * title = "Repair of the line"
  * insert WhenOrdered(repair)
  * documentation[+] insert CommonPractice([[4 cm intact outside the skin, 2 minutes of cleansing, 1 mL of adhesive; air drawn back until blood fills the new segment, then flush and lock. The repair is the event that the rules below count from.]])
  * documentation[+] insert Note([[A kit made for the device and of the right size, enough catheter outside the skin, a waiting time from minutes to a day: instructions of makers (from memory, to be checked). No clot in the lumen before a permanent repair: JAVA 25(2):40 (seen).]])
* action[+]
  * insert Ask(repair-after-damage, repair, repair)
  * title = "Repair a damaged line or lumen, or have the line replaced"
  * insert WhileDamaged
  * priority = #urgent
  * documentation[+] insert CommonPractice([[a damaged line is repaired as soon as it can be; whether it can be is judged first, else the responsible clinician decides on a replacement.]])
  * documentation[+] insert Note([[Done by a repair on record, of a damaged lumen by one that names this lumen; a removal closes it.]])
* action[+]
  * id = "while-damaged"
  * insert WhileDamaged
  * documentation[+] insert CommonPractice([[what is damaged is clamped and not used until it is repaired or replaced. Home sheet of a US hospital: the clamp is between the damage and the body (seen).]])
  * documentation[+] insert Note([[Of the damaged lumen where the finding names one: the others stay in use. Of the whole line where it names none; chart damage before the lumens part on the line. It ends with a repair of the same: of a lumen with one that names it, of the line with one of the line or of each of its lumens.]])
  * action[+]
    * insert Ban(infusion-start-while-damaged, infusion-start)
    * title = "No infusion until the damage is repaired"
  * action[+]
    * insert Ban(flush-while-damaged, flush)
    * title = "No flush until the damage is repaired"
  * action[+]
    * insert Ban(lock-while-damaged, lock)
    * title = "No lock until the damage is repaired"
  * action[+]
    * insert Ban(blood-sampling-while-damaged, blood-sampling)
    * title = "No blood drawn until the damage is repaired"
  * action[+]
    * insert Ban(patency-assessment-while-damaged, patency-assessment)
    * title = "No test until the damage is repaired"
  * action[+]
    * insert Ban(occlusion-treatment-while-damaged, occlusion-treatment)
    * title = "No drug for a blockage until the damage is repaired"
  * action[+]
    * insert Ban(blockage-response-while-damaged, blockage-response)
    * title = "No attempt to open a lumen until the damage is repaired"

* action[+]
  * id = "while-damaged-at-the-skin"
  * title = "Damage at the skin, or at a place that is not said: no lumen of the line is used until it is repaired or a clinician clears it"
  * insert WhenFound(damage)
  * insert Start(%latest.damage <= 1 'cm')
  * insert Until([[%answered.exists() or %isCleared]])
  * documentation[+] insert CommonPractice([[at or within 1 cm of the skin every lumen runs through the damaged part, and there is no room for a clamp: the whole line is not used, whichever lumen the finding names.]])
  * documentation[+] insert Note([[Where the finding does not say how far from the skin it is, it is read as at the skin, the protective reading: chart the distance, and the other lumens are free. 1 cm is a local value.]])
  * documentation[+] insert UntilCleared
  * action[+] insert Ban(infusion-start-while-damaged-at-the-skin, infusion-start)
  * action[+] insert Ban(flush-while-damaged-at-the-skin, flush)
  * action[+] insert Ban(lock-while-damaged-at-the-skin, lock)
  * action[+] insert Ban(blood-sampling-while-damaged-at-the-skin, blood-sampling)
  * action[+] insert Ban(patency-assessment-while-damaged-at-the-skin, patency-assessment)
  * action[+] insert Ban(occlusion-treatment-while-damaged-at-the-skin, occlusion-treatment)
  * action[+] insert Ban(blockage-response-while-damaged-at-the-skin, blockage-response)

// --- After the repair

* action[+]
  * insert Ban(infusion-start-after-repair, infusion-start)
  * title = "No infusion after a repair until the waiting time of the kit is over"
  * insert On(line)
  * insert On(lumen)
  * insert WhenDone(repair)
  * insert Until(%isCleared)
  * documentation[+] insert CommonPractice([[no infusion after a repair until the joint has set. Instructions of repair kits differ, from minutes to a day (from memory), and none of them is on record here: it is held until the record says that the time is over.]])
  * documentation[+] insert Note([[Chart cleared-for-use when the time of the kit’s instructions is over. Kits without adhesive need none: chart it at once.]])
* action[+]
  * insert Ask(patency-assessment-after-repair, patency-assessment, patency-assessment-after-repair)
  * title = "Test the line after a repair, when the waiting time of the kit is over"
  * insert WhenDone(repair)
  * insert After(24, h)
  * insert Lead(24, h)
  * documentation[+] insert CommonPractice([[test flow and blood return when the waiting time after a repair is over, before the line is used. A day is the longest time that is in use (from memory).]])
* action[+]
  * insert Ask(splint-removal-after-repair, splint-removal, splint-removal)
  * title = "Take the splint off a repaired segment"
  * insert WhenDone(repair)
  * insert After(48, h)
  * documentation[+] insert CommonPractice([[the splint of a repaired segment comes off after 48 hours.]])
  * documentation[+] insert Note([[Where the instructions of the repair kit give another time, they come first.]])

RuleSet: WhileDamaged
* insert On(line)
* insert On(lumen)
* insert WhenFound(damage)
* insert Until([[%answered.exists()]])
