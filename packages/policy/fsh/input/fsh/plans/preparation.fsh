Instance: Preparation
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(preparation, Preparation, What is done before a planned insertion)
* description = "A layer over the base for units that prepare patients for a line: counted back from the planned insertion are the teaching, the look at platelets and INR, the antiseptic wash of the evening before, the supplies, and the skin. The limits of the laboratory are published; the times are common practice, no source."
* action[+]
  * id = "planned-insertion"
  * title = "Put the line in"
  * code = $activity#insertion
  * insert WhenOrdered(insertion)
  * documentation[+] insert CommonPractice([[the insertion that the preparation is counted back from.]])
* action[+]
  * insert Ask(teaching-before-insertion, teaching, teaching-before-insertion)
  * title = "Explain the line before it goes in"
  * insert Before(planned-insertion, 24, h)
  * insert Lead(14, d)
  * documentation[+] insert CommonPractice([[patient and family are told what is to come a day before at the latest, and have time to ask.]])
* action[+]
  * insert Ask(laboratory-review-before-insertion, laboratory-review, laboratory-review)
  * title = "Look at platelets and INR before the insertion"
  * insert Before(planned-insertion, 24, h)
  * insert Lead(6, d)
  * documentation[+] insert Sir2019
  * documentation[+] insert CommonPractice([[baseline results are looked at a day before at the latest.]])
* action[+]
  * insert Ask(laboratory-review-limits, laboratory-review, laboratory-review)
  * title = "Act on low platelets, a high INR, or results that are missing"
  * priority = #urgent
  * insert Before(planned-insertion, 48, h)
  * insert Lead(5, d)
  * insert While(%labs.platelets < 20 '10*9/L' or %labs.inr > 2 '1')
  * documentation[+] insert Sir2019
  * documentation[+] insert Reason([[A missing, stale or unreadable result counts as one beyond the limit, so that somebody asks for it in time. SIR 2012 gave 50 10^9/L for platelets (from memory): a unit that keeps it lays its own rule over this one.]])
* action[+]
  * insert Ask(bath-evening-before-insertion, bath, bath-before-insertion)
  * title = "Antiseptic wash the evening before the insertion"
  * insert Before(planned-insertion, 6, h)
  * insert Hour(20:00:00)
  * insert Lead(4, h)
  * documentation[+] insert CommonPractice([[an antiseptic wash the evening before; here the last 20:00 that is six hours or more before.]])
* action[+]
  * insert Ask(insertion-preparation, insertion-preparation, insertion-preparation)
  * title = "Get patient, papers and supplies ready"
  * insert Before(planned-insertion, 1, h)
  * insert Lead(3, h)
  * documentation[+] insert FromMemory(CDC 2011, [[CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections: maximal sterile barrier precautions for the insertion of a central line (category IB); from memory]])
  * documentation[+] insert CommonPractice([[everything lies ready an hour before.]])
* action[+]
  * insert Ask(skin-preparation, skin-preparation, skin-preparation)
  * title = "Prepare the skin"
  * insert Before(planned-insertion, 0, h)
  * insert Lead(1, h)
  * documentation[+] insert FromMemory(CDC 2011, [[CDC-HICPAC 2011, skin preparation: more than 0.5 % chlorhexidine in alcohol before a central line is put in (category IA); the antiseptic dries as its maker says (category IB); from memory]])
  * documentation[+] insert FromMemory(INS 2021, [[INS 2021, drying and contact times of antiseptics: chlorhexidine in alcohol about 20 to 30 seconds, povidone-iodine 1.5 to 2 minutes or more; the longer is taken; from memory, to be checked]])

RuleSet: Sir2019
* insert Seen(SIR 2019, [[Society of Interventional Radiology 2019, consensus guidelines for thrombotic and bleeding risk, part II, procedures of low bleeding risk (tunneled and non-tunneled central lines and ports among them): platelets below 20 10^9/L are to be thought of for transfusion, an INR is to be brought to 2.0 to 3.0 or less; screening is not routine without a risk of bleeding. Read in a summary]])
* url = "https://reference.medscape.com/viewarticle/917397"
