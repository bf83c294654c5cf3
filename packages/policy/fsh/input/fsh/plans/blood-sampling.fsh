Instance: BloodSampling
InstanceOf: PlanDefinition
Usage: #definition
* insert Plan(blood-sampling, BloodSampling, Blood draws through the line)
* description = "A layer over the base: the steps of a blood draw with their volumes. The flush and the lock that follow a draw stand in the base. Values of common practice stand beside the published ones; local policy says which count."
* action[+]
  * insert Ask(blood-sampling, blood-sampling, blood-sampling)
  * title = "Blood draw through the line"
  * insert On(lumen)
  * insert WhenOrdered(blood-sampling)
  * documentation[+] insert WithoutSource(Published and common practice, [[Common practice, no source: 6 mL discarded before, 3 mL saline after, clamps on before any cap comes off, both lumens of a two-lumen line irrigated and clamped. RNAO, node 805: discard 3 to 6 mL or 2 × dead space, 6 × for coagulation (seen). Royal Marsden Manual, chapter 13: 5 to 10 mL (seen).]])
  * documentation[=].url = "https://bpgmobile.rnao.ca/node/805"
  * documentation[+] insert Note([[Order of draw: CLSI GP41 (from memory). A coagulation sample: flush 5 mL, then discard 5 mL or 6 × dead space: CLSI H21-A5 (from memory). A new connector before a blood culture: INS, IDSA (from memory).]])
