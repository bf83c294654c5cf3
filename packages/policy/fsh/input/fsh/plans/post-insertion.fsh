Instance: PostInsertion
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(post-insertion, PostInsertion, [[The first hours, the first dressing and the stitches of a new line]])
* description = "A layer over the base for units that receive new lines: the site and the vein incision are looked at every 15 minutes in the first hour and every hour in the next four, every lumen is tested, the first dressing is changed the day after, the vein incision is cleaned and dressed daily until it has healed, a new site that drains much or swells has first steps (the same as in the layer trouble), and the stitches of a tunneled line come out after three weeks. Common practice, no source, but for the first dressing."
* insert HasExitSite
* insert HasIncision
* insert IsNewLine
* action[+]
  * id = "first-looks"
  * insert While(%isNewLine)
  * insert OnlyIfKnown
  * documentation[+] insert CommonPractice([[after an insertion look for bleeding, haematoma and swelling every 15 minutes four times, then every hour four times.]])
  * documentation[+] insert NewLineIfKnown
  * action[+]
    * insert Ask(site-assessment-first-hour-exit-site, site-assessment, site-assessment-first)
    * title = "Look at the new exit site, first hour"
    * insert On(exit-site)
    * insert FirstHour
  * action[+]
    * insert Ask(site-assessment-first-day-exit-site, site-assessment, site-assessment-first)
    * title = "Look at the new exit site, hours two to five"
    * insert On(exit-site)
    * insert HoursTwoToFive
  * action[+]
    * insert Ask(site-assessment-first-hour-incision, site-assessment, site-assessment-first)
    * title = "Look at the new incision, first hour"
    * insert On(incision)
    * insert While(%hasIncision)
    * insert FirstHour
  * action[+]
    * insert Ask(site-assessment-first-day-incision, site-assessment, site-assessment-first)
    * title = "Look at the new incision, hours two to five"
    * insert On(incision)
    * insert While(%hasIncision)
    * insert HoursTwoToFive
* action[+]
  * insert Ask(patency-assessment-first, patency-assessment, patency-assessment-first)
  * title = "Test every lumen of a new line"
  * insert On(lumen)
  * insert Once(1, h)
  * insert While(%isNewLine)
  * insert While(%hasExitSite)
  * insert OnlyIfKnown
  * documentation[+] insert CommonPractice([[every lumen of a new line is tested in the first hour: blood drawn back, flushed in pulses, never forced, the lumens compared; every clamp closed before any cap comes off.]])
  * documentation[+] insert Note([[Pulses of about 1 mL: INS, MASCC (from memory).]])
  * documentation[+] insert NewLineIfKnown
* action[+]
  * insert Ask(dressing-change-first, dressing-change, dressing-change-first)
  * title = "Change the first dressing the day after the insertion"
  * insert On(exit-site)
  * insert Once(1, d)
  * insert While(%line.dwellDays <= 7)
  * insert While([[%line.type in ('picc' | 'tunneled-cvc')]])
  * insert OnlyIfKnown
  * documentation[+] insert G004([[peripherally inserted and tunneled catheters: full care of the site the day after the insertion, then weekly]])
  * documentation[+] insert Note([[A regional guideline. CDC, SHEA and INS have no rule of their own for the first dressing; common policy changes a gauze or blood-stained one within 24 hours (from memory).]])
  * documentation[+] insert NewLineIfKnown
* action[+]
  * insert Ask(dressing-change-incision, dressing-change, dressing-change-incision)
  * title = "Clean and dress the vein incision until it has healed"
  * insert On(incision)
  * insert While(%hasIncision)
  * insert While([[%latest.incisionHealed.not()]])
  * insert While([[%latest.incisionHealed.exists() or (%line.dwellDays.exists() and %line.dwellDays <= 21)]])
  * insert Every(1, d)
  * documentation[+] insert CommonPractice([[the vein incision is cleaned and dressed daily until it has healed; every clamp closed before any cap comes off.]])
  * documentation[+] insert Note([[No guideline gives a day on which it has healed: the record has to say so (finding incision-healed). Where it says nothing it counts as not healed for three weeks, after which the stitches come out: common practice, no source. Where it says that it has not healed, for as long as it says so.]])
* action[+]
  * insert Ask(suture-removal-tunneled, suture-removal, suture-removal)
  * title = "Take out the stitches of a tunneled line"
  * insert On(exit-site)
  * insert Once(21, d)
  * insert While(%line.sutured)
  * insert While([[%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter')]])
  * insert OnlyIfKnown
  * documentation[+] insert CommonPractice([[the stitches at the exit site of a tunneled, cuffed line come out after about 3 weeks, when the cuff has healed in.]])
  * documentation[+] insert Reason([[Asked for only where the record says that there are stitches.]])
* action[+]
  * insert NewSite

RuleSet: FirstHour
* insert Every(15, min)
* insert AtMost(4, 1, h)

RuleSet: HoursTwoToFive
* insert Every(1, h)
* insert AtMost(8, 5, h)
