// Conditions that are asked again and again, each written once. A plan inserts the names that its rules use.

// Of an implanted port only while a needle is in.
RuleSet: HasExitSite
* insert Named(hasExitSite, [[%line.type != 'implanted-port' or %line.accessed]])

// The vein, or the port’s pocket, was opened through an incision of its own.
RuleSet: HasIncision
* insert Named(hasIncision, [[%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter' | 'implanted-port')]])

// Of a known type only: rules of types that contradict each other never meet on one line.
RuleSet: IsForDialysis
* insert Named(isForDialysis, [[%line.type.exists() and %line.type in ('tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')]])

// Leaves the skin, is not for dialysis, and has a lumen that may be idle for weeks.
RuleSet: IsForInfusions
* insert Named(isForInfusions, [[%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'midline')]])

// Leaves the skin and ends in a central vein: air may get in where it was.
RuleSet: IsCentralCatheter
* insert Named(isCentralCatheter, [[%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')]])

// A lumen whose use is not known is read as idle.
RuleSet: IsIdle
* insert Named(isIdle, [[%lumen.use != 'infusing']])

RuleSet: IsNeonate
* insert Named(isNeonate, [[%patient.ageDays <= 28]])

// The first year of life is over 366 days after the birth, the longest that it can take.
RuleSet: IsInfant
* insert Named(isInfant, [[%patient.ageDays < 366]])

RuleSet: IsPastFirstYear
* insert Named(isPastFirstYear, [[%patient.ageDays >= 366]])

// 18 years begin 6575 days after the birth, the longest that they can take. An age that is not known is read as a child’s.
RuleSet: IsChild
* insert Named(isChild, [[%patient.ageDays < 6575]])

RuleSet: IsOutpatient
* insert Named(isOutpatient, [[%patient.setting in ('home' | 'ambulatory')]])

RuleSet: IsNewLine
* insert Named(isNewLine, [[%line.dwellDays <= 1]])

// The lumen was found open since, and nothing was wrong with its patency then.
RuleSet: IsFoundOpen
* insert Named(isFoundOpen, [[%lumen.foundOpen > %began]])
* insert InWords(the lumen is found open)

// From how many degrees on a temperature is a fever. Home care sheets of two hospitals: 100.5 °F or 38.0 °C.
RuleSet: IsFever
* insert Named(isFever, [[(%found.fever.exists() and %found.fever = %began) or %latest.bodyTemperature >= 38.0 'Cel']])

// Whoever is responsible lets the line be used again.
RuleSet: IsCleared
* insert Named(isCleared, [[%found.clearedForUse > %began]])
* insert InWords(a clinician clears the line for use)

// One episode of fever is one work-up of the patient: a temperature within a day of it belongs to the same episode. Fever
// that is charted as such, shivers after a flush among it, is news at any time.
RuleSet: IsNewFever
* insert Named(isNewFever, [[(%found.fever.exists() and %found.fever = %began) or %last.feverResponse.exists().not() or %began > %last.feverResponse + 24 hours]])
