Instance: Dialysis
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(dialysis, Dialysis, [[Dialysis catheters of a unit with sessions on Monday, Wednesday and Friday]])
* description = "A unit layer over the base for dialysis catheters: lock and care of the exit site at each session, here Monday, Wednesday and Friday by 20:00. Change days and time to those of the unit."
* insert IsForDialysis
* insert IsIdle
* action[+]
  * id = "session"
  * insert EveryWeekOn(mon)
  * insert EveryWeekOn(wed)
  * insert EveryWeekOn(fri)
  * insert Hour(20:00:00)
  * insert While(%isForDialysis)
  * action[+]
    * insert Ask(lock-dialysis-session, lock, lock-dialysis-session)
    * title = "Lock at the end of each session"
    * insert On(lumen)
    * insert While(%isIdle)
    * documentation[+] insert PreClot([[, at each session.]])
    * documentation[+] insert Note([[Days and time are invented: put those of the unit in their place.]])
  * action[+]
    * insert Ask(dressing-change-dialysis-session, dressing-change, dressing-change-dialysis)
    * title = "Care for the exit site at each session"
    * insert On(exit-site)
    * insert While(%line.dressing != 'no-dressing')
    * documentation[+] insert Cdc2011Seen([[(category IB): povidone-iodine, or bacitracin/gramicidin/polymyxin B, ointment at the exit site of a dialysis catheter after insertion and at the end of each session, if the material allows it]])
    * documentation[+] insert Note([[Days and time are invented: put those of the unit in their place. KHA-CARI asks for a dressing change weekly, or sooner if soiled or not intact (from memory, secondary).]])
