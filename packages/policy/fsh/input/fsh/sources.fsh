// Published sources that are cited in several places. The text says the rest: where in it, and whether from memory.

RuleSet: Cdc2011(text)
* insert FromMemory(CDC 2011, [[CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, {text}]])

RuleSet: Cdc2011Seen(text)
* insert Seen(CDC 2011, [[CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, {text}]])

RuleSet: Cdc2017(text)
* insert Seen(CDC 2017, [[CDC 2017, Recommendations on the Use of Chlorhexidine-Impregnated Dressings (update of the 2011 guidelines), {text}]])
* url = "https://www.cdc.gov/infectioncontrol/guidelines/bsi/c-i-dressings/"

RuleSet: Shea2022(text)
* insert FromMemory(SHEA/IDSA/APIC 2022, [[SHEA/IDSA/APIC 2022, Strategies to prevent central line-associated bloodstream infections in acute-care hospitals, essential practice{text}]])

// What its licensed summary shows.
RuleSet: Shea2022Seen(text)
* insert Seen(SHEA/IDSA/APIC 2022, [[SHEA/IDSA/APIC 2022, Strategies to prevent central line-associated bloodstream infections in acute-care hospitals, essential practice{text}]])
* url = "https://www.guidelinecentral.com/guideline/2117032"

RuleSet: Shea2008(text)
* insert Seen(SHEA/IDSA 2008, [[SHEA/IDSA 2008 compendium{text}]])
* url = "https://eguideline.guidelinecentral.com/i/53995"

RuleSet: Ins(years, text)
* insert FromMemory(INS, [[INS {years}, Infusion Therapy Standards of Practice: {text}]])

RuleSet: French2020(text)
* insert Seen(French consensus 2020, [[French intensive care expert consensus 2020, table 2: {text}]])
* url = "https://annalsofintensivecare.springeropen.com/articles/10.1186/s13613-020-00713-4/tables/2"

RuleSet: G004(text)
* insert Seen(NHS Ayrshire & Arran G004, [[NHS Ayrshire & Arran, guideline G004 (adult cancer care, Scotland): {text}]])

RuleSet: PreClot(text)
* insert Seen(PreCLOT protocol, [[PreCLOT trial (PMC1459124, results 2011): lumens of dialysis catheters locked three times a week{text}]])
* url = "https://www.ncbi.nlm.nih.gov/pmc/articles/PMC1459124/"

RuleSet: HomeCareSheet(text)
* insert Seen(Home care sheet, [[A public home care sheet of a university hospital for tunneled catheters: {text}]])
